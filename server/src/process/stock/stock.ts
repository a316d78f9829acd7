/** The stock as a workpiece: the body grown by what is left outside each face, or the bar it is cut from. */
import { bodyOf } from '../../geometry/solid/body';
import type { BodyShape } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Face, type Part } from '../../model/model';
import type { Workpiece } from './types';

/** Less than this over a face is nothing to cut, mm. */
export const NOTHING_MM = 1e-6;

/**
 * The stock in part axes, mm. A round bar lies along its axis through the middle of the body; other stock is the body's
 * box grown by `extra`. Never smaller than nothing, however the text has it.
 */
export function stockBody(part: Pick<Part, 'body' | 'size' | 'stock'>): BodyShape {
  const { box } = bodyOf(part);
  const { stock } = part;
  const min: [number, number, number] = [...box.min];
  const max: [number, number, number] = [...box.max];
  for (const face of FACES) {
    const by = stock.extra[face]?.mm ?? 0;
    const { axis, sign } = FACE_AXIS[face];
    const i = AXIS_INDEX[axis];
    if (sign > 0) max[i] = Math.max(max[i] + by, min[i]);
    else min[i] = Math.min(min[i] - by, max[i]);
  }
  if (!stock.diameter || !stock.axis) {
    if (stock.written || part.body?.form !== 'round') return { form: 'box', box: { min, max } };
    return bodyOf(part);
  }
  const along = AXIS_INDEX[stock.axis];
  const radius = stock.diameter.mm / 2;
  for (const i of [0, 1, 2] as const) {
    if (i === along) continue;
    const middle = (box.min[i] + box.max[i]) / 2;
    min[i] = middle - radius;
    max[i] = middle + radius;
  }
  return { form: 'round', box: { min, max }, axis: along, radius };
}

/** The uncut workpiece; the same object as long as body and stock are the same in size. */
export function stockOf(part: Part, body: BodyShape): Workpiece {
  return grown(body, part);
}

const grown = memo((body: BodyShape, part: Part): Workpiece => uncut(body, stockBody(part)), {
  size: 2,
  by: (_, { body, size, stock }) => [body, size, stock],
});

const uncut = memo((_: BodyShape, stock: BodyShape): Workpiece => ({ body: stock, voids: [] }), {
  size: 2,
  by: (_, stock) => [stock.box.min, stock.box.max, ...(stock.form === 'round' ? [stock.axis, stock.radius] : [])],
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
