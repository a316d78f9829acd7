/** Where the part is cut open: a plane square to one of its axes. What lies between the plane and the eye is taken away. */
import { axesOf, type Bounds, type Eye, type Point } from './orbit';

export interface CutPlane {
  readonly axis: 0 | 1 | 2;
  /** Along the axis, mm. */
  readonly atMm: number;
}

/** From the slider's share (0 to 1) of the part's length along the axis. */
export function planeAt(axis: CutPlane['axis'], share: number, { min, max }: Bounds): CutPlane {
  return { axis, atMm: min[axis] + share * (max[axis] - min[axis]) };
}

/** Turned so that the cut is seen: 1 keeps what lies beyond along the axis, -1 what lies before. `last` while the eye looks along the plane. */
export function keptSide({ axis }: CutPlane, eye: Eye, last: 1 | -1): 1 | -1 {
  const towards = axesOf(eye).back[axis];
  return Math.abs(towards) < 0.02 ? last : towards > 0 ? -1 : 1;
}

/** Whether the cut leaves a point. */
export function isKept({ axis, atMm }: CutPlane, side: 1 | -1, point: Point): boolean {
  return side * (point[axis] - atMm) >= 0;
}
