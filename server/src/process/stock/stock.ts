/** The stock as a workpiece: the body grown by what is left outside each face, or the bar it is cut from. */
import { lackingAtFirst } from '../../geometry/blank';
import { bodyOf } from '../../geometry/solid/body';
import { stockBody } from '../../geometry/solid/stock-body';
import type { BodyShape, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face, type Part } from '../../model/model';
import type { Workpiece } from './types';

/** Less than this over a face is nothing to cut, mm. */
export const NOTHING_MM = 1e-6;

/** The uncut workpiece; the same object as long as body and stock are the same in size. */
export function stockOf(part: Part, body: BodyShape): Workpiece {
  return grown(body, part);
}

const grown = memo((body: BodyShape, part: Part): Workpiece => uncut(body, stockBody(part), lackingAtFirst(part)), {
  size: 2,
  by: (_, { body, size, stock }) => [body, size, stock],
});

const uncut = memo((_: BodyShape, stock: BodyShape, voids: readonly Void[]): Workpiece => ({ body: stock, voids }), {
  size: 2,
  by: (_, { box, ...stock }, voids) => [
    box.min,
    box.max,
    ...(stock.form === 'round' ? [stock.axis, stock.radius] : []),
    voids,
  ],
});

/** The same of a part before anything is cut: what is written as extra, and what round bar has beside a body that is not round. */
export function overFace(face: Face, part: Pick<Part, 'body' | 'size' | 'stock'>): number {
  const written = part.stock.extra[face]?.mm ?? 0;
  if (written > NOTHING_MM || part.stock.form !== 'round-bar' || part.body?.form === 'round')
    return Math.max(0, written);
  return excessOver(face, stockBody(part), bodyOf(part));
}

/** How much stock stands over a face of the body at its highest, mm; never less than 0. */
export function excessOver(face: Face, stock: BodyShape, body: BodyShape): number {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const by = sign > 0 ? stock.box.max[i] - body.box.max[i] : body.box.min[i] - stock.box.min[i];
  return by > NOTHING_MM ? by : 0;
}
