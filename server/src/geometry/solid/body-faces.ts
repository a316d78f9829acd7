/** The faces of the body: where the flat ones lie, and the names by which the round side of a round one goes. */

import { FACE_AXIS, FACES, type Face } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import type { BodyShape, Vec3 } from '../types';
import { dot, scale } from '../vector';

export const PART_AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** A flat face of the body: its outward normal, and where it lies along it. */
export interface Plane {
  readonly face: Face;
  readonly normal: Vec3;
  readonly at: number;
  /** Which part axis it is normal to. */
  readonly k: 0 | 1 | 2;
}

export function planeOf(body: BodyShape, face: Face): Plane {
  const { axis, sign } = FACE_AXIS[face];
  const k = 'xyz'.indexOf(axis) as 0 | 1 | 2;
  return { face, k, normal: scale(PART_AXES[k]!, sign), at: sign > 0 ? body.box.max[k] : -body.box.min[k] };
}

/** The flat faces: six of a box, the two ends of a round body. */
export function planesOf(body: BodyShape): readonly Plane[] {
  return FACES.filter((f) => isFlat(body, f)).map((f) => planeOf(body, f));
}

/** True for the faces of a round body that are flat: its two ends. */
export const isFlat = (body: BodyShape, face: Face): boolean =>
  body.form === 'box' || 'xyz'.indexOf(FACE_AXIS[face].axis) === body.axis;

export const bodyAxis = (body: Extract<BodyShape, { form: 'round' }>): Vec3 => PART_AXES[body.axis]!;

export function middleOf(body: BodyShape): Vec3 {
  const { min, max } = body.box;
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

/** The name of the face whose side of a round body a place lies on. */
export function faceTowards(body: BodyShape, p: Vec3): Face {
  const from = middleOf(body);
  const round = FACES.filter((f) => body.form === 'box' || !isFlat(body, f));
  const towards = (f: Face) => dot(planeOf(body, f).normal, [p[0] - from[0], p[1] - from[1], p[2] - from[2]]);
  return round.reduce((best, f) => (towards(f) > towards(best) + ROUNDING ? f : best));
}
