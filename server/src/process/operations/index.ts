/** The cuts that make a feature with this shop's tools, in their order; worked out once for a feature in its surroundings. */
import type { BodyShape, Solid, Void } from '../../geometry/types';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import { FACES, type Feature, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { beside } from '../access/column';
import { facesToJudge } from '../milling';
import { stockBody } from '../stock/stock';
import { cutBefore, toolAsked } from './asked';
import { asFinished } from './finish-feed';
import { chamferOperations, engravingOperations, roundOperations, undercutOperations } from './form-cutters';
import { holeOperations } from './holes';
import { inclineOperations } from './inclines';
import { inHolder, machineFor } from './machine';
import { outlineOperations } from './outlines';
import type { Operation } from './types';

export type * from './types';

interface Kept {
  readonly shop: Shop;
  readonly part: readonly unknown[];
  readonly near: readonly Void[];
  readonly operations: readonly Operation[];
  /** Asked again of the same part nothing need be compared. */
  readonly solid: Solid;
  readonly setups: Part['setups'];
  readonly stock: Part['stock'];
}
const kept = new WeakMap<Feature, readonly Kept[]>();
/** The text's own set-ups, and each of the faces up that a planner tries. */
const KEEP = 8;

/**
 * Empty for what removes nothing. Worked out anew only when the
 * feature or something beside it changed.
 */
export function operationsOf(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const all = kept.get(feature) ?? [];
  const { setups, stock } = part;
  const named = [part.material?.name, part.tolerance?.name];
  const again = all.find((k) => k.shop === shop && k.solid === solid && k.setups === setups && k.stock === stock);
  if (again && again.part[0] === named[0] && again.part[1] === named[1]) return again.operations;
  const near = solid.voidsOf(feature.name).flatMap((v) => beside(v, solid));
  // Set-ups narrow the faces it is cut from, name tools, and the machine.
  const told = [
    facesToJudge(feature, part, solid).join(),
    toolAsked(feature.name, part, shop)?.name ?? '',
    ...sizeOf(stockBody(part)),
    [...cutBefore(feature.name, part)].filter((name) => isFace(name) || near.some((v) => v.feature === name)).join(),
  ].join(' ');
  const from = [...named, solid.body, told, machineFor(part, shop, feature.name)];
  const unchanged = all.find((k) => k.shop === shop && same(k.part, from) && same(k.near, near));
  const operations =
    unchanged?.operations ?? work(feature, part, solid, shop).map((o) => asFinished(inHolder(o, shop), shop));
  const others = all.filter((k) => k !== unchanged);
  kept.set(feature, [...others.slice(1 - KEEP), { shop, part: from, near, operations, solid, setups, stock }]);
  return operations;
}

function isFace(name: string): boolean {
  return (FACES as readonly string[]).includes(name);
}

function sizeOf({ box, ...shape }: BodyShape): readonly number[] {
  return [...box.min, ...box.max, 'radius' in shape ? shape.radius : 0];
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}

function work(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  if (solid.voidsOf(feature.name).length === 0) return [];
  return ofForm(OPERATIONS, feature, part, solid, shop);
}

const OPERATIONS: ByForm<[part: Part, solid: Solid, shop: Shop], readonly Operation[]> = {
  hole: holeOperations,
  opening: outlineOperations,
  channel: (channel, part, solid, shop) => [
    ...outlineOperations(channel, part, solid, shop),
    ...(channel.tee || channel.dovetail ? undercutOperations(channel, part, solid, shop) : []),
  ],
  shoulder: outlineOperations,
  outside: outlineOperations,
  edge: (edge, part, solid, shop) =>
    edge.kind === 'chamfer' ? chamferOperations(edge, part, solid, shop) : roundOperations(edge, part, solid, shop),
  ring: (ring, part, solid, shop) =>
    ring.in ? undercutOperations(ring, part, solid, shop) : outlineOperations(ring, part, solid, shop),
  letters: engravingOperations,
  slope: inclineOperations,
};
