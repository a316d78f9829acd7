/** Point against outline: winding number and signed distance, for lines and arcs alike, without angles. */
import { heed } from '../../effort';
import type { ArcEdge, Edge, Loop, Region } from '../types';
import { distanceTo, edgeRect, isFullCircle, type Rect } from './edge';
import { regionEdges } from './moments';

/**
 * How often the edges run counter-clockwise round the point: 1 inside a region, 0 outside. Each arc is its chord and
 * the piece between chord and arc. A point exactly on a line is taken as if it lay a hair to +u (then +v), so that
 * every chord is judged the same way in both sums.
 */
export function windingOf(edges: readonly Edge[], u: number, v: number): number {
  heed(edges.length);
  let winding = 0;
  for (const e of edges) {
    if (e.type === 'line') winding += turnOfChord(e, u, v);
    else if (isFullCircle(e)) winding += isWithin(e, u, v) ? (e.ccw ? 1 : -1) : 0;
    else winding += turnOfChord(e, u, v) + turnOfBow(e, u, v);
  }
  return winding;
}

/** Above 0 where the point lies to the left of the edge's chord. */
function sideOfChord({ a, b }: Edge, u: number, v: number): number {
  const cu = b.u - a.u;
  const cv = b.v - a.v;
  return cu * (v - a.v) - cv * (u - a.u) || (cv !== 0 ? -cv : cu);
}

/** A chord that passes the point on its right, going up or down. */
function turnOfChord(e: Edge, u: number, v: number): number {
  if (e.a.v <= v === e.b.v <= v) return 0;
  const up = e.b.v > e.a.v;
  return up === sideOfChord(e, u, v) > 0 ? (up ? 1 : -1) : 0;
}

/** The piece between an arc and its chord. */
function turnOfBow(e: ArcEdge, u: number, v: number): number {
  if (!isWithin(e, u, v)) return 0;
  return e.ccw === sideOfChord(e, u, v) < 0 ? (e.ccw ? 1 : -1) : 0;
}

function isWithin({ centre, radius }: ArcEdge, u: number, v: number): boolean {
  const ru = u - centre.u;
  const rv = v - centre.v;
  return ru * ru + rv * rv < radius * radius;
}

/** Whether a point lies in the region: holes are outside. */
export function isInside(r: Region, u: number, v: number): boolean {
  return windingOf(regionEdges(r), u, v) !== 0;
}

/** Distance to the outline, mm: positive inside, negative outside. */
export function depthInside(edges: readonly Edge[], u: number, v: number): number {
  heed(edges.length);
  let least = Number.POSITIVE_INFINITY;
  for (const e of edges) {
    const d = distanceTo(e, u, v);
    if (d < least) least = d;
  }
  return windingOf(edges, u, v) !== 0 ? least : -least;
}

/** `depthInside` is `least` or more: told without every distance. */
export function isDeepInside(edges: readonly Edge[], u: number, v: number, least: number): boolean {
  const inside = windingOf(edges, u, v) !== 0;
  if (inside !== least > 0) return inside;
  for (const e of edges) {
    const mm = distanceTo(e, u, v);
    if (inside ? mm < least : mm <= -least) return !inside;
  }
  return inside;
}

/** The upright rectangle round edges; turned inside out (infinite) for none. */
export function rectOf(edges: readonly Edge[]): Rect {
  let u0 = Number.POSITIVE_INFINITY;
  let v0 = Number.POSITIVE_INFINITY;
  let u1 = Number.NEGATIVE_INFINITY;
  let v1 = Number.NEGATIVE_INFINITY;
  for (const e of edges) {
    const r = edgeRect(e);
    if (r.u0 < u0) u0 = r.u0;
    if (r.v0 < v0) v0 = r.v0;
    if (r.u1 > u1) u1 = r.u1;
    if (r.v1 > v1) v1 = r.v1;
  }
  return { u0, v0, u1, v1 };
}

export function loopRect(l: Loop): Rect {
  return rectOf(l.edges);
}
