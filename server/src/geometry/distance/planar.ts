/**
 * Where two edges in one plane may be nearest to each other, in closed form. Every nearest pair of two lines or arcs is a crossing, a common perpendicular, or an end against the other.
 */

import { heed } from '../../effort';
import { ROUNDING } from '../../tolerance';
import type { Point2 } from '../types';
import { nearestOn, onSweep, pointAlong, type Side, TURN } from './outline';

/** `zone`: along the first side, mm from its start, where the distance stays the same (parallel lines, concentric arcs). */
type Visit = (p: Point2, q: Point2, zoneFrom: number, zoneTo: number) => void;

/** Every place where two sides may be nearest to each other: the least of them is the distance. */
export function eachNearest(e: Side, f: Side, visit: Visit): void {
  heed(4);
  const back: Visit = (p, q) => visit(q, p, -1, -1);
  if (!e.arc && !f.arc) {
    if (linesCross(e, f, visit)) return;
  } else if (!e.arc) lineToArc(e, f, visit);
  else if (!f.arc) lineToArc(f, e, back);
  else arcToArc(e, f, visit);
  endsOnto(e, f, visit);
  endsOnto(f, e, back);
}

function endsOnto(e: Side, f: Side, visit: Visit): void {
  const a = { u: e.ax, v: e.ay };
  const b = { u: e.bx, v: e.by };
  visit(a, nearestOn(f, a.u, a.v), -1, -1);
  visit(b, nearestOn(f, b.u, b.v), -1, -1);
}

/** The crossing of two lines, or the middle of the stretch that two parallel lines face each other along. True when done. */
function linesCross(e: Side, f: Side, visit: Visit): boolean {
  const turn = e.tax * f.tay - e.tay * f.tax;
  const dx = f.ax - e.ax;
  const dy = f.ay - e.ay;
  if (Math.abs(turn) < 1e-11) {
    const one = dx * e.tax + dy * e.tay;
    const two = (f.bx - e.ax) * e.tax + (f.by - e.ay) * e.tay;
    const from = Math.max(0, Math.min(one, two));
    const to = Math.min(e.length, Math.max(one, two));
    if (to - from <= ROUNDING) return false;
    const p = pointAlong(e, (from + to) / 2);
    visit(p, nearestOn(f, p.u, p.v), from, to);
    return true;
  }
  const s = (dx * f.tay - dy * f.tax) / turn;
  const t = (dx * e.tay - dy * e.tax) / turn;
  if (s < -ROUNDING || s > e.length + ROUNDING || t < -ROUNDING || t > f.length + ROUNDING) return false;
  const x = pointAlong(e, s);
  visit(x, x, -1, -1);
  return true;
}

function lineToArc(e: Side, f: Side, visit: Visit): void {
  const t = (f.cx - e.ax) * e.tax + (f.cy - e.ay) * e.tay;
  const foot = pointAlong(e, t);
  const du = foot.u - f.cx;
  const dv = foot.v - f.cy;
  const far = Math.hypot(du, dv);
  if (far > f.r) {
    if (t >= 0 && t <= e.length && onSweep(f, Math.atan2(dv, du))) {
      visit(foot, { u: f.cx + (du / far) * f.r, v: f.cy + (dv / far) * f.r }, -1, -1);
    }
    return;
  }
  const half = Math.sqrt(Math.max(0, f.r * f.r - far * far));
  for (const at of [t - half, t + half]) {
    if (at < -ROUNDING || at > e.length + ROUNDING) continue;
    const x = pointAlong(e, at);
    if (onSweep(f, Math.atan2(x.v - f.cy, x.u - f.cx))) visit(x, x, -1, -1);
  }
}

function arcToArc(e: Side, f: Side, visit: Visit): void {
  const dx = f.cx - e.cx;
  const dy = f.cy - e.cy;
  const apart = Math.hypot(dx, dy);
  if (apart < ROUNDING) {
    for (const [from, to] of sharedSweep(e, f)) {
      const p = pointAlong(e, (from + to) / 2);
      visit(p, nearestOn(f, p.u, p.v), from, to);
    }
    return;
  }
  const angle = Math.atan2(dy, dx);
  const meet = (along: number, x: number, y: number, r: number) => ({
    u: x + Math.cos(along) * r,
    v: y + Math.sin(along) * r,
  });
  const pair = (onE: number, onF: number) => {
    if (onSweep(e, onE) && onSweep(f, onF)) visit(meet(onE, e.cx, e.cy, e.r), meet(onF, f.cx, f.cy, f.r), -1, -1);
  };
  if (apart >= e.r + f.r) pair(angle, angle + Math.PI);
  else if (apart <= Math.abs(e.r - f.r)) {
    const way = e.r > f.r ? angle : angle + Math.PI;
    pair(way, way);
  } else {
    const x = (apart * apart + e.r * e.r - f.r * f.r) / (2 * apart);
    const swing = Math.acos(Math.min(1, Math.max(-1, x / e.r)));
    for (const onE of [angle + swing, angle - swing]) {
      const at = meet(onE, e.cx, e.cy, e.r);
      if (onSweep(e, onE) && onSweep(f, Math.atan2(at.v - f.cy, at.u - f.cx))) visit(at, at, -1, -1);
    }
  }
}

/** Stretches of concentric arcs that face each other, mm along the first. */
function sharedSweep(e: Side, f: Side): readonly (readonly [number, number])[] {
  const low = (s: Side) => (s.sweep > 0 ? s.start : s.start + s.sweep);
  const spanE = Math.abs(e.sweep);
  const spanF = Math.abs(f.sweep);
  const stretches: (readonly [number, number])[] = [];
  let offset = low(f) - low(e);
  offset -= TURN * Math.floor(offset / TURN);
  for (const shift of [offset - TURN, offset]) {
    const from = Math.max(0, shift);
    const to = Math.min(spanE, shift + spanF);
    if (to - from <= ROUNDING) continue;
    stretches.push(e.sweep > 0 ? [from * e.r, to * e.r] : [(spanE - to) * e.r, (spanE - from) * e.r]);
  }
  return stretches;
}

/** Least distance between the bounds of two sides; never more than that of the sides themselves. */
export function boundsApart(e: Side, f: Side): number {
  const u = Math.max(0, e.minU - f.maxU, f.minU - e.maxU);
  const v = Math.max(0, e.minV - f.maxV, f.minV - e.maxV);
  return u === 0 ? v : v === 0 ? u : Math.hypot(u, v);
}
