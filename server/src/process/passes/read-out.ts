/** What the read-out shows for a place of the part, as the work lies in a set-up. */
import type { BodyShape, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face, OPPOSITE } from '../../model/model';
import type { ReadOut, ReadOutAxis, ReadOutWay, Station } from './types';

/** Which face looks away from who stands at the machine where no jaw says so. */
const BACK: Readonly<Record<Face, Face>> = {
  top: 'back',
  bottom: 'back',
  front: 'top',
  back: 'top',
  left: 'back',
  right: 'back',
};

/** `fixed`: the face against the fixed jaw, which stands at the back. */
export function readOutOf(up: Face, fixed: Face | undefined, body: BodyShape): ReadOut {
  const back = fixed && FACE_AXIS[fixed].axis !== FACE_AXIS[up].axis ? fixed : BACK[up];
  const [Y, Z] = [wayTo(back, body), wayTo(up, body)];
  // Right-handed: X = Y × Z.
  const axis = (3 - Y.axis - Z.axis) as AxisIndex;
  const turns = (Y.axis + 1) % 3 === Z.axis ? 1 : -1;
  const sign = (Y.sign * Z.sign * turns) as 1 | -1;
  const right = FACES_OF[axis][sign > 0 ? 1 : 0];
  return { X: wayTo(right, body), Y, Z };
}

const FACES_OF: Readonly<Record<AxisIndex, readonly [Face, Face]>> = {
  0: ['left', 'right'],
  1: ['front', 'back'],
  2: ['bottom', 'top'],
};

/** Grows toward a face, from the one opposite. */
function wayTo(toward: Face, { box }: BodyShape): ReadOutWay {
  const { axis: name, sign } = FACE_AXIS[toward];
  const axis = AXIS_INDEX[name];
  return { axis, sign, from: OPPOSITE[toward], zeroMm: sign > 0 ? box.min[axis] : box.max[axis] };
}

/** Along one axis. */
function shown({ axis, sign, zeroMm }: ReadOutWay, p: Vec3): number {
  return (p[axis] - zeroMm) * sign;
}

export function shownAt(readOut: ReadOut, axis: ReadOutAxis, p: Vec3): number {
  return shown(readOut[axis], p);
}

export function stationOf({ X, Y }: ReadOut, p: Vec3): Station {
  return [shown(X, p), shown(Y, p)];
}

/** From the lowest to the highest that a box has along an axis. */
export function rangeOf(way: ReadOutWay, box: { readonly min: Vec3; readonly max: Vec3 }): readonly [number, number] {
  const [a, b] = [shown(way, box.min), shown(way, box.max)];
  return a < b ? [a, b] : [b, a];
}
