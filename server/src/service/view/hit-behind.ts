/** Which face a ray through the material comes out of: by the triangles, which say only which; how far is the exact faces' to say. */
import type { Shown } from '../../geometry/mesh/display';
import type { Vec3 } from '../../geometry/types';
import { cross, dot, sub } from '../../geometry/vector';
import { DIGITS } from '../../tolerance';

/** Triangles that the ray begins on are left behind by so much, mm. */
const BEGINS_MM = 0.02;

export function hitBehind(
  { positions: at, triangles, surfaceOf }: Shown,
  own: number,
  from: Vec3,
  way: Vec3,
): { readonly surface: number; readonly mm: number } | undefined {
  const point = (v: number): Vec3 => [at[3 * v]!, at[3 * v + 1]!, at[3 * v + 2]!];
  let best: { surface: number; mm: number } | undefined;
  for (let t = 0; t < surfaceOf.length; t++) {
    const [a, b, c] = [point(triangles[3 * t]!), point(triangles[3 * t + 1]!), point(triangles[3 * t + 2]!)];
    const mm = reached(from, way, [a, b, c]);
    const far = surfaceOf[t] === own ? 10 * BEGINS_MM : BEGINS_MM;
    if (mm !== undefined && mm > far && (!best || mm < best.mm)) best = { surface: surfaceOf[t]!, mm };
  }
  return best;
}

/** How far along the ray a triangle is; undefined beside it (Möller and Trumbore, 1997). */
function reached(from: Vec3, way: Vec3, [a, b, c]: readonly [Vec3, Vec3, Vec3]): number | undefined {
  const [e, f] = [sub(b, a), sub(c, a)];
  const p = cross(way, f);
  const det = dot(e, p);
  if (Math.abs(det) < DIGITS) return undefined;
  const s = sub(from, a);
  const u = dot(s, p) / det;
  if (u < 0 || u > 1) return undefined;
  const q = cross(s, e);
  const v = dot(way, q) / det;
  return v < 0 || u + v > 1 ? undefined : dot(f, q) / det;
}
