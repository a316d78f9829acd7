/**
 * Removed volumes as convex pieces. A convex volume (a hole, its cone, a plain pocket) is one piece with its exact reach;
 * any other is its boundary: one patch for each side of its outline, arcs as the hull of a piece of arc that can be
 * halved until the hull is as near the surface as wanted. Made once for each volume.
 */

import { memo } from '../../memo';
import { HAIR, NEAR, ROUNDING, SAME } from '../../tolerance';
import { insetRegion } from '../2d/offset';
import { depthOf, fromFrame, intoFrame } from '../frame';
import { insetAt } from '../solid/prism';
import type { Box, Frame, Point2, Region, Vec3, Void } from '../types';
import { dot } from '../vector';
import type { Convex } from './gjk';
import { inscribed } from './neck';
import { type Outline, onSweepOf, outlineOf, type Side } from './outline';

export interface Piece extends Convex {
  readonly bounds: Box;
  /** How far the hull may stand off the true surface, mm; 0 for an exact piece. */
  readonly error: number;
  /** True where a point of the hull lies on the true surface. */
  isOn(p: Vec3): boolean;
  /** Two pieces with less error that make up this one. */
  halves(): readonly Piece[];
}

export interface Pieces {
  /** One convex body; else patches of the boundary, to be used with the flat ends and a look whether one holds the other. */
  readonly solid: boolean;
  readonly list: readonly Piece[];
}

export const piecesOf = memo((v: Void): Pieces => {
  const convex = outlineOf(v.region).convex && v.profile.type !== 'round';
  return convex ? { solid: true, list: [solidPiece(v)] } : { solid: false, list: patchesOf(v) };
});

/** A flat section, or a half ball rolled round one: its furthest point along (du, dv, dw) in the frame. */
interface Slice {
  readonly w: number;
  reach(du: number, dv: number): Point2;
  /** Half ball below the section: a floor's fillet. */
  readonly ball: number;
}

function furthest(slices: readonly Slice[], f: Frame, d: Vec3): Vec3 {
  const [du, dv, dw] = [dot(d, f.u), dot(d, f.v), dot(d, f.w)];
  const flat = Math.hypot(du, dv);
  let best = Number.NEGATIVE_INFINITY;
  let found: Vec3 = f.origin;
  for (const s of slices) {
    const p = s.reach(du, dv);
    // The ball reaches down and out; upwards only out.
    const down = Math.max(0, dw);
    const whole = Math.hypot(flat, down);
    const out = s.ball > 0 && whole > 0 ? s.ball / whole : 0;
    const value = p.u * du + p.v * dv + s.w * dw + s.ball * whole;
    if (value <= best) continue;
    best = value;
    found = fromFrame(f, p.u + du * out, p.v + dv * out, s.w + down * out);
  }
  return found;
}

function boundsOf(support: (d: Vec3) => Vec3): Box {
  const at = (i: number, s: number) => support([0, 1, 2].map((k) => (k === i ? s : 0)) as unknown as Vec3)[i as 0];
  return { min: [at(0, -1), at(1, -1), at(2, -1)], max: [at(0, 1), at(1, 1), at(2, 1)] };
}

function solidPiece(v: Void): Piece {
  const { profile, from, to } = v;
  const slice = (inset: number, w: number, ball = 0): Slice => ({ w, ball, reach: sectionReach(v.region, inset) });
  let slices: Slice[];
  if (profile.type === 'floor') {
    slices = [
      slice(0, from),
      slice(0, to - profile.radius),
      slice(profile.radius, to - profile.radius, profile.radius),
    ];
  } else slices = [slice(insetAt(v, from), from), slice(insetAt(v, to), to)];
  const support = (d: Vec3) => furthest(slices, v.frame, d);
  const o = outlineOf(v.region);
  const middle = fromFrame(v.frame, (o.minU + o.maxU) / 2, (o.minV + o.maxV) / 2, (from + to) / 2);
  return { support, middle, bounds: boundsOf(support), error: 0, isOn: () => true, halves: () => [] };
}

/** Furthest point of a convex region inset by `inset` (outward: rounded by it). One that vanishes is its middle. */
function sectionReach(region: Region, inset: number): Slice['reach'] {
  const o = outlineOf(region);
  if (inset <= 0) {
    return (du, dv) => {
      const p = outlineReach(o, du, dv);
      const long = Math.hypot(du, dv);
      return long > 0 ? { u: p.u - (du / long) * inset, v: p.v - (dv / long) * inset } : p;
    };
  }
  const [only] = o.sides;
  if (o.sides.length === 1 && only!.arc) {
    const r = Math.max(0, only!.r - inset);
    return (du, dv) => {
      const long = Math.hypot(du, dv);
      return long > 0 ? { u: only!.cx + (du / long) * r, v: only!.cy + (dv / long) * r } : { u: only!.cx, v: only!.cy };
    };
  }
  // A region that shrinks to a line or a point: a hair before that it still has an outline.
  for (const less of [0, 1e-5, NEAR]) {
    const inner = insetRegion(region, inset - less);
    if (inner?.length === 1) {
      const small = outlineOf(inner[0]!);
      if (small.sides.length > 0) return (du, dv) => outlineReach(small, du, dv);
    }
  }
  const { at } = inscribed(o);
  return () => at;
}

export function outlineReach(o: Outline, du: number, dv: number): Point2 {
  let best = Number.NEGATIVE_INFINITY;
  let found = { u: 0, v: 0 };
  const long = Math.hypot(du, dv);
  for (const s of o.sides) {
    const at = s.ax * du + s.ay * dv;
    if (at > best) {
      best = at;
      found = { u: s.ax, v: s.ay };
    }
    if (!s.arc || s.sweep < 0 || long === 0) continue;
    const top = s.cx * du + s.cy * dv + s.r * long;
    if (top <= best || !onSweepOf(s.start, s.sweep, Math.atan2(dv, du))) continue;
    best = top;
    found = { u: s.cx + (s.r * du) / long, v: s.cy + (s.r * dv) / long };
  }
  return found;
}

/** The boundary's sides: every edge, and an arc about every corner that opens as the section grows or shrinks. */
function patchesOf(v: Void): readonly Piece[] {
  const { profile, from, to } = v;
  const levels = [from];
  if (profile.type === 'floor') levels.push(to - profile.radius, ...steps(to - profile.radius, to, profile.radius));
  else if (profile.type === 'round') levels.push(...steps(from, to, profile.radius));
  else levels.push(to);
  const list: Piece[] = [];
  for (const s of outlineOf(v.region).sides) {
    for (let i = 1; i < levels.length; i++) {
      const [w0, w1] = [levels[i - 1]!, levels[i]!];
      if (w1 - w0 < ROUNDING) continue;
      const ends = [w0, w1].map((w) => ({ w, inset: insetAt(v, w) })) as [Level, Level];
      if (!s.arc) list.push(linePatch(v.frame, s, ends));
      else list.push(...arcPatches(v.frame, s, s.start, s.sweep, ends));
      const opens = cornerArc(
        s,
        Math.max(...ends.map((e) => Math.abs(e.inset))) * Math.sign(ends[0].inset + ends[1].inset),
      );
      if (opens) list.push(...arcPatches(v.frame, opens, opens.start, opens.sweep, ends));
    }
  }
  return list;
}

interface Level {
  readonly w: number;
  readonly inset: number;
}

/** Depths that cut a quarter circle into chords that stand off it by less than 0.5 µm. */
function steps(from: number, to: number, radius: number): readonly number[] {
  const n = Math.min(
    64,
    Math.max(4, Math.ceil(Math.PI / 4 / Math.acos(Math.max(0.5, 1 - 5e-4 / Math.max(radius, HAIR))))),
  );
  return Array.from({ length: n }, (_, i) => {
    const angle = ((i + 1) / n) * (Math.PI / 2);
    return from + (to - from) * Math.sin(angle);
  });
}

/** The arc of radius 0 about the corner after a side, where an inset of that sign opens it. */
function cornerArc(s: Side, inset: number): Side | undefined {
  const n = s.after;
  const turn = turnAt(s, n);
  if (inset === 0 || Math.abs(turn) < SAME || turn > 0 === inset > 0) return undefined;
  // Outward normals before and after: for a corner of the region the arc bulges out, else it hollows in.
  const out = Math.atan2(-s.tbx, s.tby);
  const start = turn > 0 ? out : out + Math.PI;
  return { ...s, arc: true, cx: s.bx, cy: s.by, r: 0, start, sweep: turn };
}

/** How much shorter a side becomes at the corner between two sides when the section is inset. */
function cutBack(one: Side, two: Side, inset: number): number {
  const turn = turnAt(one, two);
  return inset === 0 || turn > 0 !== inset > 0 ? 0 : Math.abs(inset) * Math.tan(Math.abs(turn) / 2);
}

const turnAt = (s: Side, n: Side) => Math.atan2(s.tbx * n.tay - s.tby * n.tax, s.tbx * n.tax + s.tby * n.tay);

function linePatch(f: Frame, s: Side, ends: readonly [Level, Level]): Piece {
  const [nu, nv] = [s.tay, -s.tax];
  const corners = ends.flatMap(({ w, inset }) => {
    // Where a corner closes, the moved side ends at its neighbour; one that vanishes shrinks to a point.
    let [first, last] = [cutBack(s.before, s, inset), s.length - cutBack(s, s.after, inset)];
    if (first > last) first = last = (first * s.length) / (first + s.length - last);
    return [first, last].map((mm) => fromFrame(f, s.ax + s.tax * mm - nu * inset, s.ay + s.tay * mm - nv * inset, w));
  });
  const support = (d: Vec3) => corners.reduce((best, c) => (dot(c, d) > dot(best, d) ? c : best));
  const middle = fromFrame(f, (s.ax + s.bx) / 2, (s.ay + s.by) / 2, (ends[0].w + ends[1].w) / 2);
  return { support, middle, bounds: boundsOf(support), error: 0, isOn: () => true, halves: () => [] };
}

function arcPatches(f: Frame, s: Side, start: number, sweep: number, ends: readonly [Level, Level]): readonly Piece[] {
  const n = Math.ceil(Math.abs(sweep) / (Math.PI / 2) - ROUNDING);
  return Array.from({ length: n }, (_, i) => arcPatch(f, s, start + (sweep * i) / n, sweep / n, ends));
}

function arcPatch(f: Frame, s: Side, start: number, sweep: number, ends: readonly [Level, Level]): Piece {
  const way = sweep > 0 ? 1 : -1;
  const radius = (e: Level) => Math.max(0, s.r - way * e.inset);
  const round = (e: Level, angle: number): Point2 => {
    return { u: s.cx + radius(e) * Math.cos(angle), v: s.cy + radius(e) * Math.sin(angle) };
  };
  const slices = ends.map((e): Slice => {
    const [a, b] = [round(e, start), round(e, start + sweep)];
    const reach = (du: number, dv: number) => {
      if ((du !== 0 || dv !== 0) && onSweepOf(start, sweep, Math.atan2(dv, du))) return round(e, Math.atan2(dv, du));
      return a.u * du + a.v * dv >= b.u * du + b.v * dv ? a : b;
    };
    return { w: e.w, ball: 0, reach };
  });
  const support = (d: Vec3) => furthest(slices, f, d);
  const middle = fromFrame(
    f,
    round(ends[0], start + sweep / 2).u,
    round(ends[0], start + sweep / 2).v,
    (ends[0].w + ends[1].w) / 2,
  );
  let kept: readonly Piece[] | undefined;
  const halves = () => {
    kept ??= [arcPatch(f, s, start, sweep / 2, ends), arcPatch(f, s, start + sweep / 2, sweep / 2, ends)];
    return kept;
  };
  const isOn = (p: Vec3) => {
    const at = intoFrame(f, p);
    const t = (depthOf(f, p) - ends[0].w) / (ends[1].w - ends[0].w);
    const r = radius(ends[0]) + (radius(ends[1]) - radius(ends[0])) * t;
    return Math.abs(Math.hypot(at.u - s.cx, at.v - s.cy) - r) < 1e-7;
  };
  const error = Math.max(radius(ends[0]), radius(ends[1])) * (1 - Math.cos(sweep / 2));
  return { support, middle, bounds: boundsOf(support), error, isOn, halves };
}
