/**
 * A smooth curve as a chain of circular arcs, so that the planar set operations need know nothing but lines and arcs.
 * Each arc runs through three points of the curve and is halved until it leaves it by no more than what is allowed;
 * the error of an area is smaller by far, since the arc swings to both sides.
 */

import type { Edge, Point2 } from '../types';
import { line } from './edge';

/** Radii above this, mm, have no digits to spare for their centre: the arc is its chord. */
const MOST_RADIUS = 1e5;
const MOST_HALVINGS = 14;

/** The arc from a to b through m; a line where they are as good as in a row. */
function arcThrough(a: Point2, m: Point2, b: Point2): Edge {
  const pu = m.u - a.u;
  const pv = m.v - a.v;
  const qu = b.u - a.u;
  const qv = b.v - a.v;
  const turn = pu * qv - pv * qu;
  const p2 = pu * pu + pv * pv;
  const q2 = qu * qu + qv * qv;
  const r2 = p2 * q2 * ((qu - pu) ** 2 + (qv - pv) ** 2);
  if (r2 > (2 * MOST_RADIUS * turn) ** 2 || turn === 0) return line(a, b);
  const cu = (qv * p2 - pv * q2) / (2 * turn);
  const cv = (pu * q2 - qu * p2) / (2 * turn);
  return {
    type: 'arc',
    a,
    b,
    centre: { u: a.u + cu, v: a.v + cv },
    radius: Math.sqrt(cu * cu + cv * cv),
    ccw: turn > 0,
  };
}

/** How far a point near an edge of this file lies beside it, mm. */
function beside(e: Edge, p: Point2): number {
  if (e.type === 'arc') return Math.abs(Math.hypot(p.u - e.centre.u, p.v - e.centre.v) - e.radius);
  const u = e.b.u - e.a.u;
  const v = e.b.v - e.a.v;
  const l = Math.hypot(u, v);
  return l === 0 ? Math.hypot(p.u - e.a.u, p.v - e.a.v) : Math.abs((p.u - e.a.u) * v - (p.v - e.a.v) * u) / l;
}

/**
 * Adds the arcs along `point` from s0 to s1, none further than `allowed` mm from it. False where the halving ended
 * before that was reached, or where `point` has no answer.
 */
export function arcsAlong(
  point: (s: number) => Point2 | undefined,
  s0: number,
  s1: number,
  allowed: number,
  out: Edge[],
): boolean {
  const walk = (from: number, to: number, a: Point2, b: Point2, halvings: number): boolean => {
    const mid = (from + to) / 2;
    const m = point(mid);
    const p = point((from + mid) / 2);
    const q = point((mid + to) / 2);
    if (!m || !p || !q) {
      out.push(line(a, b));
      return false;
    }
    const arc = arcThrough(a, m, b);
    const close = beside(arc, p) <= allowed && beside(arc, q) <= allowed;
    if (close || halvings === 0) {
      if (a.u !== b.u || a.v !== b.v) out.push(arc);
      return close;
    }
    const first = walk(from, mid, a, m, halvings - 1);
    return walk(mid, to, m, b, halvings - 1) && first;
  };
  const a = point(s0);
  const b = point(s1);
  return a !== undefined && b !== undefined && walk(s0, s1, a, b, MOST_HALVINGS);
}
