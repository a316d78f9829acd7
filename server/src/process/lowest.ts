/** How far down a through cut need go: to the lowest material in its outline; what was cut away below it is air. */

import { reversedLoop } from '../geometry/2d/assemble-loops';
import { rectLoop } from '../geometry/2d/shape-outline';
import { boundsOf } from '../geometry/solid/prism';
import type { Region, Void } from '../geometry/types';
import { AXIS_INDEX, type AxisIndex, boxesMeet } from '../geometry/vector';
import { memo } from '../memo';
import { FACE_AXIS, type Face } from '../model/model';
import { SAME } from '../tolerance';
import { extremeOf } from './stock/in-process-stock';
import type { Workpiece } from './stock/types';

/** Seen from either side, and in several orders where a planner tries them. */
const KEEP = 6;

/**
 * Along the part's axis of `up`, mm: the lowest plane at which there is something for a through volume that stands along
 * the spindle to take away; its own end where others take nothing away below. `own` are the cut's volumes.
 */
function lowestMaterial(v: Void, before: Pick<Workpiece, 'body' | 'voids'>, own: readonly Void[], up: Face): number {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const end = sign > 0 ? v.bounds.min[i] : v.bounds.max[i];
  if (!v.through || v.profile.type !== 'straight') return end;
  const near = before.voids.filter((o) => !own.includes(o) && boxesMeet(o.bounds, v.bounds));
  const reachesEnd = (o: Void) => (sign > 0 ? o.bounds.min[i] <= end + SAME : o.bounds.max[i] >= end - SAME);
  if (!near.some(reachesEnd)) return end;
  const found = lowestOf(v, before.body, near, i, sign > 0 ? 1 : -1);
  // Never lower than its own end, nor above its mouth where nothing is left of it at all.
  const [low, high] = [v.bounds.min[i], v.bounds.max[i]];
  return found > low && found < high ? found : end;
}

const lowestOf = memo(
  (v: Void, body: Workpiece['body'], near: readonly Void[], i: AxisIndex, into: 1 | -1): number =>
    extremeOf({ body, voids: [...near, ...outside(v, body)] }, i, into),
  { size: KEEP },
);

/** The same as a depth below the face that is up. */
export function lowestDepth(
  v: Void,
  before: Pick<Workpiece, 'body' | 'voids'>,
  own: readonly Void[],
  up: Face,
): number {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const at = lowestMaterial(v, before, own, up);
  return sign > 0 ? before.body.box.max[i] - at : at - before.body.box.min[i];
}

/** All that is not within the outline, as volumes that take it away. */
function outside(v: Void, { box }: Workpiece['body']): readonly Void[] {
  const far = 2 * Math.hypot(...box.max.map((m, k) => m - box.min[k]!)) + Math.hypot(...v.frame.origin) + 1;
  const square = rectLoop(-far, -far, far, far);
  const regions: readonly Region[] = [
    { outer: square, holes: [reversedLoop(v.region.outer)] },
    ...v.region.holes.map((hole) => ({ outer: reversedLoop(hole), holes: [] })),
  ];
  const profile = { type: 'straight' } as const;
  return regions.map((region) => ({
    ...v,
    role: 'contour' as const,
    region,
    from: -far,
    to: far,
    profile,
    bounds: boundsOf(v.frame, region, -far, far, profile),
  }));
}
