/**
 * Stretches of boundary that face each other across a gap: each is a pair of places where the straight line between
 * them stands square on both boundaries, the gap's own least width there. One pair of outlines may have several (the
 * arms of a U around a rib), and an outline may face itself (a neck of material between two of its arms).
 */

import { heed } from '../../effort';
import { ROUNDING, SAME } from '../../tolerance';
import type { Point2 } from '../types';
import { alongOf, lineSide, nearestOn, type Outline, onSweep, pointAlong, type Side } from './outline';
import { boundsApart, eachNearest } from './planar';

export interface Facing {
  readonly mm: number;
  readonly p: Point2;
  readonly q: Point2;
  readonly e: Side;
  readonly f: Side;
  /** Along `e`, mm from its start: where the gap keeps this width; one place where it does not. */
  readonly from: number;
  readonly to: number;
}

/** Sine of how far from square a line may stand: rounding of tangent joints, no more. */
const SQUARE = 1e-6;

/** True where leaving the outline at `p` along the unit direction (x, y) is the steepest way off it. `out`: 1 out of the region, −1 into it. */
function squareAt(s: Side, p: Point2, x: number, y: number, out: 1 | -1): boolean {
  const atA = Math.abs(p.u - s.ax) + Math.abs(p.v - s.ay) < ROUNDING;
  const atB = Math.abs(p.u - s.bx) + Math.abs(p.v - s.by) < ROUNDING;
  if ((atA || atB) && s.before !== s) {
    const one = atA ? s.before : s;
    const two = atA ? s : s.after;
    const leaves = (one.tby * x - one.tbx * y) * out > SQUARE || (two.tay * x - two.tax * y) * out > SQUARE;
    return leaves && one.tbx * x + one.tby * y >= -SQUARE && two.tax * x + two.tay * y <= SQUARE;
  }
  if (!s.arc) return (s.tay * x - s.tax * y) * out > 1 - SQUARE;
  const way = (s.sweep > 0 ? out : -out) / s.r;
  return ((p.u - s.cx) * x + (p.v - s.cy) * y) * way > 1 - SQUARE;
}

function facingOf(e: Side, f: Side, below: number, out: 1 | -1, found: Facing[]): void {
  heed(4);
  eachNearest(e, f, (p, q, from, to) => {
    const du = q.u - p.u;
    const dv = q.v - p.v;
    const mm = Math.hypot(du, dv);
    if (mm < ROUNDING || mm >= below) return;
    if (!squareAt(e, p, du / mm, dv / mm, out) || !squareAt(f, q, -du / mm, -dv / mm, out)) return;
    if (from < to) found.push({ mm, p, q, e, f, from, to });
    else if (
      !found.some((k) => Math.abs(k.mm - mm) < ROUNDING && apart(k.p, p) < ROUNDING && apart(k.q, q) < ROUNDING)
    ) {
      const at = alongOf(e, p.u, p.v);
      found.push({ mm, p, q, e, f, from: at, to: at });
    }
  });
}

/** Thinnest first; of equal ones the one that keeps its width longest. */
function thinnestFirst(x: Facing, y: Facing): number {
  return Math.abs(x.mm - y.mm) > ROUNDING ? x.mm - y.mm : y.to - y.from - (x.to - x.from);
}

const apart = (a: Point2, b: Point2) => Math.abs(a.u - b.u) + Math.abs(a.v - b.v);

/** Places where two outlines face each other, closer than `below`, across what neither of them holds; nearest first. */
export function facings(a: Outline, b: Outline, below: number): readonly Facing[] {
  const found: Facing[] = [];
  const close = b.sides.filter((f) => reach(a, f) < below);
  for (const e of a.sides) {
    if (reach(b, e) >= below) continue;
    for (const f of close) if (boundsApart(e, f) < below) facingOf(e, f, below, 1, found);
  }
  return found.sort(thinnestFirst);
}

function reach(o: Outline, s: Side): number {
  return Math.max(0, o.minU - s.maxU, s.minU - o.maxU, o.minV - s.maxV, s.minV - o.maxV);
}

/**
 * Places where an outline faces itself, closer than `below`; nearest first. `across: 'outside'`: over what the region
 * leaves standing; `'inside'`: over the region. Nothing of the outline lies between the two ends.
 */
export function ownFacings(o: Outline, below: number, across: 'outside' | 'inside'): readonly Facing[] {
  const out = across === 'outside' ? 1 : -1;
  const found: Facing[] = [];
  const sides = [...o.sides].sort((x, y) => x.minU - y.minU);
  sides.forEach((e, i) => {
    acrossCircle(e, e, below, out, found);
    for (let j = i + 1; j < sides.length; j++) {
      const f = sides[j]!;
      if (f.minU - e.maxU >= below) break;
      if (f.minV - e.maxV >= below || e.minV - f.maxV >= below) continue;
      facingOf(e, f, below, out, found);
      acrossCircle(e, f, below, out, found);
    }
  });
  return found.filter((k) => clear(o, k)).sort(thinnestFirst);
}

/** A round boss (or bore) is as thick as its diameter: the two ends may lie on one arc or on two of the same circle. */
function acrossCircle(e: Side, f: Side, below: number, out: 1 | -1, found: Facing[]): void {
  if (!e.arc || !f.arc || e.sweep * out > 0 || f.sweep * out > 0) return;
  if (Math.abs(e.cx - f.cx) + Math.abs(e.cy - f.cy) + Math.abs(e.r - f.r) > ROUNDING || 2 * e.r >= below) return;
  for (const from of [0, e.length / 2, e.length]) {
    const p = pointAlong(e, from);
    const q = { u: 2 * e.cx - p.u, v: 2 * e.cy - p.v };
    if (!onSweep(f, Math.atan2(q.v - f.cy, q.u - f.cx))) continue;
    found.push({ mm: 2 * e.r, p, q, e, f, from, to: from });
    return;
  }
}

/** True where no other part of the outline crosses the line from p to q. */
function clear(o: Outline, k: Facing): boolean {
  const du = (k.q.u - k.p.u) / k.mm;
  const dv = (k.q.v - k.p.v) / k.mm;
  const slack = Math.min(SAME, k.mm / 4);
  const line = lineSide(k.p.u + du * slack, k.p.v + dv * slack, k.q.u - du * slack, k.q.v - dv * slack);
  return o.sides.every((s) => {
    if (boundsApart(s, line) > 0) return true;
    let free = true;
    eachNearest(line, s, (p, q) => {
      if (apart(p, q) < ROUNDING) free = false;
    });
    return free;
  });
}

/** How far from the nearest place a gap stays within `most`, mm along both sides, whichever is less, looking at them alone. */
export function staysWithin(k: Facing, most: number): number {
  return Math.min(staysAlong(k, most), staysAlong(turnedRound(k), most));
}

/** The same gap seen from its other side. */
function turnedRound({ mm, p, q, e, f, from, to }: Facing): Facing {
  const across = (at: number) => {
    const start = pointAlong(e, at);
    const end = nearestOn(f, start.u, start.v);
    return alongOf(f, end.u, end.v);
  };
  const ends = from < to ? [across(from), across(to)] : [alongOf(f, q.u, q.v)];
  return { mm, p: q, q: p, e: f, f: e, from: Math.min(...ends), to: Math.max(...ends) };
}

function staysAlong(k: Facing, most: number): number {
  const gap = (mm: number) => {
    const p = pointAlong(k.e, mm);
    const q = nearestOn(k.f, p.u, p.v);
    return Math.hypot(p.u - q.u, p.v - q.v);
  };
  const { e, from, to } = k;
  const closed = e.before === e && e.arc;
  const [first, last] = closed ? [from - e.length / 2, to + e.length / 2] : [0, e.length];
  return Math.min(e.length, reachTo(gap, to, last, most) + (to - from) + reachTo(gap, from, first, most));
}

/** How far from `start` towards `end` a rising function stays within `most`: at least, to `fine`. */
export function reachTo(gap: (at: number) => number, start: number, end: number, most: number, fine = SAME): number {
  if (gap(end) <= most) return Math.abs(end - start);
  let [inside, outside] = [start, end];
  for (let i = 0; i < 40 && Math.abs(outside - inside) > fine; i++) {
    const middle = (inside + outside) / 2;
    if (gap(middle) <= most) inside = middle;
    else outside = middle;
  }
  return Math.abs(inside - start);
}
