/** The box round a slice of a workpiece: what lies between two planes square to an axis. */

import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { Box, Frame, Region, Vec3, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { boxLeft } from './in-process-stock';
import type { Workpiece } from './types';

/** A vise tries so many heights. */
const KEEP = 8;

/** Between the planes at `a` and `b` mm along the axis, whichever is lower; the whole box where nothing is between. */
export const boxBetween = memo(
  (w: Workpiece, axis: AxisIndex, a: number, b: number): Box => slice(w, axis, Math.min(a, b), Math.max(a, b)),
  { size: KEEP },
);

function slice(w: Workpiece, axis: AxisIndex, from: number, to: number): Box {
  const { min, max } = w.body.box;
  const at = (p: Vec3, x: number): Vec3 => [axis === 0 ? x : p[0], axis === 1 ? x : p[1], axis === 2 ? x : p[2]];
  return boxWithin(w, { min: at(min, from), max: at(max, to) });
}

/** Round what lies in a box; of no size where nothing does. */
export const boxWithin = memo(withinBox, { size: KEEP, by: (_, { min, max }) => [...min, ...max] });

function withinBox(w: Workpiece, within: Box): Box {
  let { body, voids } = w;
  const cut: Void[] = [];
  for (const axis of [0, 1, 2] as const) {
    const { min, max } = body.box;
    const [from, to] = [within.min[axis], within.max[axis]];
    if (from <= min[axis] && to >= max[axis]) continue;
    voids = voids.filter((v) => v.bounds.max[axis] > from && v.bounds.min[axis] < to);
    const [low, high] = [Math.max(from, min[axis]), Math.min(to, max[axis])];
    if (low < high && (body.form === 'box' || body.axis === axis)) {
      const at = (p: Vec3, x: number): Vec3 => [axis === 0 ? x : p[0], axis === 1 ? x : p[1], axis === 2 ? x : p[2]];
      body = { ...body, box: { min: at(min, low), max: at(max, high) } };
      continue;
    }
    if (from > min[axis]) cut.push(slab(w, axis, min[axis], from));
    if (to < max[axis]) cut.push(slab(w, axis, to, max[axis]));
  }
  if (body === w.body && cut.length === 0) return boxLeft(w);
  return boxLeft({ body, voids: [...voids, ...cut] });
}

function slab({ body }: Workpiece, axis: AxisIndex, from: number, to: number): Void {
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const unit = (n: number): Vec3 => [n === 0 ? 1 : 0, n === 1 ? 1 : 0, n === 2 ? 1 : 0];
  const frame: Frame = { origin: [0, 0, 0], u: unit(i), v: unit(k), w: unit(axis) };
  const { min, max } = body.box;
  const region: Region = { outer: rectLoop(min[i] - 1, min[k] - 1, max[i] + 1, max[k] + 1), holes: [] };
  const profile = { type: 'straight' } as const;
  const bounds = boundsOf(frame, region, from, to, profile);
  return { feature: '', member: 0, role: 'step', frame, region, from, to, profile, through: false, bounds };
}
