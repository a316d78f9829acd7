/**
 * A removed volume as seen by a tool: how far inside its outline a point is, at which depths it is open there, and
 * where a line passes through it. Closed form; only a line oblique to the outline's plane is stepped along.
 */

import { onSweep } from '../geometry/2d/edge';
import { depthInside, isDeepInside } from '../geometry/2d/inside';
import { regionEdges } from '../geometry/2d/moments';
import type { Edge, Frame, Point2, Profile, Region, Vec3, Void } from '../geometry/types';
import { add, dot } from '../geometry/vector';
import { DIGITS, ROUNDING, SAME } from '../tolerance';

// Under the names this floor uses.
export { fromFrame as ofFrame } from '../geometry/frame';
export { add, dot, sub as minus } from '../geometry/vector';

/** A stretch of a line, as distances from its starting point. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A point of the part in a void's frame: u, v in the outline's plane, w into the material. */
export function inFrame(f: Frame, p: Vec3): { readonly u: number; readonly v: number; readonly w: number } {
  const x = p[0] - f.origin[0];
  const y = p[1] - f.origin[1];
  const z = p[2] - f.origin[2];
  return {
    u: x * f.u[0] + y * f.u[1] + z * f.u[2],
    v: x * f.v[0] + y * f.v[1] + z * f.v[2],
    w: x * f.w[0] + y * f.w[1] + z * f.w[2],
  };
}
/** Distance from the outline, mm: positive inside the region, negative outside. */
export function insideBy(region: Region, p: Point2): number {
  return depthInside(regionEdges(region), p.u, p.v);
}

/** The line (u, v) + t (du, dv). */
interface Line {
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
}

/** Adds the parameters t at which the line crosses an edge. */
function hits(e: Edge, { u, v, du, dv }: Line, found: number[]): void {
  if (e.type === 'line') {
    const a = (e.a.v - v) * du - (e.a.u - u) * dv;
    const b = (e.b.v - v) * du - (e.b.u - u) * dv;
    if (a > 0 === b > 0) return;
    const k = a / (a - b);
    const from = (e.a.u - u) * du + (e.a.v - v) * dv;
    const to = (e.b.u - u) * du + (e.b.v - v) * dv;
    found.push(from + k * (to - from));
    return;
  }
  const { centre, radius } = e;
  const h = (centre.v - v) * du - (centre.u - u) * dv;
  const half2 = radius * radius - h * h;
  if (half2 <= 0) return;
  const half = Math.sqrt(half2);
  const t0 = (centre.u - u) * du + (centre.v - v) * dv;
  if (onSweep(e, u + (t0 - half) * du, v + (t0 - half) * dv)) found.push(t0 - half);
  if (onSweep(e, u + (t0 + half) * du, v + (t0 + half) * dv)) found.push(t0 + half);
}

/** How much smaller the section is at depth w, mm (negative: larger). */
export function insetAt(profile: Profile, w: number, from: number, to: number): number {
  if (profile.type === 'straight') return 0;
  if (profile.type === 'taper') {
    const k = to > from ? (w - from) / (to - from) : 0;
    return profile.insetFrom + k * (profile.insetTo - profile.insetFrom);
  }
  const r = profile.radius;
  if (profile.type === 'floor') {
    const into = Math.max(0, w - (to - r));
    return r - Math.sqrt(Math.max(0, r * r - into * into));
  }
  const left = Math.max(0, r - (w - from));
  return Math.sqrt(Math.max(0, r * r - left * left));
}

/** Whether a point lies in what this void removes. */
export function holds(v: Void, p: Vec3): boolean {
  const { u, v: q, w } = inFrame(v.frame, p);
  if (w < v.from - SAME || w > v.to + SAME) return false;
  return isDeepInside(regionEdges(v.region), u, q, insetAt(v.profile, w, v.from, v.to) - SAME);
}

/** The stretches of the line p + t d (d a unit vector) that lie in the void. */
export function through(v: Void, p: Vec3, d: Vec3): readonly Stretch[] {
  const at = inFrame(v.frame, p);
  const dw = dot(d, v.frame.w);
  if (Math.abs(dw) > 1 - ROUNDING) {
    const depths = openDepths(v, at);
    if (!depths) return [];
    const a = (depths.from - at.w) * dw;
    const b = (depths.to - at.w) * dw;
    return [{ from: Math.min(a, b), to: Math.max(a, b) }];
  }
  if (Math.abs(dw) < ROUNDING) {
    if (at.w < v.from - SAME || at.w > v.to + SAME) return [];
    const inset = insetAt(v.profile, at.w, v.from, v.to);
    if (Math.abs(inset) < SAME) return chords(v.region, at.u, at.v, dot(d, v.frame.u), dot(d, v.frame.v));
  }
  return stepped(v, p, d);
}

/** Where a line in the outline's plane runs inside the region. */
function chords(region: Region, u: number, v: number, du: number, dv: number): readonly Stretch[] {
  // A hair beside the line, so that it passes no corner exactly: the chord is the same to a nanometre.
  const line = { u: u - dv * 1e-9, v: v + du * 1e-9, du, dv };
  const at: number[] = [];
  for (const e of regionEdges(region)) hits(e, line, at);
  at.sort((a, b) => a - b);
  const found: Stretch[] = [];
  for (let i = 0; i + 1 < at.length; i += 2) found.push({ from: at[i]!, to: at[i + 1]! });
  return found;
}

/** The depths at which a point of the outline's plane is open. */
function openDepths(v: Void, at: Point2): Stretch | undefined {
  const { profile, from, to } = v;
  if (profile.type === 'straight')
    return isDeepInside(regionEdges(v.region), at.u, at.v, -SAME) ? { from, to } : undefined;
  const inside = insideBy(v.region, at);
  const open = (w: number) => inside >= insetAt(profile, w, from, to) - SAME;
  const [a, b] = [open(from), open(to)];
  if (a && b) return { from, to };
  if (!a && !b) return undefined;
  let [lo, hi] = [from, to];
  for (let i = 0; i < 36; i++) {
    const mid = (lo + hi) / 2;
    if (open(mid) === a) lo = mid;
    else hi = mid;
  }
  return a ? { from, to: lo } : { from: hi, to };
}

/** Steps along a line within the void's bounds, and closes in on each change. For leaning and tapering volumes. */
function stepped(v: Void, p: Vec3, d: Vec3): readonly Stretch[] {
  let lo = Number.NEGATIVE_INFINITY;
  let hi = Number.POSITIVE_INFINITY;
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(d[i]) < DIGITS) {
      if (p[i] < v.bounds.min[i] - SAME || p[i] > v.bounds.max[i] + SAME) return [];
      continue;
    }
    const a = (v.bounds.min[i] - p[i]) / d[i];
    const b = (v.bounds.max[i] - p[i]) / d[i];
    lo = Math.max(lo, Math.min(a, b));
    hi = Math.min(hi, Math.max(a, b));
  }
  if (!(hi > lo)) return [];
  const found: Stretch[] = [];
  const steps = 48;
  const inAt = (t: number) => holds(v, add(p, d, t));
  const edge = (a: number, b: number): number => {
    const was = inAt(a);
    for (let i = 0; i < 22; i++) {
      const mid = (a + b) / 2;
      if (inAt(mid) === was) a = mid;
      else b = mid;
    }
    return (a + b) / 2;
  };
  let start: number | undefined = inAt(lo) ? lo : undefined;
  for (let i = 1; i <= steps; i++) {
    const t0 = lo + ((hi - lo) * (i - 1)) / steps;
    const t = lo + ((hi - lo) * i) / steps;
    const now = inAt(t);
    if (now && start === undefined) start = edge(t0, t);
    else if (!now && start !== undefined) {
      found.push({ from: start, to: edge(t0, t) });
      start = undefined;
    }
  }
  if (start !== undefined) found.push({ from: start, to: hi });
  return found;
}
