/** How far down a through cut need go: to the lowest material in its outline; what was cut away below it is air. */
import { reversedLoop } from '../geometry/2d/assemble-loops';
import { rectLoop } from '../geometry/2d/shape-outline';
import { boundsOf } from '../geometry/solid/prism';
import type { Region, Void } from '../geometry/types';
import { AXIS_INDEX, boxesMeet } from '../geometry/vector';
import { FACE_AXIS, type Face } from '../model/model';
import { same } from './access/surroundings';
import { extremeOf } from './stock/in-process-stock';
import type { Workpiece } from './stock/types';

interface Kept {
  readonly up: Face;
  readonly body: Workpiece['body'];
  readonly near: readonly Void[];
  readonly made: number;
}
const kept = new WeakMap<Void, Kept[]>();
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
  const reachesEnd = (o: Void) => (sign > 0 ? o.bounds.min[i] <= end + 1e-6 : o.bounds.max[i] >= end - 1e-6);
  if (!near.some(reachesEnd)) return end;
  const known = kept.get(v) ?? [];
  const hit = known.find((k) => k.up === up && k.body === before.body && same(k.near, near));
  if (hit) return hit.made;
  const found = extremeOf({ body: before.body, voids: [...near, ...outside(v, before)] }, i, sign > 0 ? 1 : -1);
  // Never lower than its own end, nor above its mouth where nothing is left of it at all.
  const [low, high] = [v.bounds.min[i], v.bounds.max[i]];
  const made = found > low && found < high ? found : end;
  kept.set(v, [...known.slice(1 - KEEP), { up, body: before.body, near, made }]);
  return made;
}

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
function outside(v: Void, { body: { box } }: Workpiece): readonly Void[] {
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
