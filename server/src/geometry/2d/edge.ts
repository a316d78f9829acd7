/**
 * One edge of an outline: a straight line or a circular arc. Lengths in mm, parameters run 0 … 1 from a to b.
 * Nothing here knows loops, features or the part.
 */
import type { ArcEdge, Edge, LineEdge, Point2 } from '../types';

export const TAU = 2 * Math.PI;

/** A rectangle in a plane, mm. */
export interface Rect {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
}

export function line(a: Point2, b: Point2, corner?: number): LineEdge {
  return corner === undefined ? { type: 'line', a, b } : { type: 'line', a, b, corner };
}

export function arc(a: Point2, b: Point2, centre: Point2, ccw: boolean, corner?: number): ArcEdge {
  const radius = Math.hypot(a.u - centre.u, a.v - centre.v);
  return corner === undefined
    ? { type: 'arc', a, b, centre, radius, ccw }
    : { type: 'arc', a, b, centre, radius, ccw, corner };
}

/** A whole circle as one edge, starting at its +u point. */
export function circleEdge(centre: Point2, radius: number, ccw = true): ArcEdge {
  const a = { u: centre.u + radius, v: centre.v };
  return { type: 'arc', a, b: a, centre, radius, ccw };
}

export function isFullCircle(e: ArcEdge): boolean {
  return e.a.u === e.b.u && e.a.v === e.b.v;
}

/** Angle of the arc's start, radians. */
export function startAngle(e: ArcEdge): number {
  return Math.atan2(e.a.v - e.centre.v, e.a.u - e.centre.u);
}

/** How far the arc turns: positive counter-clockwise, negative clockwise, ±2π for a full circle. */
export function sweepOf(e: ArcEdge): number {
  if (isFullCircle(e)) return e.ccw ? TAU : -TAU;
  const s = Math.atan2(e.b.v - e.centre.v, e.b.u - e.centre.u) - startAngle(e);
  if (e.ccw) return s > 0 ? s : s + TAU;
  return s < 0 ? s : s - TAU;
}

/** Length along the edge, mm. */
export function lengthOf(e: Edge): number {
  return e.type === 'line' ? Math.hypot(e.b.u - e.a.u, e.b.v - e.a.v) : Math.abs(sweepOf(e)) * e.radius;
}

/** The point at a share `t` (0 … 1) of the edge's length. */
export function pointAt(e: Edge, t: number): Point2 {
  if (e.type === 'line') return { u: e.a.u + (e.b.u - e.a.u) * t, v: e.a.v + (e.b.v - e.a.v) * t };
  const angle = startAngle(e) + sweepOf(e) * t;
  return { u: e.centre.u + e.radius * Math.cos(angle), v: e.centre.v + e.radius * Math.sin(angle) };
}

/**
 * A point somewhere near the middle of the edge, without angles: `share` (about a half) of the way along its chord,
 * moved out to the arc. The same share gives the same point.
 */
export function probeOf(e: Edge, share: number): Point2 {
  const cu = e.b.u - e.a.u;
  const cv = e.b.v - e.a.v;
  const pu = e.a.u + cu * share;
  const pv = e.a.v + cv * share;
  if (e.type === 'line') return { u: pu, v: pv };
  const { centre, radius, ccw } = e;
  if (cu === 0 && cv === 0) {
    const angle = share * TAU;
    return { u: centre.u + radius * Math.cos(angle), v: centre.v + radius * Math.sin(angle) };
  }
  // out along the chord's right-hand normal for a counter-clockwise arc, from a point between chord and centre
  const sign = ccw ? 1 : -1;
  const chord = Math.sqrt(cu * cu + cv * cv);
  const nu = (sign * cv) / chord;
  const nv = (-sign * cu) / chord;
  const ru = pu - centre.u;
  const rv = pv - centre.v;
  const along = (ru * cu + rv * cv) / chord;
  const out = Math.sqrt(Math.max(0, radius * radius - along * along));
  const tu = cu / chord;
  const tv = cv / chord;
  return { u: centre.u + along * tu + out * nu, v: centre.v + along * tv + out * nv };
}

/** Direction of travel at a point on the edge; a unit vector. */
export function tangentAt(e: Edge, p: Point2): Point2 {
  if (e.type === 'line') {
    const du = e.b.u - e.a.u;
    const dv = e.b.v - e.a.v;
    const l = Math.hypot(du, dv) || 1;
    return { u: du / l, v: dv / l };
  }
  const ru = p.u - e.centre.u;
  const rv = p.v - e.centre.v;
  const l = (e.ccw ? 1 : -1) * (Math.hypot(ru, rv) || 1);
  return { u: -rv / l, v: ru / l };
}

export function reversedEdge(e: Edge): Edge {
  const turned = between(e, e.b, e.a);
  return turned.type === 'line' ? turned : { ...turned, ccw: !turned.ccw };
}

/** The stretch of an edge between two points on it, in its direction. */
export function between(e: Edge, a: Point2, b: Point2): Edge {
  const { corner } = e;
  if (e.type === 'line') return corner === undefined ? { type: 'line', a, b } : { type: 'line', a, b, corner };
  const { centre, radius, ccw } = e;
  if (corner === undefined) return { type: 'arc', a, b, centre, radius, ccw };
  return { type: 'arc', a, b, centre, radius, ccw, corner };
}

/** For a point of the arc's circle: does it lie on the arc? Decided by the side of the chord, without angles. */
export function onSweep(e: ArcEdge, u: number, v: number): boolean {
  const cu = e.b.u - e.a.u;
  const cv = e.b.v - e.a.v;
  if (cu === 0 && cv === 0) return true;
  const side = cu * (v - e.a.v) - cv * (u - e.a.u);
  return e.ccw ? side <= 0 : side >= 0;
}

/** The upright rectangle round an edge; bulges of arcs counted. */
export function edgeRect(e: Edge): Rect {
  let u0 = Math.min(e.a.u, e.b.u);
  let u1 = Math.max(e.a.u, e.b.u);
  let v0 = Math.min(e.a.v, e.b.v);
  let v1 = Math.max(e.a.v, e.b.v);
  if (e.type === 'arc') {
    const { u, v } = e.centre;
    const r = e.radius;
    if (onSweep(e, u + r, v)) u1 = u + r;
    if (onSweep(e, u - r, v)) u0 = u - r;
    if (onSweep(e, u, v + r)) v1 = v + r;
    if (onSweep(e, u, v - r)) v0 = v - r;
  }
  return { u0, v0, u1, v1 };
}

/** The smallest and largest value of `du·u + dv·v` over the edge. */
export function reachOf(e: Edge, du: number, dv: number): readonly [number, number] {
  const ea = e.a.u * du + e.a.v * dv;
  const eb = e.b.u * du + e.b.v * dv;
  let low = Math.min(ea, eb);
  let high = Math.max(ea, eb);
  if (e.type === 'arc') {
    const l = Math.hypot(du, dv);
    if (l > 0) {
      const c = e.centre.u * du + e.centre.v * dv;
      const ru = (e.radius * du) / l;
      const rv = (e.radius * dv) / l;
      if (onSweep(e, e.centre.u + ru, e.centre.v + rv)) high = c + e.radius * l;
      if (onSweep(e, e.centre.u - ru, e.centre.v - rv)) low = c - e.radius * l;
    }
  }
  return [low, high];
}

/** Where along the edge the point lies, 0 … 1; the point is taken to be on the edge. */
export function paramOf(e: Edge, u: number, v: number): number {
  if (e.type === 'line') {
    const du = e.b.u - e.a.u;
    const dv = e.b.v - e.a.v;
    const ll = du * du + dv * dv;
    return ll === 0 ? 0 : ((u - e.a.u) * du + (v - e.a.v) * dv) / ll;
  }
  const sweep = sweepOf(e);
  let turn = Math.atan2(v - e.centre.v, u - e.centre.u) - startAngle(e);
  if (e.ccw) {
    while (turn < 0) turn += TAU;
  } else {
    while (turn > 0) turn -= TAU;
  }
  let t = turn / sweep;
  // just before a, by rounding, is 0 and not a whole turn later
  const before = (turn - (e.ccw ? TAU : -TAU)) / sweep;
  if (Math.abs(before) < Math.abs(t - 1) && t > 1) t = before;
  return t;
}

/** The point of the edge nearest to (u, v). */
export function nearestOn(e: Edge, u: number, v: number): Point2 {
  if (e.type === 'line') {
    const t = Math.min(1, Math.max(0, paramOf(e, u, v)));
    return pointAt(e, t);
  }
  const ru = u - e.centre.u;
  const rv = v - e.centre.v;
  const l = Math.hypot(ru, rv);
  if (l > 0) {
    const pu = e.centre.u + (ru / l) * e.radius;
    const pv = e.centre.v + (rv / l) * e.radius;
    if (onSweep(e, pu, pv)) return { u: pu, v: pv };
  }
  const da = (u - e.a.u) ** 2 + (v - e.a.v) ** 2;
  const db = (u - e.b.u) ** 2 + (v - e.b.v) ** 2;
  return da <= db ? e.a : e.b;
}

/** Least distance of a point from the edge, mm. */
export function distanceTo(e: Edge, u: number, v: number): number {
  const au = u - e.a.u;
  const av = v - e.a.v;
  if (e.type === 'line') {
    const du = e.b.u - e.a.u;
    const dv = e.b.v - e.a.v;
    const ll = du * du + dv * dv;
    const t = ll === 0 ? 0 : Math.min(1, Math.max(0, (au * du + av * dv) / ll));
    return Math.sqrt((au - t * du) ** 2 + (av - t * dv) ** 2);
  }
  const ru = u - e.centre.u;
  const rv = v - e.centre.v;
  const l = Math.sqrt(ru * ru + rv * rv);
  if (l > 0 && onSweep(e, e.centre.u + (ru / l) * e.radius, e.centre.v + (rv / l) * e.radius)) {
    return Math.abs(l - e.radius);
  }
  return Math.sqrt(Math.min(au * au + av * av, (u - e.b.u) ** 2 + (v - e.b.v) ** 2));
}
