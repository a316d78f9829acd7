/** The cuts that make a feature with this shop's tools, in their order; worked out once for a feature in its surroundings. */
import type { Solid } from '../../geometry/types';
import type { Feature, Part } from '../../spec/model';
import type { Shop } from '../../spec/shop-model';
import { holeOperations } from './holes';
import { chamferOperations, engravingOperations, roundOperations, undercutOperations } from './others';
import { outlineOperations } from './outlines';
import type { Operation } from './types';

export type * from './types';

const kept = new WeakMap<Solid, WeakMap<Feature, { readonly shop: Shop; readonly operations: readonly Operation[] }>>();

/** Empty for what takes no cut of its own (a leaning feature, one that removes nothing). */
export function operationsOf(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  let byFeature = kept.get(solid);
  if (!byFeature) {
    byFeature = new WeakMap();
    kept.set(solid, byFeature);
  }
  const known = byFeature.get(feature);
  if (known?.shop === shop) return known.operations;
  const operations = work(feature, part, solid, shop);
  byFeature.set(feature, { shop, operations });
  return operations;
}

function work(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  if (solid.voidsOf(feature.name).length === 0 || (feature.tilt && feature.tilt.angle.deg !== 0)) return [];
  switch (feature.kind) {
    case 'hole':
      return holeOperations(feature, part, solid, shop);
    case 'chamfer':
      return chamferOperations(feature, solid, shop);
    case 'round':
      return roundOperations(feature, solid, shop);
    case 'engraving':
      return engravingOperations(feature, solid, shop);
    case 'groove':
      return feature.in
        ? undercutOperations(feature, part, solid, shop)
        : outlineOperations(feature, part, solid, shop);
    case 'slot':
      return [
        ...outlineOperations(feature, part, solid, shop),
        ...(feature.tee || feature.dovetail ? undercutOperations(feature, part, solid, shop) : []),
      ];
    case 'incline':
      return [];
    default:
      return outlineOperations(feature, part, solid, shop);
  }
}
