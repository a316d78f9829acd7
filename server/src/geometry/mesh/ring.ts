/**
 * Outlines as polygons: every edge in as many steps as the chord allows, the same number at every depth, so that the
 * polygons of two depths can be joined point by point.
 */
import { DIGITS, ROUNDING } from '../../tolerance';
import { circleEdge, isFullCircle, pointAt, sweepOf, TAU, tangentAt } from '../2d/edge';
import { cornerOf, directInset } from '../2d/offset';
import type { Edge, Loop, Point2, Profile, Region } from '../types';
import type { Corner } from './sides';

/** One edge (or opening corner) of an outline and the steps it is drawn in. */
export interface Stretch {
  readonly of: Edge | Corner;
  readonly steps: number;
}

/** A closed outline as stretches, one after the other. */
export type Chain = readonly Stretch[];

/** A closed polygon; the step from point i to the next belongs to stretch `of[i]`. */
export interface Ring {
  readonly points: readonly Point2[];
  readonly of: readonly number[];
}

/**
 * The steps a turn is drawn in so that a chord stays within `chordMm` of the arc. Sections of one outline at other
 * depths share the count, so it is taken for a circle half as large again.
 */
function stepsOf(radiusMm: number, sweep: number, chordMm: number): number {
  const r = radiusMm * 1.5;
  const step = r > chordMm ? 2 * Math.acos(1 - chordMm / r) : Math.PI / 4;
  const whole = Math.max(8, 4 * Math.ceil(TAU / step / 4));
  return Math.max(1, Math.ceil((whole * Math.abs(sweep)) / TAU - ROUNDING));
}

/** The loops of a region as chains, with corners that open where the insets have that sign. */
export function chainsOf(region: Region, profile: Profile, chordMm: number): readonly Chain[] {
  const reach = farthestInset(profile);
  return [region.outer, ...region.holes].map((loop) => chainOf(loop, reach, profile, chordMm));
}

function chainOf(loop: Loop, reach: number, profile: Profile, chordMm: number): Chain {
  const out: Stretch[] = [];
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    out.push({ of: e, steps: e.type === 'line' ? 1 : stepsOf(nominalRadius(e, profile), sweepOf(e), chordMm) });
    const next = loop.edges[(i + 1) % n]!;
    if (reach === 0 || n === 1 || cornerOf(e, next, reach) !== 'opens') continue;
    const [s, t] = [tangentAt(e, e.b), tangentAt(next, next.a)];
    const turn = Math.atan2(s.u * t.v - s.v * t.u, s.u * t.u + s.v * t.v);
    const steps = stepsOf(Math.abs(reach), turn, chordMm);
    out.push({ of: { type: 'corner', at: e.b, inward: reach > 0, from: s, to: t }, steps });
  }
  return out;
}

/**
 * A rounded rim ends on the outline that it was made from, whose own polygon it must meet. A dovetail meets nothing at
 * its wide end.
 */
function nominalRadius(e: Extract<Edge, { type: 'arc' }>, profile: Profile): number {
  if (profile.type === 'taper') return profile.insetTo < 0 && e.ccw ? e.radius - profile.insetTo : e.radius;
  if (profile.type !== 'round') return e.radius;
  return Math.abs(e.radius + (e.ccw ? -profile.radius : profile.radius));
}

function farthestInset(profile: Profile): number {
  switch (profile.type) {
    case 'straight':
      return 0;
    case 'taper':
      return Math.abs(profile.insetTo) > Math.abs(profile.insetFrom) ? profile.insetTo : profile.insetFrom;
    case 'floor':
    case 'round':
      return profile.radius;
    default:
      return profile satisfies never;
  }
}

/** The chains' polygons at an inset. Undefined where an edge has vanished. */
export function ringsAt(region: Region, chains: readonly Chain[], by: number): readonly Ring[] | undefined {
  const loops = [region.outer, ...region.holes];
  const rings: Ring[] = [];
  for (let i = 0; i < loops.length; i++) {
    const moved = movedLoop(loops[i]!, chains[i]!, by);
    if (!moved) return undefined;
    rings.push(ringOf(chains[i]!, moved));
  }
  return rings;
}

/** Each stretch's edge at this inset; a corner that has not opened yet stays undefined. */
function movedLoop(loop: Loop, chain: Chain, by: number): readonly (Edge | undefined)[] | undefined {
  const only = loop.edges[0]!;
  if (loop.edges.length === 1 && only.type === 'arc' && isFullCircle(only)) {
    const radius = only.radius + (only.ccw ? -by : by);
    if (radius < -ROUNDING) return undefined;
    const from = pointAt(only, 0);
    const k = Math.max(0, radius) / only.radius;
    const a = {
      u: only.centre.u + (from.u - only.centre.u) * k,
      v: only.centre.v + (from.v - only.centre.v) * k,
    };
    return [radius > DIGITS ? { ...only, a, b: a, radius } : { ...circleEdge(only.centre, 0), ccw: only.ccw }];
  }
  if (by === 0) return chain.map((s) => (s.of.type === 'corner' ? undefined : s.of));
  const edges = directInset({ outer: loop, holes: [] }, by);
  if (!edges) return undefined;
  if (edges.length === chain.length) return edges;
  // corners open only on one side of 0: on the other side there is no arc
  let at = 0;
  const corners = chain.filter((s) => s.of.type === 'corner').length;
  if (edges.length !== chain.length - corners) return undefined;
  return chain.map((s) => (s.of.type === 'corner' ? undefined : edges[at++]));
}

function ringOf(chain: Chain, moved: readonly (Edge | undefined)[]): Ring {
  const points: Point2[] = [];
  const of: number[] = [];
  chain.forEach((s, i) => {
    const e = moved[i];
    for (let k = 0; k < s.steps; k++) {
      points.push(!e ? (s.of as Corner).at : k === 0 ? e.a : pointAt(e, k / s.steps));
      of.push(i);
    }
  });
  return { points, of };
}
