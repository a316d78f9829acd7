/** How a group of features comes to lie on a face: a map from the plane of its own face to that of another. */
import { DIGITS } from '../../tolerance';
import { type Axis, FACE_AXIS, FACE_PLANE, type Face } from '../base';

export type Point = readonly [u: number, v: number];

/** From the plane of `from` to the plane of `to`; never mirrored, as seen from outside. */
export interface Lay {
  readonly from: Face;
  readonly to: Face;
  /** Rows of the linear part. */
  readonly turn: readonly [Point, Point];
  readonly shift: Point;
  /** Turned by so much, after the change of face. */
  readonly deg: number;
  /** Its axes lie along those of the new plane. */
  readonly square: boolean;
}

/** Whether the two axes of a face's plane go round counter-clockwise as seen from outside. */
const isRight = (face: Face) => {
  const { axis, sign } = FACE_AXIS[face];
  return (axis === 'y' ? -1 : 1) * sign > 0;
};

/** It lies where it lay. */
export function stillOn(face: Face): Lay {
  return layOf(face, face, [0, 0], [0, 0], 0);
}

/** `middle`, on the old face, comes to lie at `at`. Where the planes are of two hands, the first axis runs the other way. */
export function layOf(from: Face, to: Face, middle: Point, at: Point, deg: number): Lay {
  const mirror = isRight(from) === isRight(to) ? 1 : -1;
  const [c, s] = [clean(Math.cos((deg * Math.PI) / 180)), clean(Math.sin((deg * Math.PI) / 180))];
  const turn = [
    [c * mirror, -s],
    [s * mirror, c],
  ] as const;
  const [u, v] = times(turn, middle);
  return { from, to, turn, shift: [at[0] - u, at[1] - v], deg, square: Math.abs(c * s) < DIGITS };
}

export function moved({ turn, shift }: Lay, point: Point): Point {
  const [u, v] = times(turn, point);
  return [u + shift[0], v + shift[1]];
}

/** A way on the face, not a place. */
export function turned({ turn }: Lay, way: Point): Point {
  return times(turn, way);
}

/** A direction in the plane, in degrees; within one turn. */
export function turnedAngle(lay: Lay, deg: number): number {
  const [u, v] = turned(lay, [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)]);
  return Number(((Math.atan2(v, u) * 180) / Math.PI).toFixed(9));
}

/** What is the same turned by half a turn, as a rectangle is: by so much less than that, where its axes lie as before. */
export function turnedBox(lay: Lay, deg: number): number {
  const own = isMirrored(lay) ? -deg : deg;
  return lay.square ? own : ((own + lay.deg + 540) % 360) - 180;
}

/** Whether angles in the plane count the other way. */
function isMirrored({ turn: [[a, b], [c, d]] }: Lay): boolean {
  return a * d - b * c < 0;
}

/** The axis of this part that an axis of the other comes to lie along, but for a turn that is none of quarters. */
export function axisOf(lay: Lay, axis: Axis): { readonly axis: Axis; readonly sign: 1 | -1 } {
  const { from, to } = lay;
  if (axis === FACE_AXIS[from].axis)
    return { axis: FACE_AXIS[to].axis, sign: FACE_AXIS[from].sign === FACE_AXIS[to].sign ? 1 : -1 };
  const square = lay.square ? lay : layOf(from, to, [0, 0], [0, 0], 0);
  const [u, v] = turned(square, FACE_PLANE[from][0] === axis ? [1, 0] : [0, 1]);
  const along = Math.abs(u) > Math.abs(v) ? 0 : 1;
  return { axis: FACE_PLANE[to][along], sign: (along === 0 ? u : v) > 0 ? 1 : -1 };
}

function times([[a, b], [c, d]]: readonly [Point, Point], [u, v]: Point): Point {
  return [a * u + b * v, c * u + d * v];
}

/** Quarter turns are exact. */
function clean(value: number): number {
  return Math.abs(value) < DIGITS ? 0 : Math.abs(Math.abs(value) - 1) < DIGITS ? Math.sign(value) : value;
}
