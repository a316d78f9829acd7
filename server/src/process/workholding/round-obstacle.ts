/** What is round about the spindle’s axis and stands in a tool's way, as boxes: heads of screws, nuts. */
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_PLANE } from '../../model/model';
import type { Obstacle, Seating } from './seating-types';

/** Corners of the boxes that a round thing is made of: nowhere more than a fiftieth of its radius off it. */
const STEPS = [1, 3, 5, 7].map((k) => (k * Math.PI) / 16);
const GROWN = 1 / Math.cos(Math.PI / 16);

interface Round {
  readonly radiusMm: number;
  /** Along the part axis that is up. */
  readonly fromMm: number;
  readonly toMm: number;
}

/** `at`: in the plane of the face that is up. */
export function round(
  what: Obstacle['what'],
  { up, upAxis }: Pick<Seating, 'up' | 'upAxis'>,
  at: readonly [a: number, b: number],
  { radiusMm, fromMm, toMm }: Round,
): readonly Obstacle[] {
  const [a, b] = FACE_PLANE[up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  return STEPS.map((turn) => {
    const half = [radiusMm * GROWN * Math.cos(turn), radiusMm * GROWN * Math.sin(turn)] as const;
    const min = [0, 0, 0] as [number, number, number];
    const max = [0, 0, 0] as [number, number, number];
    [min[a], max[a]] = [at[0] - half[0], at[0] + half[0]];
    [min[b], max[b]] = [at[1] - half[1], at[1] + half[1]];
    [min[upAxis], max[upAxis]] = [Math.min(fromMm, toMm), Math.max(fromMm, toMm)];
    return { what, box: { min, max } };
  });
}
