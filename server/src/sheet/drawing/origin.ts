/** From where a drawing counts along each axis: the faces that are datums, else left, front and bottom; of round bodies the axis. */
import { AXIS_INDEX } from '../../geometry/vector';
import { type Axis, FACE_AXIS, FACES, type Face, type Part } from '../../model/model';
import { num } from '../part/numbers';

export interface Origin {
  /** In part millimetres. */
  at(axis: Axis): number;
  /** A place along an axis as the drawing says it. */
  said(axis: Axis, mm: number): string;
  /** Whether a round body's axis stands there: its diameter is said, and no size across. */
  isAcross(axis: Axis): boolean;
}

export function originOf(part: Part): Origin {
  const { body, datums } = part;
  const named = [...datums.values()].flatMap(({ target }) =>
    FACES.includes(target.name as Face) ? [target.name as Face] : [],
  );
  const isAcross = (axis: Axis) => body?.form === 'round' && body.axis !== axis;
  const at = (axis: Axis) => {
    const size = part.size[AXIS_INDEX[axis]];
    if (isAcross(axis)) return size / 2;
    const face = named.find((f) => FACE_AXIS[f].axis === axis);
    return face && FACE_AXIS[face].sign > 0 ? size : 0;
  };
  // Away from a face on the far side one counts back: its numbers are as positive as the others.
  const way = (axis: Axis) => (!isAcross(axis) && at(axis) > 0 ? -1 : 1);
  return { at, isAcross, said: (axis, mm) => num(way(axis) * (mm - at(axis)), part.units) };
}
