/**
 * Walls under the slope of a broken edge: between a chamfer or a round and another cut. What stands beside its two rims is
 * the wall of other cuts and faces; only a line that meets the slope itself, between its rims, is a wall of its own.
 */
import type { Surroundings } from '../distance/cover';
import { depthOf, intoFrame } from '../frame';
import type { Vec3, Void, Wall } from '../types';
import { pairWall } from './pairs';

/** Up to so wide an edge is only broken: what is left under it is hardly less than under the corner. Common practice, no source, mm. */
const BROKEN_MM = 1;
/** Nearer to a rim than this is at the rim, mm. */
const RIM_MM = 1e-3;

/** Wide enough for a slope. */
export function isSlope(v: Void): boolean {
  return v.role === 'edge' && Math.min(...legsOf(v)) > BROKEN_MM + 1e-9;
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
