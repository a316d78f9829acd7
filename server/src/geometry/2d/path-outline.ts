/**
 * Paths as written: corners joined by lines or by arcs through a named point, corners rounded or bevelled.
 * A rounding or bevel that does not fit its two sides is left out: the corner stays sharp.
 */

import type { PathCorner } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import type { Edge, Loop, Point2 } from '../types';
import { between, lengthOf, onSweep, paramOf, pointAt, tangentAt } from './edge';
import { meetings } from './intersect';

/** The closed loop through the corners, in their order; undefined with nothing to enclose. */
export function pathLoop(corners: readonly PathCorner[]): Loop | undefined {
  const edges = chainOf(corners, true);
  return edges.length >= 2 ? { edges } : undefined;
}

/** An open chain through the corners: a slot's centre line. The first and last corner have no treatment. */
export function pathLine(corners: readonly PathCorner[]): readonly Edge[] {
  return chainOf(corners, false);
}

function chainOf(corners: readonly PathCorner[], closed: boolean): Edge[] {
  const sides: { edge: Edge; corner: number }[] = [];
  const count = closed ? corners.length : corners.length - 1;
  for (let i = 0; i < count; i++) {
    const edge = sideOf(corners[i]!, corners[(i + 1) % corners.length]!, i);
    if (edge) sides.push({ edge, corner: i });
  }
  const edges: Edge[] = [];
  // treatments are worked out on the sides as drawn, then each side is cut back at both ends
  const starts = sides.map((s) => s.edge.a);
  const ends = sides.map((s) => s.edge.b);
  const fillers: (Edge | undefined)[] = [];
  for (let i = 0; i < sides.length; i++) {
    const before = i > 0 ? i - 1 : closed ? sides.length - 1 : -1;
    if (before < 0 || before === i) continue;
    const here = corners[sides[i]!.corner]!;
    const made = treat(sides[before]!.edge, sides[i]!.edge, here, sides[i]!.corner);
    if (!made) continue;
    fillers[i] = made;
    ends[before] = made.a;
    starts[i] = made.b;
  }
  dropOverlapping(sides, starts, ends, fillers);
  for (let i = 0; i < sides.length; i++) {
    const filler = fillers[i];
    if (filler) edges.push(filler);
    const rest = between(sides[i]!.edge, starts[i]!, ends[i]!);
    if (!same(starts[i]!, ends[i]!)) edges.push(rest);
  }
  if (closed && fillers[0]) edges.push(edges.shift()!);
  return edges;
}

/** Two treatments that want the same stretch of a side do not fit: both corners stay sharp. */
function dropOverlapping(
  sides: readonly { edge: Edge }[],
  starts: Point2[],
  ends: Point2[],
  fillers: (Edge | undefined)[],
): void {
  const n = sides.length;
  for (let pass = 0; pass < n; pass++) {
    let clean = true;
    for (let i = 0; i < n; i++) {
      const { edge } = sides[i]!;
      const from = paramOf(edge, starts[i]!.u, starts[i]!.v);
      const to = paramOf(edge, ends[i]!.u, ends[i]!.v);
      if (from <= to + ROUNDING || ends[i] === edge.b) continue;
      clean = false;
      for (const k of [i, (i + 1) % n]) {
        if (!fillers[k]) continue;
        fillers[k] = undefined;
        starts[k] = sides[k]!.edge.a;
        ends[(k + n - 1) % n] = sides[(k + n - 1) % n]!.edge.b;
      }
    }
    if (clean) return;
  }
}

function sideOf(from: PathCorner, to: PathCorner, corner: number): Edge | undefined {
  const a = { u: from.u, v: from.v };
  const b = { u: to.u, v: to.v };
  if (from.arc) {
    const through = arcThrough(a, { u: from.arc.u, v: from.arc.v }, b, corner);
    if (through) return through;
  }
  return same(a, b) ? undefined : { type: 'line', a, b, corner };
}

/** The arc from a to b through a point; undefined where the three lie in a line. */
export function arcThrough(a: Point2, through: Point2, b: Point2, corner?: number): Edge | undefined {
  const bu = through.u - a.u;
  const bv = through.v - a.v;
  const cu = b.u - a.u;
  const cv = b.v - a.v;
  const det = 2 * (bu * cv - bv * cu);
  const scale = Math.hypot(bu, bv) * Math.hypot(cu, cv);
  if (Math.abs(det) <= 1e-9 * scale || scale === 0) return undefined;
  const bb = bu * bu + bv * bv;
  const cc = cu * cu + cv * cv;
  const centre = { u: a.u + (cv * bb - bv * cc) / det, v: a.v + (bu * cc - cu * bb) / det };
  const radius = Math.hypot(a.u - centre.u, a.v - centre.v);
  return { type: 'arc', a, b, centre, radius, ccw: det > 0, ...(corner === undefined ? {} : { corner }) };
}

function treat(before: Edge, after: Edge, corner: PathCorner, index: number): Edge | undefined {
  if (corner.bevel && corner.bevel.mm > 0) {
    const size = corner.bevel.mm;
    if (size >= lengthOf(before) || size >= lengthOf(after)) return undefined;
    const a = pointAt(before, 1 - size / lengthOf(before));
    const b = pointAt(after, size / lengthOf(after));
    return { type: 'line', a, b, corner: index };
  }
  if (corner.round && corner.round.mm > 0) return fillet(before, after, corner.round.mm, index);
  return undefined;
}

/** The arc of radius r that touches both sides near their common corner. */
function fillet(before: Edge, after: Edge, r: number, corner?: number): Edge | undefined {
  const at = before.b;
  const t0 = tangentAt(before, at);
  const t1 = tangentAt(after, at);
  const turn = t0.u * t1.v - t0.v * t1.u;
  if (Math.abs(turn) < ROUNDING) return undefined;
  const ccw = turn > 0;
  const side = ccw ? 1 : -1;
  const one = beside(before, side * r);
  const two = beside(after, side * r);
  if (!one || !two) return undefined;
  let best: Edge | undefined;
  let bestGap = Number.POSITIVE_INFINITY;
  for (const centre of meetings(one, two, ROUNDING)) {
    const a = footOn(before, centre);
    const b = footOn(after, centre);
    if (!a || !b) continue;
    const gap = Math.hypot(centre.u - at.u, centre.v - at.v);
    if (gap >= bestGap) continue;
    bestGap = gap;
    best = { type: 'arc', a, b, centre, radius: r, ccw, ...(corner === undefined ? {} : { corner }) };
  }
  return best;
}

/** The edge moved sideways: to its left where `by` is positive. Undefined for an arc shrunk to nothing. */
export function beside(e: Edge, by: number): Edge | undefined {
  if (e.type === 'line') {
    const t = tangentAt(e, e.a);
    const a = { u: e.a.u - t.v * by, v: e.a.v + t.u * by };
    const b = { u: e.b.u - t.v * by, v: e.b.v + t.u * by };
    return between(e, a, b);
  }
  const radius = e.ccw ? e.radius - by : e.radius + by;
  if (radius <= ROUNDING) return undefined;
  const s = radius / e.radius;
  const move = (p: Point2) => ({ u: e.centre.u + (p.u - e.centre.u) * s, v: e.centre.v + (p.v - e.centre.v) * s });
  const a = move(e.a);
  const { centre, ccw, corner } = e;
  const moved = { type: 'arc' as const, a, b: e.a === e.b ? a : move(e.b), centre, radius, ccw };
  return corner === undefined ? moved : { ...moved, corner };
}

/** The point of the edge straight across from p, when the edge reaches that far (its ends included). */
function footOn(e: Edge, p: Point2): Point2 | undefined {
  if (e.type === 'line') {
    const t = tangentAt(e, e.a);
    const s = (p.u - e.a.u) * t.u + (p.v - e.a.v) * t.v;
    const l = lengthOf(e);
    if (s < -1e-7 || s > l + 1e-7) return undefined;
    return pointAt(e, Math.min(1, Math.max(0, s / l)));
  }
  const l = Math.hypot(p.u - e.centre.u, p.v - e.centre.v);
  if (l < ROUNDING) return undefined;
  const q = {
    u: e.centre.u + ((p.u - e.centre.u) / l) * e.radius,
    v: e.centre.v + ((p.v - e.centre.v) / l) * e.radius,
  };
  return onSweep(e, q.u, q.v) ? q : undefined;
}

function same(a: Point2, b: Point2): boolean {
  return Math.abs(a.u - b.u) < ROUNDING && Math.abs(a.v - b.v) < ROUNDING;
}
