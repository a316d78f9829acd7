/**
 * Columns: what a line along the spindle meets in the finished part. Depths are counted from the plane of the face
 * that looks at the spindle, on the body's envelope, downward.
 */

import { heed } from '../effort';
import { inward } from '../geometry/frame';
import { nearTo } from '../geometry/solid/near';
import type { Solid, Vec3, Void } from '../geometry/types';
import { FACE_AXIS, type Face } from '../model/model';
import { DIGITS, SAME } from '../tolerance';
import { dot, type Stretch, through } from './section';

const INDEX = { x: 0, y: 1, z: 2 } as const;
/** Nearer than this counts as meeting, mm. */
const NEAR = 0.1;

/** A body with what was cut from it: the finished part, or only what of it matters here. */
export type Place = Pick<Solid, 'body' | 'voids'>;

export { inward };

/** How far a point lies below the plane of a face, mm. */
export function depthBelow(solid: Pick<Place, 'body'>, face: Face, p: Vec3): number {
  const { axis, sign } = FACE_AXIS[face];
  const i = INDEX[axis];
  return sign > 0 ? solid.body.box.max[i] - p[i] : p[i] - solid.body.box.min[i];
}

/** From that face to the opposite one, mm. */
export function heightOf(solid: Place, face: Face): number {
  const i = INDEX[FACE_AXIS[face].axis];
  return solid.body.box.max[i] - solid.body.box.min[i];
}

/** A point at a depth below a face, on the line through p. */
export function atDepth(solid: Place, face: Face, p: Vec3, depthMm: number): Vec3 {
  const d = inward(face);
  const by = depthMm - depthBelow(solid, face, p);
  return [p[0] + d[0] * by, p[1] + d[1] * by, p[2] + d[2] * by];
}

/** Voids that meet this one's outline anywhere along its axis, itself included: all that a column through it can meet. */
export function beside(v: Void, { voids }: Pick<Solid, 'voids'>): readonly Void[] {
  heed(voids.length);
  // Asked for every volume of every other: bounds are compared as plain numbers, none along the axis.
  const across = [0, 1, 2].map((i) => (Math.abs(v.frame.w[i as 0]) < 0.5 ? NEAR : Number.POSITIVE_INFINITY));
  const [x0, y0, z0] = v.bounds.min.map((at, i) => at - across[i]!) as unknown as Vec3;
  const [x1, y1, z1] = v.bounds.max.map((at, i) => at + across[i]!) as unknown as Vec3;
  return nearTo(voids, { min: [x0, y0, z0], max: [x1, y1, z1] }).filter(({ bounds: { min, max } }) => {
    if (max[0] < x0 || min[0] > x1) return false;
    return max[1] >= y0 && min[1] <= y1 && max[2] >= z0 && min[2] <= z1;
  });
}

/** Which voids count as removed: all, where none is told. */
export type Which = (v: Void) => boolean;

/** Where the line through p along the face's axis runs in material: depths below the face, in order. */
export function materialAlong(solid: Place, face: Face, p: Vec3, which?: Which): readonly Stretch[] {
  const top = atDepth(solid, face, p, 0);
  const d = inward(face);
  let material = bodyAlong(solid, face, top, d);
  if (material.length === 0) return material;
  for (const v of solid.voids) {
    if (which && !which(v)) continue;
    if (!over(v, p, d)) continue;
    for (const gap of through(v, top, d)) material = less(material, gap);
    if (material.length === 0) break;
  }
  return material;
}

/** Where any line through p runs in material: mm from p along d, a unit vector. */
export function materialOn(solid: Place, p: Vec3, d: Vec3): readonly Stretch[] {
  let material = bodyOn(solid, p, d);
  for (const v of solid.voids) {
    if (material.length === 0) break;
    for (const gap of through(v, p, d)) material = less(material, gap);
  }
  return material;
}

/** The stretch of such a line in the body: between its planes, and inside its round. */
function bodyOn({ body }: Pick<Place, 'body'>, p: Vec3, d: Vec3): readonly Stretch[] {
  let [from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const within = (a: number, b: number) => {
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  };
  const { min, max } = body.box;
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(d[i]) > DIGITS) within((min[i] - p[i]) / d[i], (max[i] - p[i]) / d[i]);
    else if (p[i] < min[i] - SAME || p[i] > max[i] + SAME) return [];
  }
  if (body.form !== 'box') {
    const across = ([0, 1, 2] as const).filter((i) => i !== body.axis);
    const [a, b] = across.map((i) => p[i] - (min[i] + max[i]) / 2) as [number, number];
    const [da, db] = across.map((i) => d[i]) as [number, number];
    const square = da * da + db * db;
    const half = (a * da + b * db) / square;
    const room = half * half - (a * a + b * b - body.radius * body.radius) / square;
    if (square < DIGITS ? Math.hypot(a, b) > body.radius + SAME : !(room > 0)) return [];
    if (square >= DIGITS) within(-half - Math.sqrt(room), -half + Math.sqrt(room));
  }
  return to > from ? [{ from, to }] : [];
}

/** Depth at which a line from the spindle first meets material; infinite where it passes. */
export function firstMaterial(solid: Place, face: Face, p: Vec3, which?: Which): number {
  return materialAlong(solid, face, p, which)[0]?.from ?? Number.POSITIVE_INFINITY;
}

/** The line of a column passes the void's bounds. */
function over(v: Void, p: Vec3, d: Vec3): boolean {
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(d[i]) < 0.5 && (p[i] < v.bounds.min[i] - SAME || p[i] > v.bounds.max[i] + SAME)) return false;
  }
  return true;
}

function bodyAlong(solid: Place, face: Face, top: Vec3, d: Vec3): readonly Stretch[] {
  const { body } = solid;
  const height = heightOf(solid, face);
  const whole = [{ from: 0, to: height }];
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(d[i]) < 0.5 && (top[i] < body.box.min[i] - SAME || top[i] > body.box.max[i] + SAME)) return [];
  }
  if (body.form === 'box') return whole;
  const across = ([0, 1, 2] as const).filter((i) => i !== body.axis);
  const off = across.map((i) => top[i] - (body.box.min[i] + body.box.max[i]) / 2);
  const along = Math.abs(dot(d, unit(body.axis))) > 0.5;
  if (along) return Math.hypot(off[0]!, off[1]!) <= body.radius + SAME ? whole : [];
  const side = Math.abs(d[across[0]!]) > 0.5 ? off[1]! : off[0]!;
  const half = Math.sqrt(Math.max(0, body.radius * body.radius - side * side));
  return half > 0 ? [{ from: height / 2 - half, to: height / 2 + half }] : [];
}

function unit(axis: 0 | 1 | 2): Vec3 {
  return [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
}

function less(stretches: readonly Stretch[], gap: Stretch): readonly Stretch[] {
  const left: Stretch[] = [];
  for (const s of stretches) {
    if (gap.to <= s.from + SAME || gap.from >= s.to - SAME) {
      left.push(s);
      continue;
    }
    if (gap.from > s.from + SAME) left.push({ from: s.from, to: gap.from });
    if (gap.to < s.to - SAME) left.push({ from: gap.to, to: s.to });
  }
  return left;
}
