/** Facing: all the stock that is left over one face of the body, as a volume. */

import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { BodyShape, Frame, Region, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face } from '../../model/model';
import { excessOver } from './stock';

const kept = new WeakMap<BodyShape, Map<Face, { readonly body: BodyShape; readonly made: readonly Void[] }>>();

/** The slab over a face, across the whole stock; none where nothing is left on it. Named after the face. */
export function facingOf(face: Face, stock: BodyShape, body: BodyShape): readonly Void[] {
  let byFace = kept.get(stock);
  if (!byFace) {
    byFace = new Map();
    kept.set(stock, byFace);
  }
  const known = byFace.get(face);
  if (known?.body === body) return known.made;
  const made = slab(face, stock, body);
  byFace.set(face, { body, made });
  return made;
}

function slab(face: Face, stock: BodyShape, body: BodyShape): readonly Void[] {
  const deep = excessOver(face, stock, body);
  if (deep === 0) return [];
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const [a, b] = FACE_PLANE[face].map((name) => AXIS_INDEX[name]) as [0 | 1 | 2, 0 | 1 | 2];
  const { min, max } = stock.box;
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
