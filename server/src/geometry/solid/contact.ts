/** Which voids share volume with which: bounds by a sweep along the longest axis, then a closer look at round pairs. */

import { heed } from '../../effort';
import { DIGITS, ROUNDING } from '../../tolerance';
import { isFullCircle } from '../2d/edge';
import type { Box } from '../types';
import { add, boxesMeet, dot } from '../vector';
import type { Prism } from './prism';

/** So far apart is touching still, mm. */
const TOUCHING = -1e-7;

/** For each prism, the indices of those it may touch or share volume with, ascending. */
export function contacts(prisms: readonly Prism[]): readonly (readonly number[])[] {
  const axis = spread(prisms.map((p) => p.bounds));
  const order = prisms.map((_, i) => i).sort((a, b) => prisms[a]!.bounds.min[axis] - prisms[b]!.bounds.min[axis]);
  const out: number[][] = prisms.map(() => []);
  let open: number[] = [];
  for (const i of order) {
    const p = prisms[i]!;
    const start = p.bounds.min[axis];
    open = open.filter((k) => prisms[k]!.bounds.max[axis] > start + TOUCHING);
    for (const k of open) {
      heed(1);
      if (!meet(p, prisms[k]!, TOUCHING)) continue;
      out[i]!.push(k);
      out[k]!.push(i);
    }
    open.push(i);
  }
  for (const list of out) list.sort((a, b) => a - b);
  return out;
}

/** Of those that touch, those that may share volume. */
export function meetings(
  prisms: readonly Prism[],
  touching: readonly (readonly number[])[],
): readonly (readonly number[])[] {
  // Of each pair the same one first, so that both say the same of it.
  const bothMeet = (i: number, k: number) => meet(prisms[Math.max(i, k)]!, prisms[Math.min(i, k)]!, ROUNDING);
  return touching.map((others, i) => others.filter((k) => bothMeet(i, k)));
}

function meet(p: Prism, q: Prism, hair: number): boolean {
  return boxesMeet(p.bounds, q.bounds, hair) && !stacked(p, q, hair) && !roundApart(p, q, hair);
}

function spread(boxes: readonly Box[]): 0 | 1 | 2 {
  let best: 0 | 1 | 2 = 0;
  let most = -1;
  for (const a of [0, 1, 2] as const) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const b of boxes) {
      low = Math.min(low, b.min[a]);
      high = Math.max(high, b.min[a]);
    }
    if (high - low > most) {
      most = high - low;
      best = a;
    }
  }
  return best;
}

/** One begins where the other ends, along the same direction: the bounds of leaning ones do not tell. */
function stacked(p: Prism, q: Prism, hair: number): boolean {
  const { w, origin } = p.frame;
  const other = q.frame;
  const along = dot(w, other.w);
  if (Math.abs(along) < 1 - DIGITS) return false;
  const base = dot(w, add(other.origin, origin, -1));
  const [a, b] = [base + along * q.from, base + along * q.to];
  return Math.min(a, b) >= p.to - hair || Math.max(a, b) <= p.from + hair;
}

/** Two straight cylinders side by side whose bounds meet only at the corners. */
function roundApart(p: Prism, q: Prism, hair: number): boolean {
  if (p.profile.type !== 'straight' || q.profile.type !== 'straight') return false;
  const a = p.region.outer.edges[0]!;
  const b = q.region.outer.edges[0]!;
  if (a.type !== 'arc' || b.type !== 'arc' || !isFullCircle(a) || !isFullCircle(b)) return false;
  const { w } = p.frame;
  const v = q.frame.w;
  const along = w[0] * v[0] + w[1] * v[1] + w[2] * v[2];
  if (Math.abs(along) < 1 - DIGITS) return false;
  const centre = (e: Prism, c: { u: number; v: number }) =>
    ([0, 1, 2] as const).map((i) => e.frame.origin[i] + c.u * e.frame.u[i] + c.v * e.frame.v[i]);
  const ca = centre(p, a.centre);
  const cb = centre(q, b.centre);
  const d = ca.map((x, i) => x - cb[i]!);
  const lift = d[0]! * w[0] + d[1]! * w[1] + d[2]! * w[2];
  const apart = Math.sqrt(Math.max(0, d[0]! ** 2 + d[1]! ** 2 + d[2]! ** 2 - lift * lift));
  return apart >= a.radius + b.radius - hair;
}
