/** Point against outline: winding number and signed distance, for lines and arcs alike, without angles. */
import { heed } from '../../effort';
import type { Edge, Loop, Region } from '../types';
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
    const au = e.a.u;
    const av = e.a.v;
    const cu = e.b.u - au;
    const cv = e.b.v - av;
    if (e.type === 'line') {
      if (av <= v === e.b.v <= v) continue;
      const side = cu * (v - av) - cv * (u - au);
      if (cv > 0) {
        if (side > 0) winding++;
      } else if (side < 0) winding--;
      continue;
    }
    const ru = u - e.centre.u;
    const rv = v - e.centre.v;
    const within = ru * ru + rv * rv < e.radius * e.radius;
    if (isFullCircle(e)) {
      if (within) winding += e.ccw ? 1 : -1;
      continue;
    }
    const side = cu * (v - av) - cv * (u - au) || (cv !== 0 ? -cv : cu);
    if (av <= v !== e.b.v <= v) {
      if (cv > 0) {
        if (side > 0) winding++;
      } else if (side < 0) winding--;
    }
    if (within) {
      if (e.ccw) {
        if (side < 0) winding++;
      } else if (side > 0) winding--;
    }
  }
  return winding;
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
