/** Vectors in part axes, and frames: the few operations that measuring needs. */
import type { Box, Frame, Point2, Vec3 } from '../types';

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
/** a + b·s */
export const along = (a: Vec3, b: Vec3, s: number): Vec3 => [a[0] + b[0] * s, a[1] + b[1] * s, a[2] + b[2] * s];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.sqrt(dot(a, a));
export const distance = (a: Vec3, b: Vec3): number => length(sub(a, b));
export const mix = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** The point of the part at (u, v) in a frame's plane, `w` deep. */
export function fromFrame(f: Frame, u: number, v: number, w: number): Vec3 {
  return [
    f.origin[0] + f.u[0] * u + f.v[0] * v + f.w[0] * w,
    f.origin[1] + f.u[1] * u + f.v[1] * v + f.w[1] * w,
    f.origin[2] + f.u[2] * u + f.v[2] * v + f.w[2] * w,
  ];
}

/** A point of the part seen in a frame: its place in the plane. */
export function intoFrame(f: Frame, p: Vec3): Point2 {
  const d = sub(p, f.origin);
  return { u: dot(d, f.u), v: dot(d, f.v) };
}

/** How deep a point of the part lies in a frame. */
export function depthOf(f: Frame, p: Vec3): number {
  return dot(sub(p, f.origin), f.w);
}

/** Least and greatest of direction · x + offset over a box: the box's shadow on a line. */
export function shadow(box: Box, direction: Vec3, offset: number): readonly [number, number] {
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
export function boxesMeet(a: Box, b: Box, by: number): boolean {
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
