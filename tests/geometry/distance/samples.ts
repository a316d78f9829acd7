/** Brute force: the surface of a removed volume as a cloud of points, and the nearest two points of two clouds. */

import { insetRegion } from '../../../server/src/geometry/2d/offset';
import { outlineOf, pointAlong } from '../../../server/src/geometry/distance/outline';
import { fromFrame } from '../../../server/src/geometry/frame';
import { holds, insetAt } from '../../../server/src/geometry/solid/prism';
import type { Vec3, Void } from '../../../server/src/geometry/types';

export const STEP = 0.45;

/** Points of the surface no farther than STEP from each other, give or take. */
export function samples(v: Void): Vec3[] {
  const found: Vec3[] = [];
  const levels = Math.ceil((v.to - v.from) / STEP);
  for (let i = 0; i <= levels; i++) {
    const w = v.from + ((v.to - v.from) * i) / levels;
    for (const r of insetRegion(v.region, insetAt(v, w)) ?? []) {
      const o = outlineOf(r);
      for (const s of o.sides) {
        const n = Math.ceil(s.length / STEP);
        for (let k = 0; k <= n; k++) {
          const p = pointAlong(s, (s.length * k) / n);
          found.push(fromFrame(v.frame, p.u, p.v, w));
        }
      }
      if (i > 0 && i < levels) continue;
      for (let u = o.minU; u <= o.maxU; u += STEP) {
        for (let y = o.minV; y <= o.maxV; y += STEP) {
          const p = fromFrame(v.frame, u, y, w);
          if (holds(v, fromFrame(v.frame, u, y, w + (i === 0 ? 1e-7 : -1e-7)))) found.push(p);
        }
      }
    }
  }
  return found;
}

/** Nearest samples; those that cannot be nearer than `most` are not paired. */
export function bruteForce(a: Void, b: Void, most = 50): number {
  const near = (p: Vec3, o: Void) =>
    p.every((x, i) => x > o.bounds.min[i as 0] - most && x < o.bounds.max[i as 0] + most);
  const pa = samples(a).filter((p) => near(p, b));
  const pb = samples(b).filter((p) => near(p, a));
  let best = Number.POSITIVE_INFINITY;
  for (const p of pa)
    for (const q of pb) best = Math.min(best, (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2);
  return Math.sqrt(best);
}
