/**
 * What had rather be cut before what, where either order can be made: common practice, no source. A gap before the hole
 * that crosses it, so that the drill has less to go through and no wall is pushed in; what crosses a bore of a fit before the
 * bore, so that its burr is reamed away; bores and threads before the slit that opens or crosses them. And holes of one screw
 * from one side, so that they are in line.
 */
import { heed } from '../effort';
import type { Solid, Void } from '../geometry/types';
import { boxesMeet, dot } from '../geometry/vector';
import { type Forms, isChannel } from '../model/feature-kinds';
import type { Feature, Hole } from '../model/model';
import { areInLine, opensBore } from './drill-order';

/** Why the first had rather be there when the second is cut; undefined where it had not. */
export function whyFirst(a: Feature, b: Feature, solid: Solid): 'gap' | 'burr' | 'slit' | undefined {
  if (a === b) return undefined;
  if (isChannel(b) && a.kind === 'hole')
    return opensBore(b, a, solid) || isSlitAcross(b, a, solid) ? 'slit' : undefined;
  if (b.kind !== 'hole') return undefined;
  if (a.kind === 'hole') return isOfAFit(b) && !isOfAFit(a) && cross(a.name, b.name, solid) ? 'burr' : undefined;
  // A slit goes after the bore that it opens, and after the screw that closes it: it is no gap to them.
  if (isChannel(a) && (opensBore(a, b, solid) || isSlitAcross(a, b, solid))) return undefined;
  return cross(a.name, b.name, solid) ? 'gap' : undefined;
}

/** How far a drill goes through what a gap takes away as well, at most, mm. */
export function drilledInMm(gap: Feature, hole: Hole, solid: Solid): number {
  const area = (Math.PI * hole.diameter.mm ** 2) / 4;
  const shared = solid
    .voidsOf(hole.name)
    .flatMap((v) => solid.voidsOf(gap.name).map((w) => (boxesMeet(v.bounds, w.bounds) ? solid.sharedMm3(v, w) : 0)));
  return Math.max(0, ...shared) / area;
}

/** Holes on one axis of which one goes on where another ends: a screw’s thread, its clearance, the seat of its head. */
export function isOfOneScrew(a: Feature, b: Feature, solid: Solid): boolean {
  if (a === b || a.kind !== 'hole' || b.kind !== 'hole' || a.tilt || b.tilt) return false;
  // What is reamed or bored to a fit from both sides is a pair of seats.
  return !isOfAFit(a) && !isOfAFit(b) && areInLine(a, b, solid);
}

/** No wider than the screw that goes across it, which closes it: sawn, not milled out. */
function isSlitAcross(slit: Forms['channel'], hole: Hole, solid: Solid): boolean {
  return slit.width.mm <= hole.diameter.mm && cross(slit.name, hole.name, solid);
}

function isOfAFit({ diameter }: Hole): boolean {
  return diameter.tolerance !== undefined;
}

/** Some volume of the one runs across some of the other, and they meet in the part. */
function cross(a: string, b: string, solid: Solid): boolean {
  const across = (v: Void, w: Void) => Math.abs(dot(v.frame.w, w.frame.w)) < 0.5;
  const [vs, ws] = [solid.voidsOf(a), solid.voidsOf(b)];
  heed(vs.length * ws.length);
  return vs.some((v) => ws.some((w) => across(v, w) && boxesMeet(v.bounds, w.bounds) && solid.sharedMm3(v, w) > 0));
}
