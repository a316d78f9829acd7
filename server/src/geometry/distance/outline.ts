/**
 * A region made ready for measuring: its edges with tangents, neighbours and bounds worked out once. The region lies to
 * the left of every side (outer loops counter-clockwise, holes clockwise), so right of a tangent is out of the region.
 */

import { heed } from '../../effort';
import { memo } from '../../memo';
import { ROUNDING, SAME } from '../../tolerance';
import { windingOf } from '../2d/inside';
import { regionEdges } from '../2d/moments';
import type { Edge, Loop, Point2, Region } from '../types';

export interface Side {
  readonly arc: boolean;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Arcs only: centre, radius, start angle and signed sweep (counter-clockwise positive). */
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly start: number;
  readonly sweep: number;
  readonly length: number;
  /** Unit tangents at both ends. */
  readonly tax: number;
  readonly tay: number;
  readonly tbx: number;
  readonly tby: number;
  readonly minU: number;
  readonly maxU: number;
  readonly minV: number;
  readonly maxV: number;
  /** Neighbours along the loop; the side itself for a full circle. */
  before: Side;
  after: Side;
}

export interface Outline {
  readonly sides: readonly Side[];
  readonly region: Region;
  /** Of all its loops. */
  readonly edges: readonly Edge[];
  /** One loop that turns left everywhere: a convex set. */
  readonly convex: boolean;
  readonly minU: number;
  readonly maxU: number;
  readonly minV: number;
  readonly maxV: number;
}

export const TURN = 2 * Math.PI;

/** Signed sweep from `start` to the angle `end`, the way the arc runs; a whole turn where they are the same. */
function sweepOf(start: number, end: number, ccw: boolean, closed: boolean): number {
  if (closed) return ccw ? TURN : -TURN;
  let sweep = end - start;
  if (ccw) while (sweep <= 0) sweep += TURN;
  else while (sweep >= 0) sweep -= TURN;
  return Math.abs(sweep) > TURN ? sweep % TURN : sweep;
}

/** True where the direction `angle` meets the arc, within a hair of its ends. */
export function onSweep(s: Side, angle: number): boolean {
  let turn = s.sweep > 0 ? angle - s.start : s.start - angle;
  turn -= TURN * Math.floor(turn / TURN);
  const slack = ROUNDING / Math.max(s.r, ROUNDING);
  return turn <= Math.abs(s.sweep) + slack || turn >= TURN - slack;
}

function sideOf(e: Edge): Side {
  const { a, b } = e;
  const bounds = {
    minU: Math.min(a.u, b.u),
    maxU: Math.max(a.u, b.u),
    minV: Math.min(a.v, b.v),
    maxV: Math.max(a.v, b.v),
  };
  const ends = { ax: a.u, ay: a.v, bx: b.u, by: b.v };
  const self = undefined as unknown as Side;
  if (e.type === 'line') {
    const long = Math.hypot(b.u - a.u, b.v - a.v);
    const tx = long > 0 ? (b.u - a.u) / long : 1;
    const ty = long > 0 ? (b.v - a.v) / long : 0;
    const tangents = { tax: tx, tay: ty, tbx: tx, tby: ty };
    const none = { cx: 0, cy: 0, r: 0, start: 0, sweep: 0 };
    return { arc: false, ...ends, ...none, length: long, ...tangents, ...bounds, before: self, after: self };
  }
  const { centre, radius } = e;
  const start = Math.atan2(a.v - centre.v, a.u - centre.u);
  const end = Math.atan2(b.v - centre.v, b.u - centre.u);
  const sweep = sweepOf(start, end, e.ccw, Math.hypot(a.u - b.u, a.v - b.v) < ROUNDING);
  const way = e.ccw ? 1 : -1;
  const side: Side = {
    arc: true,
    ...ends,
    cx: centre.u,
    cy: centre.v,
    r: radius,
    start,
    sweep,
    length: radius * Math.abs(sweep),
    tax: -Math.sin(start) * way,
    tay: Math.cos(start) * way,
    tbx: -Math.sin(end) * way,
    tby: Math.cos(end) * way,
    minU: onSweepOf(start, sweep, Math.PI) ? centre.u - radius : bounds.minU,
    maxU: onSweepOf(start, sweep, 0) ? centre.u + radius : bounds.maxU,
    minV: onSweepOf(start, sweep, -Math.PI / 2) ? centre.v - radius : bounds.minV,
    maxV: onSweepOf(start, sweep, Math.PI / 2) ? centre.v + radius : bounds.maxV,
    before: self,
    after: self,
  };
  return side;
}

/** A straight side on its own, with what it bounds to its left. */
export function lineSide(ax: number, ay: number, bx: number, by: number): Side {
  const side = sideOf({ type: 'line', a: { u: ax, v: ay }, b: { u: bx, v: by } });
  side.before = side;
  side.after = side;
  return side;
}

/** A whole circle on its own, clockwise: what it bounds lies outside it. */
export function roundSide(u: number, v: number, radius: number): Side {
  const a = { u: u + radius, v };
  const side = sideOf({ type: 'arc', a, b: a, centre: { u, v }, radius, ccw: false });
  side.before = side;
  side.after = side;
  return side;
}

/** An outline of one side that bounds a half-plane or the outside of a circle. */
export function openOutline(side: Side): Outline {
  const { minU, maxU, minV, maxV } = side;
  const region = { outer: { edges: [] }, holes: [] };
  return { sides: [side], region, edges: [], convex: !side.arc, minU, maxU, minV, maxV };
}

/** The same for an arc given by its start and signed sweep, exactly. */
export function onSweepOf(start: number, sweep: number, angle: number): boolean {
  let turn = sweep > 0 ? angle - start : start - angle;
  turn -= TURN * Math.floor(turn / TURN);
  return turn <= Math.abs(sweep);
}

function sidesOf(loop: Loop): Side[] {
  const sides = loop.edges.map(sideOf).filter((s) => s.length > ROUNDING);
  for (let i = 0; i < sides.length; i++) {
    sides[i]!.before = sides[(i + sides.length - 1) % sides.length]!;
    sides[i]!.after = sides[(i + 1) % sides.length]!;
  }
  return sides;
}

/** The region's sides. */
export const outlineOf = memo((region: Region): Outline => {
  const sides = [region.outer, ...region.holes].flatMap(sidesOf);
  const turnsLeft = (s: Side) => s.tbx * s.after.tay - s.tby * s.after.tax > -1e-7 && (!s.arc || s.sweep > 0);
  return {
    sides,
    region,
    edges: regionEdges(region),
    convex: region.holes.length === 0 && sides.every(turnsLeft) && turnsOnce(sides),
    minU: Math.min(...sides.map((s) => s.minU)),
    maxU: Math.max(...sides.map((s) => s.maxU)),
    minV: Math.min(...sides.map((s) => s.minV)),
    maxV: Math.max(...sides.map((s) => s.maxV)),
  };
});

/** All left turns add up to one turn: it does not wind twice. */
function turnsOnce(sides: readonly Side[]): boolean {
  let sum = 0;
  for (const s of sides) {
    if (s.arc) sum += s.sweep;
    const { after } = s;
    if (after === s) continue;
    sum += Math.atan2(s.tbx * after.tay - s.tby * after.tax, s.tbx * after.tax + s.tby * after.tay);
  }
  return Math.abs(sum - TURN) < SAME;
}

/** Point at `mm` along a side from its start. */
export function pointAlong(s: Side, mm: number): Point2 {
  if (!s.arc) return { u: s.ax + s.tax * mm, v: s.ay + s.tay * mm };
  const angle = s.start + (mm / s.r) * Math.sign(s.sweep);
  return { u: s.cx + s.r * Math.cos(angle), v: s.cy + s.r * Math.sin(angle) };
}

/** How far along a side a point on it lies, mm from its start. */
export function alongOf(s: Side, u: number, v: number): number {
  if (!s.arc) return (u - s.ax) * s.tax + (v - s.ay) * s.tay;
  const angle = Math.atan2(v - s.cy, u - s.cx);
  let turn = s.sweep > 0 ? angle - s.start : s.start - angle;
  turn -= TURN * Math.floor(turn / TURN);
  if (turn > Math.abs(s.sweep)) turn = turn - Math.abs(s.sweep) < TURN - turn ? Math.abs(s.sweep) : 0;
  return turn * s.r;
}

/** The place on a side nearest to a point. */
export function nearestOn(s: Side, u: number, v: number): Point2 {
  if (!s.arc) {
    const t = (u - s.ax) * s.tax + (v - s.ay) * s.tay;
    if (t <= 0) return { u: s.ax, v: s.ay };
    if (t >= s.length) return { u: s.bx, v: s.by };
    return { u: s.ax + s.tax * t, v: s.ay + s.tay * t };
  }
  const du = u - s.cx;
  const dv = v - s.cy;
  const far = Math.hypot(du, dv);
  if (far > 0 && onSweep(s, Math.atan2(dv, du))) return { u: s.cx + (du / far) * s.r, v: s.cy + (dv / far) * s.r };
  const toA = Math.hypot(u - s.ax, v - s.ay);
  return toA <= Math.hypot(u - s.bx, v - s.by) ? { u: s.ax, v: s.ay } : { u: s.bx, v: s.by };
}

/** Signed distance of a point to the region's boundary, mm: negative inside. */
export function signedDistance(o: Outline, u: number, v: number): number {
  heed(o.sides.length);
  let best = Number.POSITIVE_INFINITY;
  for (const s of o.sides) best = Math.min(best, distanceTo(s, u, v));
  return windingOf(o.edges, u, v) !== 0 ? -best : best;
}

/** How far a point lies from a side, mm: as far as from `nearestOn`, without the place. */
export function distanceTo(s: Side, u: number, v: number): number {
  if (!s.arc) {
    const du = u - s.ax;
    const dv = v - s.ay;
    const t = du * s.tax + dv * s.tay;
    if (t <= 0) return Math.sqrt(du * du + dv * dv);
    if (t < s.length) return Math.abs(dv * s.tax - du * s.tay);
  } else {
    const du = u - s.cx;
    const dv = v - s.cy;
    const far = Math.sqrt(du * du + dv * dv);
    if (s.before === s || (far > 0 && onSweep(s, Math.atan2(dv, du)))) return Math.abs(far - s.r);
    const da = u - s.ax;
    const db = v - s.ay;
    const toA = Math.sqrt(da * da + db * db);
    return Math.min(toA, Math.sqrt((u - s.bx) ** 2 + (v - s.by) ** 2));
  }
  return Math.sqrt((u - s.bx) ** 2 + (v - s.by) ** 2);
}

/** How deep inside a region a point lies, mm; 0 where it is less than `least`, which is found sooner. */
export function depthIn(o: Outline, u: number, v: number, least: number): number {
  if (u < o.minU || u > o.maxU || v < o.minV || v > o.maxV) return 0;
  if (windingOf(o.edges, u, v) === 0) return 0;
  let best = Number.POSITIVE_INFINITY;
  for (const s of o.sides) {
    best = Math.min(best, distanceTo(s, u, v));
    if (best < least) return 0;
  }
  return best;
}
