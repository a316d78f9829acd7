/** Faces that a cut brings to the part's own plane: by facing, or an outline or step that takes off all that stood over them. */
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Face, type Part } from '../../model/model';
import { extremeOf } from './in-process-stock';
import { excessOver, NOTHING_MM } from './stock';
import type { Cut, Workpiece } from './types';

export function facesTakenOff(cut: Cut, { size }: Pick<Part, 'size'>): readonly Face[] {
  return takenOff(cut, size);
}

const takenOff = memo((cut: Cut, size: Part['size']): readonly Face[] => {
  const body = { form: 'box', box: { min: [0, 0, 0], max: size } } as const;
  const over = FACES.filter((f) => excessOver(f, cut.before.body, body) > 0);
  return over.filter((f) => f === cut.face || (stands(f, cut.before, size) && !stands(f, cut.after, size)));
});

function stands(face: Face, w: Workpiece, size: Part['size']): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const at = extremeOf(w, i, sign > 0 ? -1 : 1);
  return (sign > 0 ? at - size[i] : -at) > NOTHING_MM;
}
