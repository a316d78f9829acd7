/** The thinnest wall between two removed volumes, and between the arms of one. */
import { ROUNDING } from '../../tolerance';
import type { Surroundings } from '../distance/line-of-material';
import { outlineOf } from '../distance/outline';
import { bodyDepths, depthsIn, outlineIn, parallel, shared, widest } from '../distance/section';
import { insetAt } from '../solid/prism';
import type { Void, Wall } from '../types';
import { endsInFloor, floorWall } from './floors';
import { sideWall } from './sides';
import { skewWall } from './skew';

/** With one axis, and one begins where the other has ended. */
export function areStacked(a: Void, b: Void): boolean {
  if (parallel(a.frame.w, b.frame.w) === 0) return false;
  const wholeB = depthsIn(a.frame, b.frame, b);
  return wholeB.from >= a.to - ROUNDING || wholeB.to <= a.from + ROUNDING;
}

/**
 * Between two volumes; `a` and `b` in the walls may be exchanged, so that `a` is the one with the floor. Of stacked ones
 * that do not lie over each other, walls are looked for below `besideMm` alone.
 */
export function pairWall(a: Void, b: Void, s: Surroundings, besideMm: number): Wall | undefined {
  const way = parallel(a.frame.w, b.frame.w);
  if (way === 0) return skewWall(a, b, s);
  const wholeB = depthsIn(a.frame, b.frame, b);
  const beside = { ...s, belowMm: Math.min(s.belowMm, besideMm) };
  if (wholeB.from >= a.to - ROUNDING) return stacked(a, b, [a.to, wholeB.from, way], s, beside);
  if (wholeB.to <= a.from + ROUNDING) return stacked(a, b, [a.from, wholeB.to, way], s, beside);
  const [wideA, wideB] = [widest(a), widest(b)];
  const depths = shared(shared(wideA, depthsIn(a.frame, b.frame, wideB)), bodyDepths(a.frame, s.body));
  if (depths.to < depths.from - ROUNDING) {
    const both = shared(a, wholeB);
    return overlapOnly(skewWall(a, b, s), both.to - both.from);
  }
  const outlines = { a: outlineOf(a.region), insetA: wideA.inset, b: outlineIn(a.frame, b), insetB: wideB.inset };
  return sideWall(a, b, { frame: a.frame, ...outlines, depths }, s);
}

/** One over the other along a common axis. */
function stacked(
  a: Void,
  b: Void,
  [depthA, depthB, way]: readonly [number, number, 1 | -1],
  s: Surroundings,
  beside: Surroundings,
): Wall | undefined {
  const endB = way > 0 === depthB > depthA ? b.from : b.to;
  const ends = {
    a: outlineOf(a.region),
    insetA: insetAt(a, depthA),
    b: outlineIn(a.frame, b),
    insetB: insetAt(b, endB),
  };
  const floorOfA = depthA === a.to && endsInFloor(a);
  const floorOfB = endB === b.to && endsInFloor(b);
  const wall = floorWall(a, b, { frame: a.frame, ...ends, depthA, depthB }, floorOfA || floorOfB, s);
  if (wall) return floorOfB && !floorOfA ? { ...wall, a: b, b: a, at: [wall.at[1], wall.at[0]] } : wall;
  return overlapOnly(skewWall(a, b, beside), 0);
}

/** Volumes with one axis: the wall stands no higher than both overlap along it. */
function overlapOnly(wall: Wall | undefined, overlap: number): Wall | undefined {
  return wall && { ...wall, heightMm: Math.min(wall.heightMm, Math.max(0, overlap)) };
}

/** A convex outline has no stretch that faces another across material. */
export const mayFaceItself = (v: Void): boolean => !outlineOf(v.region).convex;

/** A neck of material between two stretches of one volume's own outline. */
export function armsWall(v: Void, s: Surroundings): Wall | undefined {
  const wide = widest(v);
  const depths = shared(wide, bodyDepths(v.frame, s.body));
  if (depths.to < depths.from - ROUNDING) return undefined;
  return sideWall(v, v, { frame: v.frame, a: outlineOf(v.region), insetA: wide.inset, insetB: wide.inset, depths }, s);
}
