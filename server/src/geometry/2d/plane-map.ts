/** A map of a plane onto a plane that keeps lengths: turned, shifted, perhaps mirrored. */

import type { Edge, Loop, Point2, Region } from '../types';
import { line } from './edge';

/** (u, v) → (uu·u + uv·v + u0, vu·u + vv·v + v0). */
export interface PlaneMap {
  readonly uu: number;
  readonly uv: number;
  readonly vu: number;
  readonly vv: number;
  readonly u0: number;
  readonly v0: number;
}

/** Moves by (u0, v0) mm. */
export function shift(u0: number, v0: number): PlaneMap {
  return { uu: 1, uv: 0, vu: 0, vv: 1, u0, v0 };
}

/** Turns about the origin, counter-clockwise, by degrees. */
export function turn(deg: number): PlaneMap {
  const c = Math.cos((deg * Math.PI) / 180);
  const s = Math.sin((deg * Math.PI) / 180);
  return { uu: c, uv: -s, vu: s, vv: c, u0: 0, v0: 0 };
}

export function mapPoint(m: PlaneMap, p: Point2): Point2 {
  return { u: m.uu * p.u + m.uv * p.v + m.u0, v: m.vu * p.u + m.vv * p.v + m.v0 };
}

/** Keeps the side the material is on: a mirroring map also reverses the edge. */
export function mapEdge(m: PlaneMap, e: Edge): Edge {
  const mirrored = m.uu * m.vv - m.uv * m.vu < 0;
  const a = mapPoint(m, e.a);
  const b = mapPoint(m, e.b);
  const from = mirrored ? b : a;
  const to = mirrored ? a : b;
  if (e.type === 'line') return line(from, to, e.corner);
  // mirrored twice over: once by the map, once by walking it backwards
  const { radius, ccw, corner } = e;
  const centre = mapPoint(m, e.centre);
  const full = e.a === e.b;
  const moved = { type: 'arc' as const, a: from, b: full ? from : to, centre, radius, ccw };
  return corner === undefined ? moved : { ...moved, corner };
}

export function mapLoop(m: PlaneMap, l: Loop): Loop {
  const edges = l.edges.map((e) => mapEdge(m, e));
  return { edges: m.uu * m.vv - m.uv * m.vu < 0 ? edges.reverse() : edges };
}

export function mapRegion(m: PlaneMap, r: Region): Region {
  return { outer: mapLoop(m, r.outer), holes: r.holes.map((h) => mapLoop(m, h)) };
}
