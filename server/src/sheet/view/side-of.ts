/** Where a face is seen edge-on: the side of a picture that it is. */
import type { View } from '../../export/flat/view';
import type { Point2 } from '../../geometry/types';
import { FACE_AXIS, type Face } from '../../model/model';

export type Side = 'right' | 'left' | 'top' | 'bottom';

/** On which side of a picture a face is a line. */
export function sideOf(face: Face, { right, up }: View): Side | undefined {
  const { axis, sign } = FACE_AXIS[face];
  if (axis === right.axis) return sign === right.sign ? 'right' : 'left';
  if (axis === up.axis) return sign === up.sign ? 'top' : 'bottom';
  return undefined;
}

/** Away from the picture, on the page. */
export const OUT: Readonly<Record<Side, Point2>> = {
  right: { u: 1, v: 0 },
  left: { u: -1, v: 0 },
  top: { u: 0, v: -1 },
  bottom: { u: 0, v: 1 },
};
