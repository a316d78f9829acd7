/** What a tool meets beside its cut: material of the workpiece, jaws, stop, clamps. Heights are above the tool's tip. */
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../spec/model';
import { depthBelow } from '../column';
import { SHANK_CLEARANCE_MM } from '../reach';
import type { Obstacle } from '../seating/types';
import type { Workpiece } from '../workpiece/types';
import { highestNear } from './levels';
import type { ToolShape } from './shape';

/** Nearer than this counts as meeting, mm. */
const TOUCH_MM = 0.01;

export interface Needs {
  /** From the tip up to the highest material within the shank's radius. */
  readonly reachMm: number;
  /** From the tip up to the highest thing within the holder's radius, workpiece or fixture. */
  readonly outMm: number;
  /** Where the most is needed, and what stands there: nothing told for the workpiece itself. */
  readonly outAt?: Vec3;
  readonly outFor?: Obstacle;
}

/** What stands of its place asks of a tool, at all its stands together. `topMm`: depth of the highest material at all. */
export function needsOf(shape: ToolShape, stands: readonly Vec3[], place: Workpiece, up: Face, topMm: number): Needs {
  const tips = stands.map((p) => depthBelow(place, up, p));
  const most = Math.max(0, ...tips) - topMm;
  const { holder } = shape;
  // What it surely does needs no closer look: nothing stands higher than the highest.
  let needs: Needs = { reachMm: most, outMm: most };
  if (most > shape.reachMm - 1e-9) {
    const found = highestNear(place, up, stands, tips, shape.shankRadiusMm + SHANK_CLEARANCE_MM, topMm);
    needs = { ...needs, reachMm: found.aboveMm };
  }
  if (holder && most > (shape.outMm ?? shape.mostOutMm) - 1e-9) {
    const found = highestNear(place, up, stands, tips, holder.radiusMm, topMm);
    needs = { ...needs, outMm: found.aboveMm, ...(found.at && { outAt: found.at }) };
  }
  return needs;
}

export interface Clash {
  readonly with: Obstacle;
  /** What of the tool meets it. */
  readonly by: 'cutter' | 'shank' | 'holder';
  readonly at: Vec3;
  /** How far the tip is above the obstacle's top: negative where below. */
  readonly heightAboveMm: number;
  /** How far the two reach into each other sideways, mm. */
  readonly overlapMm: number;
}

/** The worst meeting of a tool with what stands round the work; undefined where there is none. */
export function clashOf(
  shape: ToolShape,
  stands: readonly Vec3[],
  up: Face,
  obstacles: readonly Obstacle[],
): Clash | undefined {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  let worst: Clash | undefined;
  const out = shape.outMm ?? shape.mostOutMm;
  const stages = [
    { by: 'cutter', from: 0, radius: shape.cutRadiusMm },
    { by: 'shank', from: shape.reachMm, radius: shape.shankRadiusMm },
    ...(shape.holder ? [{ by: 'holder', from: out, radius: shape.holder.radiusMm } as const] : []),
  ] as const;
  for (const obstacle of obstacles) {
    const { min, max } = obstacle.box;
    for (const p of stands) {
      const top = ((sign > 0 ? max[i] : min[i]) - p[i]) * sign;
      if (top <= TOUCH_MM) continue;
      const off = distance(p, min, max, i);
      for (const { by, from, radius } of stages) {
        if (top <= from + TOUCH_MM || off >= radius - TOUCH_MM) continue;
        const overlapMm = radius - off;
        if (!worst || overlapMm > worst.overlapMm + 1e-9)
          worst = { with: obstacle, by, at: p, heightAboveMm: -top, overlapMm };
        break;
      }
    }
  }
  return worst;
}

/** In plan, from a point to a box; 0 inside. */
function distance(p: Vec3, min: Vec3, max: Vec3, up: AxisIndex): number {
  let sum = 0;
  for (const k of [0, 1, 2] as const) {
    if (k === up) continue;
    const d = Math.max(min[k] - p[k], 0, p[k] - max[k]);
    sum += d * d;
  }
  return Math.sqrt(sum);
}

/** Stick-out that obstacles ask of a holder, mm above the tip. */
export function outForObstacles(
  shape: ToolShape,
  stands: readonly Vec3[],
  up: Face,
  obstacles: readonly Obstacle[],
): number {
  if (!shape.holder) return 0;
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  let most = 0;
  for (const { box } of obstacles) {
    for (const p of stands) {
      const top = ((sign > 0 ? box.max[i] : box.min[i]) - p[i]) * sign;
      if (top > most && distance(p, box.min, box.max, i) < shape.holder.radiusMm - TOUCH_MM) most = top;
    }
  }
  return most;
}
