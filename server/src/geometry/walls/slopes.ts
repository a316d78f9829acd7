/**
 * Walls under the slope of a broken edge: between a chamfer or a round and another cut. What stands beside its two rims is
 * the wall of other cuts and faces; only a line that meets the slope itself, between its rims, is a wall of its own.
 */

import { heed } from '../../effort';
import { ROUNDING } from '../../tolerance';
import type { Surroundings } from '../distance/line-of-material';
import { depthOf, intoFrame } from '../frame';
import type { Solid, Vec3, Void, Wall } from '../types';
import { boxesMeet } from '../vector';
import { pairWall } from './pairs';

/** Up to so wide an edge is only broken: what is left under it is hardly less than under the corner. Common practice, no source, mm. */
const BROKEN_MM = 1;
/** Nearer to a rim than this is at the rim, mm. */
const RIM_MM = 1e-3;

/** Wide enough for a slope. */
export function isSlope(v: Void): boolean {
  return v.role === 'edge' && Math.min(...legsOf(v)) > BROKEN_MM + ROUNDING;
}

/** How wide it is on the two sides of its edge. */
function legsOf(v: Void): readonly [number, number] {
  const depth = v.to - v.from;
  if (v.profile.type === 'taper') return [Math.abs(v.profile.insetTo - v.profile.insetFrom), depth];
  if (v.profile.type === 'round') return [v.profile.radius, depth];
  const { edges } = v.region.outer;
  const ends = edges.flatMap((e) => (e.type === 'line' ? [e.a, e.b] : []));
  return [Math.max(0, ...ends.map((p) => p.u)), Math.max(0, ...ends.map((p) => p.v))];
}

/** The wall between a cut and a slope, where the shortest line meets the slope between its rims. */
export function slopeWall(v: Void, slope: Void, s: Surroundings): Wall | undefined {
  // Only the nearest place: where that is cut away, so is nearly always all of it.
  const wall = pairWall(v, slope, { ...s, maySearch: () => false }, s.belowMm);
  if (!wall) return undefined;
  const at = wall.a === slope ? wall.at[0] : wall.at[1];
  return isBetweenRims(slope, at) ? wall : undefined;
}

function isBetweenRims(slope: Void, p: Vec3): boolean {
  const { u, v } = intoFrame(slope.frame, p);
  const w = depthOf(slope.frame, p);
  const ends = slope.profile.type === 'straight' ? [u, v] : [w - slope.from, slope.to - w];
  return ends.every((mm) => mm > RIM_MM);
}

/** A cut that comes out through a straight slope, and through neither of the faces beside it. */
export interface Opening {
  readonly cut: Void;
  readonly slope: Void;
  readonly at: Vec3;
}

/** One for each pair of features: through a slope runs what was meant to lie under the corner. */
export function openSlopes(solid: Solid): readonly Opening[] {
  const found = new Map<string, Opening>();
  const slopes = solid.voids.filter((v) => v.role === 'edge' && v.profile.type === 'straight');
  for (const slope of slopes) {
    heed(solid.voids.length);
    for (const cut of solid.voids) {
      const pair = `${cut.feature} ${slope.feature}`;
      if (cut.role === 'edge' || cut.role === 'engraving' || found.has(pair)) continue;
      if (!boxesMeet(cut.bounds, slope.bounds) || !isInside(cut, slope) || !(solid.sharedMm3(cut, slope) > SHARED_MM3))
        continue;
      found.set(pair, { cut, slope, at: middleOf(cut, slope) });
    }
  }
  return [...found.values()];
}

const SHARED_MM3 = 0.01;

/** Along both sides of the edge the cut stays within the body. */
function isInside(cut: Void, { frame }: Void): boolean {
  return [frame.u, frame.v].every((way) => {
    const i = ([0, 1, 2] as const).find((k) => Math.abs(way[k]) > 0.5)!;
    const first = way[i] > 0 ? cut.bounds.min[i] - frame.origin[i] : frame.origin[i] - cut.bounds.max[i];
    return first > RIM_MM;
  });
}

/** The middle of what both bounds share. */
function middleOf({ bounds: a }: Void, { bounds: b }: Void): Vec3 {
  const at = (i: 0 | 1 | 2) => (Math.max(a.min[i], b.min[i]) + Math.min(a.max[i], b.max[i])) / 2;
  return [at(0), at(1), at(2)];
}
