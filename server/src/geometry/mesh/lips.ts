/**
 * Where a volume ends in a face of the body its mesh is carried on a little beyond, so that nothing as thin as a
 * rounding error is left standing in the face.
 */
import { ROUNDING, SAME } from '../../tolerance';
import { tangentAt } from '../2d/edge';
import { fromFrame } from '../frame';
import type { BodyShape, Frame, Point2, Vec3 } from '../types';
import { add, scale } from '../vector';
import type { Chain, Ring } from './ring';

/** How far a volume is carried on beyond the body's face that it opens to, mm. */
export const BEYOND_MM = 0.125;

/** True where the plane at `level` along a frame's axis is a face of the body, and the way `sign` leads out of it. */
export function onFace(frame: Frame, axis: 'u' | 'v' | 'w', sign: 1 | -1, level: number, body: BodyShape): boolean {
  const way = scale(frame[axis], sign);
  const at = add(frame.origin, frame[axis], level);
  return leadsOut(way, at, body);
}

/** Out of the body across one of its flat faces, starting in the face. */
function leadsOut(way: Vec3, at: Vec3, body: BodyShape): boolean {
  for (const a of [0, 1, 2] as const) {
    if (Math.abs(Math.abs(way[a]) - 1) > ROUNDING) continue;
    if (body.form === 'round' && a !== body.axis) return false;
    const face = way[a] > 0 ? body.box.max[a] : body.box.min[a];
    return Math.abs(at[a] - face) < SAME;
  }
  return false;
}

/** The polygon with a lip on every straight edge that lies in a face of the body. */
export function grown(frame: Frame, ring: Ring, chain: Chain, body: BodyShape): Ring {
  const lips = chain.map(({ of }) => {
    if (of.type !== 'line') return undefined;
    const t = tangentAt(of, of.a);
    const out: Point2 = { u: t.v, v: -t.u };
    const way = add(scale(frame.u, out.u), frame.v, out.v);
    return leadsOut(way, fromFrame(frame, of.a.u, of.a.v, 0), body) ? out : undefined;
  });
  if (!lips.some(Boolean)) return ring;
  const points: Point2[] = [];
  const of: number[] = [];
  const put = (p: Point2, u: number, v: number, stretch: number) => {
    points.push({ u: p.u + u * BEYOND_MM, v: p.v + v * BEYOND_MM });
    of.push(stretch);
  };
  const n = ring.points.length;
  for (let i = 0; i < n; i++) {
    const p = ring.points[i]!;
    const here = ring.of[i]!;
    const before = ring.of[(i + n - 1) % n]!;
    const [l, m] = [lips[before], lips[here]];
    if (l && m) {
      if (l.u * m.u + l.v * m.v > 0.5) put(p, m.u, m.v, here);
      else put(p, l.u + m.u, l.v + m.v, here);
      continue;
    }
    if (l) put(p, l.u, l.v, before);
    put(p, 0, 0, here);
    if (m) put(p, m.u, m.v, here);
  }
  return { points, of };
}
