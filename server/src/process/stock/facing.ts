/** Facing: all the stock that is left over one face of the body, as a volume. */

import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { BodyShape, Frame, Region, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACE_PLANE, type Face } from '../../model/model';
import { excessOver } from './stock';

/**
 * The slab over a face, named after it; none where nothing is left on it. Cut with the side of a mill, it goes down to where the
 * finished body ends and no farther: what is left below that holds the work, until it is cut off in its turn.
 */
export function facingOf(face: Face, up: Face | undefined, stock: BodyShape, body: BodyShape): readonly Void[] {
  const beside = up && FACE_AXIS[up].axis !== FACE_AXIS[face].axis ? up : undefined;
  return slab(stock, face, beside, body);
}

/** Each face from five sides. */
const slab = memo(
  (stock: BodyShape, face: Face, beside: Face | undefined, body: BodyShape) => slabOver(stock, face, beside, body),
  { size: 30 },
);

/** All that lies farther out than so much over a face: what a saw parts from the work. */
export const beyond = memo(
  (stock: BodyShape, face: Face, leaveMm: number, body: BodyShape) => slabOver(stock, face, undefined, body, leaveMm),
  { size: 6 },
);

function slabOver(
  stock: BodyShape,
  face: Face,
  beside: Face | undefined,
  body: BodyShape,
  leaveMm = 0,
): readonly Void[] {
  const deep = excessOver(face, stock, body) - leaveMm;
  if (deep <= 0) return [];
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const [a, b] = FACE_PLANE[face].map((name) => AXIS_INDEX[name]) as [0 | 1 | 2, 0 | 1 | 2];
  const min: [number, number, number] = [...stock.box.min];
  const max: [number, number, number] = [...stock.box.max];
  if (beside) {
    const { axis: down, sign: toSpindle } = FACE_AXIS[beside];
    const k = AXIS_INDEX[down];
    if (toSpindle > 0) min[k] = body.box.min[k];
    else max[k] = body.box.max[k];
  }
  const origin: [number, number, number] = [0, 0, 0];
  origin[i] = sign > 0 ? max[i] : min[i];
  const unit = (k: number, by = 1): Vec3 => [k === 0 ? by : 0, k === 1 ? by : 0, k === 2 ? by : 0];
  const frame: Frame = { origin, u: unit(a), v: unit(b), w: unit(i, -sign) };
  const region: Region = { outer: rectLoop(min[a], min[b], max[a], max[b]), holes: [] };
  const profile = { type: 'straight' } as const;
  const bounds = boundsOf(frame, region, 0, deep, profile);
  return [
    { feature: face, member: 0, role: 'step', frame, region, from: 0, to: deep, profile, through: false, bounds },
  ];
}
