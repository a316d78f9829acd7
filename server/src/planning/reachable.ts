/**
 * From which faces a tool on hand gets to each thing that is cut, on the finished surroundings. At no time does less stand
 * there: what is out of reach then is out of reach in every setup, and the bound may count without it.
 */

import type { Box } from '../geometry/types';
import type { Face, Feature, Part } from '../model/model';
import { fromOn } from '../process/access/finished';
import { discWaysOf } from '../process/disc-ways';
import { operationsOf } from '../process/operations';
import { cutsSlopeFrom } from '../process/operations/slopes';
import { extent } from '../process/workholding/seats';
import { SAME } from '../tolerance';
import { facesOf, maskOf } from './directions';
import { EDGE_STAGE, type Item } from './item';
import type { ViseHeld } from './poses';
import { bySurplus } from './search';
import type { Trial } from './trial';

/** The items, each with the directions left that tools reach along; 0 where none does. With no shop of its own nothing is left out. */
export function reachable(items: readonly Item[], { part, solid, shop }: Trial): readonly Item[] {
  // A slope takes a cutter with its own flank, or held at its angle any.
  const level = items.map((item) => {
    const { feature } = item;
    if (feature?.kind !== 'slope') return item;
    return { ...item, from: maskOf(facesOf(item.from).filter((up) => cutsSlopeFrom(feature, up, solid, shop))) };
  });
  if (shop.builtIn) return withoutWaiting(level);
  const alone: Part = part.setups ? { ...part, setups: [] } : part;
  const within = level.map((item) => {
    const { feature } = item;
    // Of edges broken in several setups each has its own; a chamfer mill is short and stands on the edge.
    if (!feature || item.stage >= EDGE_STAGE) return item;
    const from = maskOf(
      facesOf(item.from).filter((up) => {
        const verdict = fromOn(feature, up, { part: alone, solid, shop }, item.share);
        return !verdict?.short && !verdict?.holder;
      }),
    );
    const reached = maskOf(sawnFrom(feature, { part: alone, solid, shop })) || from;
    return reached === item.from ? item : { ...item, from: reached };
  });
  return withoutWaiting(within);
}

/** What no mill gets to from above is cut from its side, where a disc on hand gets in. */
function sawnFrom(feature: Feature, inShop: Pick<Trial, 'part' | 'solid' | 'shop'>): readonly Face[] {
  const { solid } = inShop;
  if (!operationsOf(feature, inShop).some((o) => o.does === 'slot')) return [];
  return discWaysOf(feature, solid.voidsOf(feature.name), solid).flatMap((w) => w.ups);
}

/**
 * The same with the directions left in which the vises open wide enough to hold what will be there in the end; the jaws are
 * never on a face that is milled, but where they hold it by the stock underneath.
 */
export function inVises(items: readonly Item[], poses: readonly ViseHeld[], body: Box): readonly Item[] {
  const fits = poses.filter((p) => extent(body, p.jaws[0]) <= p.vise.opensMm + SAME);
  const open = (item: Item) =>
    fits.reduce(
      (mask, p) => (item.face && p.jaws.includes(item.face) && !bySurplus(p, items) ? mask : mask | p.bit),
      0,
    );
  return items.map((item) => {
    const from = item.from & open(item);
    return from === item.from ? item : { ...item, from };
  });
}

/** What must come after something that is never cut is never cut either. */
function withoutWaiting(items: readonly Item[]): readonly Item[] {
  const never = new Set(items.filter((i) => i.from === 0).map((i) => i.index));
  const next = items.map((i) => (i.from !== 0 && i.after.some((a) => never.has(a)) ? { ...i, from: 0 } : i));
  return next.every((i, k) => i === items[k]) ? items : withoutWaiting(next);
}
