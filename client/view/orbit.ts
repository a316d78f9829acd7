/**
 * Where the eye stands: a direction, a distance and what is looked at. Plain numbers, part axes (z up), so that it can be
 * kept over a redraw and tried without a screen. Angles in degrees.
 */
import { FACES, type Face } from '../../server/src/model/faces';

export type Point = readonly [number, number, number];

export interface Eye {
  /** Round the upright axis: 0 looks from the front, 90 from the right. */
  readonly aroundDeg: number;
  /** Above the horizon: 90 looks straight down. */
  readonly aboveDeg: number;
  /** Half of what is seen along the shorter side of the picture, mm. */
  readonly reachMm: number;
  readonly at: Point;
  /** Right, back and up as unit vectors in part axes, where the part does not lie as it is written: angles go by these. */
  readonly frame?: Frame;
}
type Frame = readonly [Point, Point, Point];

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
/** Room left round what is fitted, as a share of it. */
const MARGIN = 1.14;

/** From the right front, somewhat above: where the whole of most parts is seen. `aspect`: width over height of the picture. */
export function wholeView(bounds: Bounds, aspect: number): Eye {
  return fitted({ aroundDeg: 32, aboveDeg: 28, reachMm: 1, at: [0, 0, 0] }, bounds, aspect);
}

export function squareTo(face: Face, eye: Eye): Eye {
  const [aroundDeg, aboveDeg] = anglesTo(face, eye);
  return { ...eye, aroundDeg, aboveDeg };
}

/** Where one stands to look at a face, as it lies. */
function anglesTo(face: Face, { frame }: Pick<Eye, 'frame'>): readonly [around: number, above: number] {
  if (!frame) return FROM[face];
  const [aroundDeg, aboveDeg] = FROM[face];
  const out = axesOf({ aroundDeg, aboveDeg }).back;
  const [x, y, z] = frame.map((axis) => axis.reduce((sum, c, i) => sum + c * out[i]!, 0)) as [number, number, number];
  const above = Math.asin(Math.max(-1, Math.min(1, z))) / DEG;
  return [Math.abs(z) > 1 - 1e-9 ? 0 : Math.atan2(x, -y) / DEG, above];
}
const DEG = Math.PI / 180;

/** The face that is looked at square on, where there is one. */
export function faceOf(eye: Eye): Face | undefined {
  return FACES.find((f) => {
    const [around, above] = anglesTo(f, eye);
    const turn = Math.abs(((eye.aroundDeg - around + 540) % 360) - 180);
    return Math.abs(eye.aboveDeg - above) < 0.01 && turn < 0.01;
  });
}

/** All of it in sight, from where one looks, as near as that goes. */
export function fitted(eye: Eye, bounds: Bounds, aspect: number): Eye {
  const { right, up } = axesOf(eye);
  const half = (axis: Point) =>
    axis.reduce((sum, c, i) => sum + Math.abs(c) * (bounds.max[i]! - bounds.min[i]!), 0) / 2;
  const [across, high] = [half(right), half(up)];
  const reach = aspect >= 1 ? Math.max(high, across / aspect) : Math.max(across, high * aspect);
  return { ...eye, reachMm: Math.max(1, reach * MARGIN), at: middleOf(bounds) };
}

/** The picture has another shape: what was fitted into the old one is fitted into the new one; what somebody moved stays. */
export function refitted(eye: Eye, boxes: readonly Bounds[], was: number, now: number): Eye {
  const near = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(b));
  const isFitted = (box: Bounds) => {
    const then = fitted(eye, box, was);
    return near(eye.reachMm, then.reachMm) && eye.at.every((c, i) => near(c, then.at[i]!));
  };
  const box = boxes.find(isFitted);
  return box ? fitted(eye, box, now) : eye;
}

export function turned(eye: Eye, aroundDeg: number, aboveDeg: number): Eye {
  const around = ((((eye.aroundDeg + aroundDeg + 180) % 360) + 360) % 360) - 180;
  return { ...eye, aroundDeg: around, aboveDeg: Math.max(-90, Math.min(90, eye.aboveDeg + aboveDeg)) };
}

/** From the other side of a plane that is square to an axis of the part. */
export function fromBehind(eye: Eye, axis: 0 | 1 | 2): Eye {
  const { frame } = eye;
  const upright = frame ? Math.abs(frame[2][axis]) : axis === 2 ? 1 : 0;
  return upright > 0.5 ? { ...eye, aboveDeg: -eye.aboveDeg } : turned(eye, 180, 0);
}

/** Nearer for more than 1. */
export function zoomed(eye: Eye, by: number): Eye {
  return { ...eye, reachMm: Math.max(0.5, Math.min(5000, eye.reachMm / by)) };
}

/** Nearer for more than 1, with what lies at a place of the screen staying there: its share of the shorter side, right and up of the middle. */
export function zoomedAt(eye: Eye, by: number, right: number, up: number): Eye {
  const next = zoomed(eye, by);
  const kept = 1 - next.reachMm / eye.reachMm;
  return { ...moved(eye, right * kept, up * kept), reachMm: next.reachMm };
}

/** Along the screen, in shares of what is seen along its shorter side. */
export function moved(eye: Eye, right: number, up: number): Eye {
  const { right: r, up: u } = axesOf(eye);
  const by = 2 * eye.reachMm;
  const at = eye.at.map((c, i) => c + (r[i]! * right + u[i]! * up) * by) as unknown as Point;
  return { ...eye, at };
}

/** Half of what is seen from left to right and from bottom to top, mm. */
export function extentOf({ reachMm }: Eye, aspect: number): { readonly across: number; readonly high: number } {
  return aspect >= 1 ? { across: reachMm * aspect, high: reachMm } : { across: reachMm, high: reachMm / aspect };
}

/** The same way of looking, with a point in the middle where it would else be out of the picture or at its very edge. */
export function holding(eye: Eye, point: Point, aspect: number): Eye {
  const { right, up } = axesOf(eye);
  const { across, high } = extentOf(eye, aspect);
  const along = (axis: Point) => Math.abs(axis.reduce((sum, c, i) => sum + c * (point[i]! - eye.at[i]!), 0));
  return along(right) < 0.85 * across && along(up) < 0.85 * high ? eye : { ...eye, at: point };
}

/** Other ways to look at the same place, nearest to the present one first: from each corner of a box round it, and square on. */
export function otherWays(eye: Eye): readonly Eye[] {
  const ways: readonly (readonly [number, number])[] = [
    ...[32, 122, -148, -58].flatMap((around) => [28, -28].map((above) => [around, above] as const)),
    ...FACES.map((f) => FROM[f]),
  ];
  const back = axesOf(eye).back;
  const nearness = (other: Eye) => axesOf(other).back.reduce((sum, c, i) => sum + c * back[i]!, 0);
  return ways
    .map(([aroundDeg, aboveDeg]): Eye => ({ ...eye, aroundDeg, aboveDeg }))
    .sort((a, b) => nearness(b) - nearness(a));
}

/** Unit vectors: towards the eye, and the screen's right and up. */
export function axesOf({ aroundDeg, aboveDeg, frame }: Pick<Eye, 'aroundDeg' | 'aboveDeg' | 'frame'>): {
  readonly back: Point;
  readonly right: Point;
  readonly up: Point;
} {
  const a = (aroundDeg * Math.PI) / 180;
  const b = (aboveDeg * Math.PI) / 180;
  const back: Point = [Math.sin(a) * Math.cos(b), -Math.cos(a) * Math.cos(b), Math.sin(b)];
  const right: Point = [Math.cos(a), Math.sin(a), 0];
  const up: Point = [-Math.sin(a) * Math.sin(b), Math.cos(a) * Math.sin(b), Math.cos(b)];
  if (!frame) return { back, right, up };
  const inPart = (p: Point) =>
    [0, 1, 2].map((i) => p.reduce((sum, c, k) => sum + c * frame[k]![i]!, 0)) as unknown as Point;
  return { back: inPart(back), right: inPart(right), up: inPart(up) };
}

export function middleOf({ min, max }: Bounds): Point {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

export function together(boxes: readonly Bounds[]): Bounds | undefined {
  const [first, ...others] = boxes;
  if (!first) return undefined;
  const each = (pick: (a: number, b: number) => number, of: 'min' | 'max') =>
    [0, 1, 2].map((i) => others.reduce((v, b) => pick(v, b[of][i]!), first[of][i]!)) as unknown as Point;
  return { min: each(Math.min, 'min'), max: each(Math.max, 'max') };
}

/** Room for tools over what is fitted, as a share of its largest side: a holder is longer than one wants to see. */
const OVER = 0.45;

export function raised({ min, max }: Bounds, up: Point): Bounds {
  const by = OVER * Math.max(...max.map((c, i) => c - min[i]!));
  const each = (of: Point, pick: (a: number, b: number) => number) =>
    of.map((c, i) => c + by * pick(0, up[i]!)) as unknown as Point;
  return { min: each(min, Math.min), max: each(max, Math.max) };
}

/** What of a box lies in another; where nothing does, its nearest place. */
export function within(box: Bounds, room: Bounds): Bounds {
  const each = (of: Point) => of.map((c, i) => Math.max(room.min[i]!, Math.min(room.max[i]!, c))) as unknown as Point;
  return { min: each(box.min), max: each(box.max) };
}
