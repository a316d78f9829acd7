/** What is cut at an end that is sawn off later: it runs out a little into the bar. */
import type { BodyShape } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face, type Feature, type Part } from '../../model/model';
import type { Workpiece } from './types';

/**
 * What runs out at an end that is sawn off later goes so far into the bar beyond the saw cut: half of a 16 mm end mill. Common
 * practice, no source.
 */
export const RUN_OUT_MM = 8;

/** The same for what is cut there: of the bar beyond an end that is sawn off in this set-up or later only so much. */
export function asRunOut(
  before: Workpiece,
  what: Feature | Face,
  setup: number,
  part: Part,
  body: BodyShape,
): Workpiece {
  const off = (part.setups ?? []).slice(setup).find((s) => s.sawnOff)?.sawnOff;
  const [face, leave] = off ? [off.name, off.leave] : [part.stock.offBar?.face, part.stock.offBar?.leave];
  if (!face || face === what) return before;
  const short = shortened(before.body, face, (leave?.mm ?? 0) + RUN_OUT_MM, body);
  return short === before.body ? before : onShort(before, short);
}

const shortened = memo(
  (stock: BodyShape, face: Face, mm: number, { box }: BodyShape): BodyShape => {
    const { axis, sign } = FACE_AXIS[face];
    const i = AXIS_INDEX[axis];
    const min: [number, number, number] = [...stock.box.min];
    const max: [number, number, number] = [...stock.box.max];
    if (sign > 0) max[i] = Math.min(max[i], box.max[i] + mm);
    else min[i] = Math.max(min[i], box.min[i] - mm);
    if (min[i] === stock.box.min[i] && max[i] === stock.box.max[i]) return stock;
    return { ...stock, box: { min, max } };
  },
  { size: 4 },
);

const onShort = memo(({ voids }: Workpiece, body: BodyShape): Workpiece => ({ body, voids }), { size: 2 });
