/**
 * A swept outline, the one kind of volume here: a void, or the body itself. Its inset at a depth, its bounds,
 * whether a point lies in it.
 */

import { heed } from '../../effort';
import { ROUNDING } from '../../tolerance';
import { reachOf } from '../2d/edge';
import { isDeepInside, windingOf } from '../2d/inside';
import { regionEdges } from '../2d/moments';
import type { BodyShape, Box, Frame, Profile, Region, Vec3, Void } from '../types';

/** What the solid operations need of a void. */
export type Prism = Pick<Void, 'frame' | 'region' | 'from' | 'to' | 'profile' | 'bounds'>;

/** How far the section at depth w is inset from the region, mm; negative where it is larger. */
export function insetAt(p: Pick<Prism, 'from' | 'to' | 'profile'>, w: number): number {
  const { profile } = p;
  switch (profile.type) {
    case 'straight':
      return 0;
    case 'taper': {
      const t = p.to > p.from ? (w - p.from) / (p.to - p.from) : 0;
      return profile.insetFrom + (profile.insetTo - profile.insetFrom) * t;
    }
    case 'floor': {
      const into = w - (p.to - profile.radius);
      if (into <= 0) return 0;
      return profile.radius - Math.sqrt(Math.max(0, profile.radius ** 2 - into ** 2));
    }
    case 'round': {
      const up = profile.radius - (w - p.from);
      return Math.sqrt(Math.max(0, profile.radius ** 2 - up ** 2));
    }
    default:
      return profile satisfies never;
  }
}

/** The least inset over the whole depth: how far it reaches out at its widest. */
function leastInset(p: Profile): number {
  return p.type === 'taper' ? Math.min(p.insetFrom, p.insetTo) : 0;
}

/** The box in part axes round a swept region; where a profile widens it, round its widest section. */
export function boundsOf(frame: Frame, region: Region, from: number, to: number, profile: Profile): Box {
  const min: [number, number, number] = [0, 0, 0];
  const max: [number, number, number] = [0, 0, 0];
  const grow = -leastInset(profile);
  for (const a of [0, 1, 2] as const) {
    const du = frame.u[a];
    const dv = frame.v[a];
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const e of region.outer.edges) {
      const [l, h] = reachOf(e, du, dv);
      if (l < low) low = l;
      if (h > high) high = h;
    }
    const more = grow * Math.hypot(du, dv);
    const w0 = frame.w[a] * from;
    const w1 = frame.w[a] * to;
    min[a] = frame.origin[a] + low - more + Math.min(w0, w1);
    max[a] = frame.origin[a] + high + more + Math.max(w0, w1);
  }
  return { min, max };
}

/** True where the point lies in the volume. */
export function holds(p: Prism, at: Vec3): boolean {
  heed(1);
  const { min, max } = p.bounds;
  if (at[0] < min[0] || at[0] > max[0] || at[1] < min[1] || at[1] > max[1] || at[2] < min[2] || at[2] > max[2]) {
    return false;
  }
  const f = p.frame;
  const x = at[0] - f.origin[0];
  const y = at[1] - f.origin[1];
  const z = at[2] - f.origin[2];
  const w = x * f.w[0] + y * f.w[1] + z * f.w[2];
  if (w < p.from || w > p.to) return false;
  const u = x * f.u[0] + y * f.u[1] + z * f.u[2];
  const v = x * f.v[0] + y * f.v[1] + z * f.v[2];
  const inset = insetAt(p, w);
  const edges = regionEdges(p.region);
  return inset === 0 ? windingOf(edges, u, v) !== 0 : isDeepInside(edges, u, v, inset);
}

/** A cylinder or block lies wholly in the body. Never says yes wrongly; for a round body it may say no too often. */
export function liesIn(body: BodyShape, box: Box): boolean {
  for (const a of [0, 1, 2] as const) {
    if (box.min[a] < body.box.min[a] - ROUNDING || box.max[a] > body.box.max[a] + ROUNDING) return false;
  }
  if (body.form === 'box') return true;
  const i = ((body.axis + 1) % 3) as 0 | 1 | 2;
  const k = ((body.axis + 2) % 3) as 0 | 1 | 2;
  const ci = (body.box.min[i] + body.box.max[i]) / 2;
  const ck = (body.box.min[k] + body.box.max[k]) / 2;
  const di = Math.max(Math.abs(box.min[i] - ci), Math.abs(box.max[i] - ci));
  const dk = Math.max(Math.abs(box.min[k] - ck), Math.abs(box.max[k] - ck));
  return Math.hypot(di, dk) <= body.radius + ROUNDING;
}
