/** The cuts that make a feature with this shop's tools, in their order; worked out once for a feature in its surroundings. */
import type { Solid, Void } from '../../geometry/types';
import type { Feature, Part } from '../../spec/model';
import type { Shop } from '../../spec/shop-model';
import { beside } from '../column';
import { holeOperations } from './holes';
import { chamferOperations, engravingOperations, roundOperations, undercutOperations } from './others';
import { outlineOperations } from './outlines';
import type { Operation } from './types';

export type * from './types';

interface Kept {
  readonly shop: Shop;
  readonly part: readonly unknown[];
  readonly near: readonly Void[];
  readonly operations: readonly Operation[];
}
const kept = new WeakMap<Feature, Kept>();

/**
 * Empty for what takes no cut of its own (a leaning feature, one that removes nothing). Worked out anew only when the
 * feature or something beside it changed.
 */
export function operationsOf(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const near = solid.voidsOf(feature.name).flatMap((v) => beside(v, solid));
  const from = [solid.body, part.material?.name, part.tolerance?.name];
  const known = kept.get(feature);
  if (known?.shop === shop && same(known.part, from) && same(known.near, near)) return known.operations;
  const operations = work(feature, part, solid, shop);
  kept.set(feature, { shop, part: from, near, operations });
  return operations;
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
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
