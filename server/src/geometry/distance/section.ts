/** How wide a removed volume is at a depth, and how one volume looks from the frame of another with the same axis. */

import { depthOf, fromFrame, intoFrame } from '../frame';
import { insetAt } from '../solid/prism';
import type { BodyShape, Frame, Loop, Point2, Region, Vec3, Void } from '../types';
import { dot, spanAlong } from '../vector';
import { type Outline, outlineOf } from './outline';

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The depths over which a volume is widest, and its inset there. */
export function widest(v: Void): Stretch & { readonly inset: number } {
  const { profile: p, from, to } = v;
  if (p.type === 'floor') return { from, to: Math.max(from, to - p.radius), inset: 0 };
  if (p.type === 'straight' || (p.type === 'taper' && p.insetFrom === p.insetTo)) {
    return { from, to, inset: p.type === 'taper' ? p.insetFrom : 0 };
  }
  const [first, last] = [insetAt(v, from), insetAt(v, to)];
  return first < last ? { from, to: from, inset: first } : { from: to, to, inset: last };
}

/** Cosine above which two axes count as parallel: 1e-6 rad, a micrometre in a metre. */
const PARALLEL = 1 - 5e-13;

/** +1 or −1 where two axes are parallel, the same way or opposite; 0 where they are not. */
export function parallel(a: Vec3, b: Vec3): 1 | -1 | 0 {
  const d = dot(a, b);
  return d > PARALLEL ? 1 : d < -PARALLEL ? -1 : 0;
}

/** Depths of `b` counted in the frame of `a`; their axes are parallel. */
export function depthsIn(a: Frame, b: Frame, s: Stretch): Stretch {
  const start = depthOf(a, b.origin);
  const way = dot(a.w, b.w) > 0 ? 1 : -1;
  return way > 0 ? { from: start + s.from, to: start + s.to } : { from: start - s.to, to: start - s.from };
}

/** The outline of `b` drawn in the plane of `a`; their axes are parallel. */
export function outlineIn(a: Frame, b: Void): Outline {
  if (a === b.frame) return outlineOf(b.region);
  const point = (p: Point2) => intoFrame(a, fromFrame(b.frame, p.u, p.v, 0));
  const mirrored = dot(a.u, b.frame.u) * dot(a.v, b.frame.v) - dot(a.u, b.frame.v) * dot(a.v, b.frame.u) < 0;
  return outlineOf(mapped(b.region, point, mirrored));
}

/** A region moved by an isometry of the plane; one that mirrors runs the loops the other way, so that the region stays left. */
export function mapped(region: Region, point: (p: Point2) => Point2, mirrored: boolean): Region {
  const loop = (l: Loop): Loop => {
    const edges = l.edges.map((e) => {
      const [a, b] = mirrored ? [point(e.b), point(e.a)] : [point(e.a), point(e.b)];
      return e.type === 'line' ? { ...e, a, b } : { ...e, a, b, centre: point(e.centre) };
    });
    return { edges: mirrored ? edges.reverse() : edges };
  };
  return { outer: loop(region.outer), holes: region.holes.map(loop) };
}

/** The depths at which the body lies, seen in a frame. */
export function bodyDepths(f: Frame, body: BodyShape): Stretch {
  const [from, to] = spanAlong(body.box, f.w, -dot(f.origin, f.w));
  return { from, to };
}

export function shared(a: Stretch, b: Stretch): Stretch {
  return { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };
}
