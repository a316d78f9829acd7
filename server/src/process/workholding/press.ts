/** Which way clamps press: down on the table, or, at an angle plate, level against that. */
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face, type Hold, OPPOSITE, type Place } from '../../model/model';
import type { Seating } from './seating-types';

export interface Press {
  /** The face that they press on, and the part axis square to it. */
  readonly face: Face;
  readonly axis: AxisIndex;
  /** Out of that face. */
  readonly sign: 1 | -1;
  /** Of the farthest work on the side that is pressed against, and how thick all of it is there. */
  readonly farMm: number;
  readonly thickMm: number;
}

export function pressOf(seating: Seating, hold: Hold | undefined): Press {
  const { up, upAxis, upSign, lowestMm, heightMm, box } = seating;
  if (hold?.type !== 'angle-plate' || !hold.against)
    return { face: up, axis: upAxis, sign: upSign, farMm: lowestMm, thickMm: heightMm };
  const face = OPPOSITE[hold.against.name];
  const { axis: name, sign } = FACE_AXIS[face];
  const axis = AXIS_INDEX[name];
  return {
    face,
    axis,
    sign,
    farMm: sign > 0 ? box.min[axis] : box.max[axis],
    thickMm: box.max[axis] - box.min[axis],
  };
}

/** Below a clamp, so far from the side that the work is pressed against. */
export function pressedAt({ face, axis, sign, farMm }: Press, at: Place, fromFarMm: number): Vec3 {
  const p: [number, number, number] = [0, 0, 0];
  const [a, b] = FACE_PLANE[face];
  p[AXIS_INDEX[a]] = at.u;
  p[AXIS_INDEX[b]] = at.v;
  p[axis] = farMm + sign * fromFarMm;
  return p;
}
