/**
 * What had rather be cut before what, where either order can be made: common practice, no source. A gap before the hole
 * that crosses it, so that the drill has less to go through and no wall is pushed in; what crosses a bore of a fit before the
 * bore, so that its burr is reamed away; bores and threads before the slit that opens them.
 */
import { heed } from '../effort';
import type { Solid, Void } from '../geometry/types';
import { boxesMeet, dot } from '../geometry/vector';
import { isChannel } from '../model/feature-kinds';
import type { Hole } from '../model/model';
import { opensBore } from '../process/drill-order';
import { EDGE_STAGE, type Item } from './item';

/** More pairs than this are not looked at: what a better order gains is little against so much cutting. */
const MOST_PAIRS = 4000;

/** Indices of what had rather be there before an item is cut. */
export function ratherAfter(item: Item, items: readonly Item[], solid: Solid): readonly number[] {
  const { feature } = item;
  if (!feature || items.length ** 2 > MOST_PAIRS) return [];
  heed(items.length);
  return items.filter((other) => other !== item && goesFirst(other, item, solid)).map((other) => other.index);
}

function goesFirst({ feature: a, stage }: Item, { feature: b }: Item, solid: Solid): boolean {
  if (!a || !b || a === b || stage >= EDGE_STAGE) return false;
  if (isChannel(b) && a.kind === 'hole') return opensBore(b, a, solid);
  if (b.kind !== 'hole') return false;
  if (a.kind === 'hole') return isOfAFit(b) && !isOfAFit(a) && cross(a.name, b.name, solid);
  // A slit goes after the bore that it opens: it is no gap to it.
  if (isChannel(a) && opensBore(a, b, solid)) return false;
  return cross(a.name, b.name, solid);
}

function isOfAFit({ diameter }: Hole): boolean {
  return diameter.tolerance !== undefined;
}

/** Some volume of the one runs across some of the other, and they meet in the part. */
function cross(a: string, b: string, solid: Solid): boolean {
  const across = (v: Void, w: Void) => Math.abs(dot(v.frame.w, w.frame.w)) < 0.5;
  return solid
    .voidsOf(a)
    .some((v) =>
      solid.voidsOf(b).some((w) => across(v, w) && boxesMeet(v.bounds, w.bounds) && solid.sharedMm3(v, w) > 0),
    );
}

/** How often a plan goes against it: pairs of which the second is cut in an earlier set-up. */
export function againstCraft(lots: readonly (readonly Item[])[]): number {
  const when = new Map<number, number>();
  for (const [i, lot] of lots.entries()) for (const { index } of lot) when.set(index, i);
  let n = 0;
  for (const [i, lot] of lots.entries())
    for (const { rather = [] } of lot) n += rather.filter((r) => (when.get(r) ?? -1) > i).length;
  return n;
}
