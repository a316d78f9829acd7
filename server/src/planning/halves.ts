/**
 * Cut half from each side: what no tool on hand reaches the bottom of from any side, and is open to both
 * ends, becomes two items, one for each side.
 */
import type { Solid } from '../geometry/types';
import { type Face, OPPOSITE, type Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import { fromOn } from '../process/access/finished';
import { isCutFromBoth } from '../process/stock/removes';
import type { Share } from '../process/stock/types';
import { facesOf, maskOf } from './directions';
import type { Item } from './item';

interface World {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
}

export function halved(items: readonly Item[], world: World): readonly Item[] {
  const second = new Map<number, Item>();
  const made = items.map((item) => {
    if (item.share || !reachedFromNone(item, world)) return item;
    const pair = sidesOf(item, world);
    if (!pair) return item;
    const { brings: _, ...half } = { ...item, share: 'half' as const };
    const [a, b] = pair;
    second.set(item.index, { ...half, index: items.length + second.size, from: maskOf([b]) });
    return { ...half, from: maskOf([a]) };
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

/** The two sides that it is cut from, each to a little beyond the middle. */
function sidesOf({ feature, face, from, stage }: Item, world: World): readonly [Face, Face] | undefined {
  const { part, solid } = world;
  // A fit is made in one go, or its two ends are not in line; a thread that is begun anew does not run on.
  if (stage >= EDGES || (feature?.kind === 'hole' && (feature.diameter.tolerance || feature.thread))) return undefined;
  const what = feature ?? face!;
  for (const a of facesOf(from)) {
    const b = OPPOSITE[a];
    if (a > b || !isCutFromBoth(what, a, part, solid)) continue;
    if (!feature || [a, b].every((up) => !lacks(feature, up, 'half', world))) return [a, b];
  }
  return undefined;
}

/** Broken edges are shallow. */
const EDGES = 7;

/** On the finished surroundings no tool gets to the bottom of it from any side: nowhere does less stand in the way. */
function reachedFromNone({ feature, from, stage }: Item, world: World): boolean {
  if (!feature || from === 0 || stage >= EDGES) return false;
  return facesOf(from).every((up) => lacks(feature, up, undefined, world));
}

function lacks(feature: NonNullable<Item['feature']>, up: Face, share: Share | undefined, world: World): boolean {
  const { part, solid, shop } = world;
  const alone: Part = part.setups ? { ...part, setups: [] } : part;
  const verdict = fromOn(feature, up, alone, solid, shop, share);
  return verdict?.short !== undefined || verdict?.holder !== undefined;
}
