/** The cuts that make a feature with this shop's tools, in their order; worked out once for a feature in its surroundings. */
import type { BodyShape, Solid, Void } from '../../geometry/types';
import { type ByForm, type FeatureForm, type Forms, homeOf, ofForm } from '../../model/feature-kinds';
import { FACES, type Feature, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { beside } from '../access/column';
import { facesToJudge } from '../milling';
import { stockBody } from '../stock/stock';
import { cutBefore, cutFromBothSides, toolAsked } from './asked';
import { discOperation } from './disc-cuts';
import { asFinished } from './finish-feed';
import { chamferOperations, engravingOperations, roundOperations, undercutOperations } from './form-cutters';
import { holeOperations } from './holes';
import { inclineOperations } from './inclines';
import { inHolder, machineFor } from './machine';
import { outlineOperations } from './outlines';
import type { Operation } from './types';
import { StockThen } from './widths';

export type * from './types';

interface Kept {
  readonly shop: Shop;
  readonly part: readonly unknown[];
  readonly near: readonly Void[];
  /** The stock as it stands then, where that was asked for: what is walled all round has only to do with itself. */
  readonly stands: string | undefined;
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
    cutFromBothSides(feature.name, part),
    ...(BY_LIE.has(homeOf(feature).form) ? liesFor(feature.name, part) : []),
  ].join(' ');
  const from = [...named, solid.body, told, machineFor(part, shop, feature.name)];
  const stands = () =>
    [
      ...sizeOf(stockBody(part)),
      [...cutBefore(feature.name, part)].filter((name) => isFace(name) || near.some((v) => v.feature === name)),
    ].join(' ');
  const hit = all.find(
    (k) =>
      k.shop === shop && same(k.part, from) && same(k.near, near) && (k.stands === undefined || k.stands === stands()),
  );
  const made = hit ?? madeAnew(feature, part, solid, shop, stands);
  const others = all.filter((k) => k !== hit);
  kept.set(feature, [...others.slice(1 - KEEP), { ...made, shop, part: from, near, solid, setups, stock }]);
  return made.operations;
}

function madeAnew(
  feature: Feature,
  part: Part,
  solid: Solid,
  shop: Shop,
  stands: () => string,
): Pick<Kept, 'operations' | 'stands'> {
  const stock = new StockThen(part);
  const made = work(feature, part, solid, shop, stock).map((o) => asFinished(inHolder(o, shop), shop));
  return { operations: made, stands: stock.asked ? stands() : undefined };
}

/** Which of their cuts it is depends on how the work lies for them. */
const BY_LIE: ReadonlySet<FeatureForm> = new Set(['edge', 'slope']);

function liesFor(name: string, { setups = [] }: Part): readonly string[] {
  return setups.flatMap(({ up, hold, cuts }) =>
    cuts.some((c) => c.name === name) ? [`${up?.name}${hold?.type === 'angle' ? ' at an angle' : ''}`] : [],
  );
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

function work(feature: Feature, part: Part, solid: Solid, shop: Shop, stock: StockThen): readonly Operation[] {
  if (solid.voidsOf(feature.name).length === 0) return [];
  return ofForm(OPERATIONS, feature, part, solid, shop, stock);
}

type Making = [part: Part, solid: Solid, shop: Shop, stock: StockThen];

const outlined = (feature: Feature, ...[part, solid, shop, stock]: Making) =>
  outlineOperations({ feature, part, shop }, solid, stock);

const OPERATIONS: ByForm<Making, readonly Operation[]> = {
  hole: holeOperations,
  opening: outlined,
  channel: (channel, ...making) => {
    const [part, solid, shop] = making;
    const [up] = facesToJudge(channel, part, solid);
    const sideways = discOperation(channel, { part, solid, shop }, up);
    if (sideways) return [sideways];
    const made = milledChannel(channel, ...making);
    // What no mill is thin and long enough for is sawn, where a saw on hand gets in and no set-up says otherwise.
    const told = (part.setups ?? []).some((s) => s.cuts.some((c) => c.name === channel.name));
    const lacking = !told && made.some((o) => o.does === 'missing' && o.lacks === 'mill');
    const sawn = lacking ? discOperation(channel, { part, solid, shop }) : undefined;
    return sawn?.does === 'slot' ? [sawn] : made;
  },
  shoulder: outlined,
  outside: outlined,
  edge: (edge, part, solid, shop) =>
    edge.kind === 'chamfer' ? chamferOperations(edge, part, solid, shop) : roundOperations(edge, part, solid, shop),
  ring: (ring, part, solid, shop, stock) =>
    ring.in ? undercutOperations(ring, part, solid, shop) : outlined(ring, part, solid, shop, stock),
  letters: engravingOperations,
  slope: inclineOperations,
};

function milledChannel(channel: Forms['channel'], ...making: Making): readonly Operation[] {
  const [part, solid, shop] = making;
  const milled = outlined(channel, ...making);
  return channel.tee || channel.dovetail ? [...milled, ...undercutOperations(channel, part, solid, shop)] : milled;
}
