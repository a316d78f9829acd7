/** Vectors in part axes, mm. */
import { ROUNDING } from '../tolerance';
import type { Box, Vec3 } from './types';

export type AxisIndex = 0 | 1 | 2;

export const AXIS_INDEX = { x: 0, y: 1, z: 2 } as const;

/** Scalar product. */
export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** a + s·b. */
export function add(a: Vec3, b: Vec3, s = 1): Vec3 {
  return [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
}

export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.sqrt(dot(a, a));
export const distance = (a: Vec3, b: Vec3): number => length(sub(a, b));
/** The point a share `t` of the way from a to b. */
export const mix = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** Turned about a part axis, right-handed, by degrees. */
export function turned(p: Vec3, axis: AxisIndex, deg: number): Vec3 {
  const c = Math.cos((deg * Math.PI) / 180);
  const s = Math.sin((deg * Math.PI) / 180);
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const out: [number, number, number] = [p[0], p[1], p[2]];
  out[i] = c * p[i] - s * p[k];
  out[k] = s * p[i] + c * p[k];
  return out;
}

/** Two boxes share volume (more than a hair's). Touching is not enough: for that there is `boxesNear`. */
export function boxesMeet(a: Box, b: Box, hair = ROUNDING): boolean {
  return (
    a.min[0] < b.max[0] - hair &&
    b.min[0] < a.max[0] - hair &&
    a.min[1] < b.max[1] - hair &&
    b.min[1] < a.max[1] - hair &&
    a.min[2] < b.max[2] - hair &&
    b.min[2] < a.max[2] - hair
  );
}

/** Least and greatest of direction · x + offset over a box: the box's shadow on a line. */
export function spanAlong(box: Box, direction: Vec3, offset: number): readonly [number, number] {
  let low = offset;
  let high = offset;
  for (let i = 0; i < 3; i++) {
    const d = direction[i as 0 | 1 | 2];
    const one = d * box.min[i as 0 | 1 | 2];
    const two = d * box.max[i as 0 | 1 | 2];
    low += Math.min(one, two);
    high += Math.max(one, two);
  }
  return [low, high];
}

/** True where two boxes come within `by` of each other along every axis. */
export function boxesNear(a: Box, b: Box, by: number): boolean {
  return (
    a.min[0] - by <= b.max[0] &&
    b.min[0] - by <= a.max[0] &&
    a.min[1] - by <= b.max[1] &&
    b.min[1] - by <= a.max[1] &&
    a.min[2] - by <= b.max[2] &&
    b.min[2] - by <= a.max[2]
  );
}

/** What two boxes share after each has grown by `by`. */
export function sharedBox(a: Box, b: Box, by: number): Box {
  const min = [0, 1, 2].map((i) => Math.max(a.min[i as 0] - by, b.min[i as 0] - by));
  const max = [0, 1, 2].map((i) => Math.min(a.max[i as 0] + by, b.max[i as 0] + by));
  return { min: min as unknown as Vec3, max: max as unknown as Vec3 };
}
