/**
 * Cut half from each side: what no tool on hand reaches the bottom of from any side, or what the jaws are in the way of, and
 * is open to both ends, becomes two items, one for each side.
 */
import type { Solid } from '../geometry/types';
import { type Face, OPPOSITE, type Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import { fromOn } from '../process/access/finished';
import { isCutFromBoth } from '../process/stock/removes';
import type { Share } from '../process/stock/types';
import { AT_THE_JAWS } from './at-the-ends';
import { facesOf, type Mask, maskOf } from './directions';
import { EDGE_STAGE, type Item } from './item';
import type { Refusal } from './trial';

interface World {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
}

/** What no tool reaches the bottom of: before anything is planned. */
export function halved(items: readonly Item[], world: World): readonly Item[] {
  return inTwo(items, (item) => (reachedFromNone(item, world) ? sidesOf(item, world, ALL) : undefined));
}

/**
 * What jaws, stop or holder were in the way of, looked at from a side it could be cut from: half of it may stand clear above
 * them. Undefined where there is nothing of the kind.
 */
export function halvedAtJaws(
  items: readonly Item[],
  refusals: ReadonlyMap<number, readonly Refusal[]>,
  world: World,
): readonly Item[] | undefined {
  const made = inTwo(items, (item) => {
    const ups = (refusals.get(item.index) ?? []).filter(isInTheWay).map((r) => r.pose.bit);
    if (ups.length === 0) return undefined;
    const pair = sidesOf(
      item,
      world,
      ups.reduce((a, b) => a | b, 0),
    );
    return pair && { ...pair, halvedFor: 'jaws' };
  });
  return made === items ? undefined : made;
}

function isInTheWay({ pose, why: { rule, facts } }: Refusal): boolean {
  return (
    !pose.by &&
    (AT_THE_JAWS.has(rule) || rule === 'hold/cut-free' || (rule === 'access/holder' && facts.meets !== undefined))
  );
}

const ALL: Mask = 63;

interface Sides {
  readonly one: Face;
  readonly other: Face;
  readonly halvedFor?: 'jaws';
}

function inTwo(items: readonly Item[], sides: (item: Item) => Sides | undefined): readonly Item[] {
  const second = new Map<number, Item>();
  const made = items.map((item) => {
    const pair = item.share ? undefined : sides(item);
    if (!pair) return item;
    const { one, other, halvedFor } = pair;
    const { brings: _, ...half } = { ...item, share: 'half' as const, ...(halvedFor && { halvedFor }) };
    second.set(item.index, { ...half, index: items.length + second.size, from: maskOf([other]) });
    return { ...half, from: maskOf([one]) };
  });
  if (second.size === 0) return items;
  // What waits for the one half waits for the other too.
  const both = (after: readonly number[]) =>
    after.flatMap((a) => [a, ...(second.has(a) ? [second.get(a)!.index] : [])]);
  return [...made, ...second.values()].map((i) => ({
    ...i,
    after: both(i.after),
    ...(i.rather && { rather: both(i.rather) }),
  }));
}

/** The two sides that it is cut from, each to a little beyond the middle; one of them among `ups`. */
function sidesOf({ feature, face, from, stage }: Item, world: World, ups: Mask): Sides | undefined {
  const { part, solid } = world;
  // A fit is made in one go, or its two ends are not in line; a thread that is begun anew does not run on.
  if (stage >= EDGE_STAGE || (feature?.kind === 'hole' && (feature.diameter.tolerance || feature.thread)))
    return undefined;
  const what = feature ?? face!;
  for (const one of facesOf(from)) {
    const other = OPPOSITE[one];
    if (one > other || (maskOf([one, other]) & ups) === 0 || !isCutFromBoth(what, one, part, solid)) continue;
    if (!feature || [one, other].every((up) => !lacks(feature, up, 'half', world))) return { one, other };
  }
  return undefined;
}

/** On the finished surroundings no tool gets to the bottom of it from any side: nowhere does less stand in the way. */
function reachedFromNone({ feature, from, stage }: Item, world: World): boolean {
  if (!feature || from === 0 || stage >= EDGE_STAGE) return false;
  return facesOf(from).every((up) => lacks(feature, up, undefined, world));
}

function lacks(feature: NonNullable<Item['feature']>, up: Face, share: Share | undefined, world: World): boolean {
  const { part, solid, shop } = world;
  const alone: Part = part.setups ? { ...part, setups: [] } : part;
  const verdict = fromOn(feature, up, { part: alone, solid, shop }, share);
  return verdict?.short !== undefined || verdict?.holder !== undefined;
}
