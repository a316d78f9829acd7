/** Volumes seen from another direction: the part turned so that a leaning sweep stands along the third axis. */

import { memo } from '../../memo';
import type { Vec3 } from '../types';
import { cross, dot, length, scale } from '../vector';
import { boundsOf, type Prism } from './prism';

/** The volume turned so that the unit vector `along` becomes the third axis. */
export const inTurn = memo((p: Prism, along: Vec3): Prism => {
  const axes = axesOf(along);
  const turn = (d: Vec3): Vec3 => [dot(axes[0], d), dot(axes[1], d), dot(axes[2], d)].map(clean) as unknown as Vec3;
  const { region, from, to, profile } = p;
  const { origin, u, v, w } = p.frame;
  const frame = { origin: turn(origin), u: turn(u), v: turn(v), w: turn(w) };
  return { frame, region, from, to, profile, bounds: boundsOf(frame, region, from, to, profile) };
});

/** Components of a turned vector told in part axes again. */
export function turnedBack(p: Vec3, along: Vec3): Vec3 {
  const [a, b, c] = axesOf(along);
  return [0, 1, 2].map((i) => p[0] * a[i]! + p[1] * b[i]! + p[2] * c[i]!) as unknown as Vec3;
}

function axesOf(along: Vec3): readonly [Vec3, Vec3, Vec3] {
  // from the part axis it leans away from most, so that a lean about one axis keeps that axis
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(along[i]!) < Math.abs(along[k]!) ? i : k), 0);
  const unit: Vec3 = [least === 0 ? 1 : 0, least === 1 ? 1 : 0, least === 2 ? 1 : 0];
  const b = cross(along, unit);
  const second = scale(b, 1 / length(b));
  return [cross(second, along), second, along];
}

/** What should be square or along is, to the last digit. */
function clean(x: number): number {
  const near = Math.round(x);
  return Math.abs(x - near) < 1e-15 ? near : x;
}
