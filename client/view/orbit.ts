/**
 * Where the eye stands: a direction, a distance and what is looked at. Plain numbers, part axes (z up), so that it can be
 * kept over a redraw and tried without a screen. Angles in degrees.
 */
import type { Face } from '../../server/src/spec/faces';

export type Point = readonly [number, number, number];

export interface Eye {
  /** Round the upright axis: 0 looks from the front, 90 from the right. */
  readonly aroundDeg: number;
  /** Above the horizon: 90 looks straight down. */
  readonly aboveDeg: number;
  /** Half of what is seen from top to bottom, mm. */
  readonly reachMm: number;
  readonly at: Point;
}

export interface Bounds {
  readonly min: Point;
  readonly max: Point;
}

const FROM: Readonly<Record<Face, readonly [around: number, above: number]>> = {
  front: [0, 0],
  right: [90, 0],
  back: [180, 0],
  left: [-90, 0],
  top: [0, 90],
  bottom: [0, -90],
};

/** From the right front, somewhat above: where the whole of most parts is seen. */
export function wholeView(bounds: Bounds): Eye {
  return { aroundDeg: 32, aboveDeg: 28, reachMm: reachOf(bounds), at: middleOf(bounds) };
}

export function squareTo(face: Face, eye: Eye): Eye {
  const [aroundDeg, aboveDeg] = FROM[face];
  return { ...eye, aroundDeg, aboveDeg };
}

/** All of it in sight, from where one looks. */
export function fitted(eye: Eye, bounds: Bounds): Eye {
  return { ...eye, reachMm: reachOf(bounds), at: middleOf(bounds) };
}

export function turned(eye: Eye, aroundDeg: number, aboveDeg: number): Eye {
  const around = ((((eye.aroundDeg + aroundDeg + 180) % 360) + 360) % 360) - 180;
  return { ...eye, aroundDeg: around, aboveDeg: Math.max(-90, Math.min(90, eye.aboveDeg + aboveDeg)) };
}

/** Nearer for more than 1. */
export function zoomed(eye: Eye, by: number): Eye {
  return { ...eye, reachMm: Math.max(0.5, Math.min(5000, eye.reachMm / by)) };
}

/** Along the screen, in shares of what is seen from top to bottom. */
export function moved(eye: Eye, right: number, up: number): Eye {
  const { right: r, up: u } = axesOf(eye);
  const by = 2 * eye.reachMm;
  const at = eye.at.map((c, i) => c + (r[i]! * right + u[i]! * up) * by) as unknown as Point;
  return { ...eye, at };
}

/** Unit vectors: towards the eye, and the screen's right and up. */
export function axesOf({ aroundDeg, aboveDeg }: Eye): {
  readonly back: Point;
  readonly right: Point;
  readonly up: Point;
} {
  const a = (aroundDeg * Math.PI) / 180;
  const b = (aboveDeg * Math.PI) / 180;
  const back: Point = [Math.sin(a) * Math.cos(b), -Math.cos(a) * Math.cos(b), Math.sin(b)];
  const right: Point = [Math.cos(a), Math.sin(a), 0];
  const up: Point = [-Math.sin(a) * Math.sin(b), Math.cos(a) * Math.sin(b), Math.cos(b)];
  return { back, right, up };
}

export function middleOf({ min, max }: Bounds): Point {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

function reachOf({ min, max }: Bounds): number {
  return Math.max(1, 0.58 * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]));
}
