/** Vectors in part axes, mm. */
import type { Box, Vec3 } from './types';

export type AxisIndex = 0 | 1 | 2;

export const AXIS_INDEX = { x: 0, y: 1, z: 2 } as const;

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function add(a: Vec3, b: Vec3, s = 1): Vec3 {
  return [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
}

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

/** Two boxes share volume (more than a hair's). */
export function boxesMeet(a: Box, b: Box, hair = 1e-9): boolean {
  return (
    a.min[0] < b.max[0] - hair &&
    b.min[0] < a.max[0] - hair &&
    a.min[1] < b.max[1] - hair &&
    b.min[1] < a.max[1] - hair &&
    a.min[2] < b.max[2] - hair &&
    b.min[2] < a.max[2] - hair
  );
}

export function boxHolds(outer: Box, inner: Box, hair = 1e-9): boolean {
  for (let i = 0; i < 3; i++) {
    if (inner.min[i]! < outer.min[i]! - hair || inner.max[i]! > outer.max[i]! + hair) return false;
  }
  return true;
}
