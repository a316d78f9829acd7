/**
 * The other of two pieces in one vise, as it is when a cut runs out into it: cut by cut both are made alike, so that it has
 * by then what the work has at the same place. A slot along the row is one stroke through both; one across it is not.
 */
import type { Vec3 } from '../../geometry/types';
import { FACE_AXIS, type Face } from '../../model/model';
import { depthBelow } from '../column';
import { isMaterial } from '../stock/in-process-stock';
import type { Cut, Workpiece } from '../stock/types';
import type { Obstacle } from '../workholding/seating-types';
import { highestNear } from './levels';

/** An obstacle that is cut too: `is` the work as it is then, before it is moved `on` to where the obstacle stands. */
interface AlsoCut extends Obstacle {
  readonly is: Workpiece;
  readonly on: Vec3;
}

export function isAlsoCut(o: Obstacle): o is AlsoCut {
  return 'is' in o && o.on !== undefined;
}

/** The obstacles of a cut: what is another piece has the same cut. */
export function withSameCut(obstacles: readonly Obstacle[], { after }: Cut): readonly Obstacle[] {
  return obstacles.some((o) => o.on) ? obstacles.map((o) => (o.on ? { ...o, is: after } : o)) : obstacles;
}

/** How far above a tip material of it stands within a radius of where the axes stand; of one axis no higher than `toMm` above it. */
export function highestOf(
  { is, on }: AlsoCut,
  axes: readonly Vec3[],
  up: Face,
  radiusMm: number,
  toMm?: number,
): number {
  const stands = axes.map((p) => onWork(p, on));
  const tips = stands.map((p) => depthBelow(is, up, p));
  const topMm = toMm === undefined ? 0 : Math.max(0, Math.min(...tips) - toMm);
  return highestNear(is, up, { stands, tips }, radiusMm, topMm).aboveMm;
}

/** So far inside its box is looked, mm. */
const INTO_MM = 0.02;

/** Whether there is material of it straight ahead of a place, so far above that. */
export function isAhead({ is, on, box: { min, max } }: AlsoCut, p: Vec3, up: Face, aboveMm: number): boolean {
  const { axis, sign } = FACE_AXIS[up];
  const q = p.map((x, k) => Math.min(max[k]! - INTO_MM, Math.max(min[k]! + INTO_MM, x))) as [number, number, number];
  const i = { x: 0, y: 1, z: 2 }[axis];
  q[i] = p[i]! + sign * (aboveMm + INTO_MM);
  return isMaterial(is, onWork(q, on));
}

function onWork(p: Vec3, on: Vec3): Vec3 {
  return [p[0] - on[0], p[1] - on[1], p[2] - on[2]];
}
