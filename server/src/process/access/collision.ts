/** What a tool meets beside its cut: material of the workpiece, jaws, stop, clamps. Heights are above the tool's tip. */

import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import { depthBelow } from '../column';
import { SHANK_CLEARANCE_MM } from '../reach';
import { isMaterial } from '../stock/in-process-stock';
import type { Workpiece } from '../stock/types';
import { type Axes, inPart, seen } from '../tilted/place';
import type { Obstacle } from '../workholding/seating-types';
import { highestNear } from './levels';
import { highestOf, isAhead, isAlsoCut } from './other-piece';
import type { ToolShape } from './shape';

/** Nearer than this counts as meeting, mm. */
const TOUCH_MM = 0.01;

/** Beside work that is held at an angle: the box leans with the work, while the tool's points are told as the spindle sees them. */
export interface Standing extends Obstacle {
  readonly axes?: Axes;
}

interface Needs {
  /** From the tip up to the highest material within the shank's radius. */
  readonly reachMm: number;
  /** From the tip up to the highest thing within the holder's radius, workpiece or fixture. */
  readonly outMm: number;
  /** Where the most is needed, and what stands there: nothing told for the workpiece itself. */
  readonly outAt?: Vec3;
  readonly outFor?: Obstacle;
}

/** The work about a tool. */
interface Work {
  readonly up: Face;
  readonly body: Workpiece['body'];
  /** Gathered when it is looked at. */
  readonly place: Workpiece;
  /** Depth of the highest material at all. */
  readonly topMm: number;
}

/** What stands of its place asks of a tool, at all its stands together. */
export function needsOf(shape: ToolShape, stands: readonly Vec3[], work: Work): Needs {
  const { up, topMm } = work;
  const tips = stands.map((p) => depthBelow(work, up, p));
  const most = Math.max(0, ...tips) - topMm;
  const { holder } = shape;
  // What it surely does needs no closer look: nothing stands higher than the highest.
  let needs: Needs = { reachMm: most, outMm: most };
  if (most > shape.reachMm - ROUNDING) {
    const found = highestNear(work.place, up, { stands, tips }, shape.shankRadiusMm + SHANK_CLEARANCE_MM, topMm);
    needs = { ...needs, reachMm: found.aboveMm };
  }
  if (holder && most > (shape.outMm ?? shape.mostOutMm) - ROUNDING) {
    const found = highestNear(work.place, up, { stands, tips }, holder.radiusMm, topMm);
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

/** A tool, and where its axis stands while it cuts. */
export interface Path {
  readonly shape: ToolShape;
  readonly stands: readonly Vec3[];
  readonly up: Face;
}

/** The worst meeting of a tool with what stands round the work; undefined where there is none. */
export function clashOf({ shape, stands, up }: Path, obstacles: readonly Standing[]): Clash | undefined {
  let worst: Clash | undefined;
  const stages = stagesOf(shape);
  for (const obstacle of obstacles) {
    const { axes } = obstacle;
    for (const p of stands) {
      const clash = axes ? leaningClash(stages, p, obstacle, axes) : uprightClash(stages, p, obstacle, up);
      if (clash && (!worst || isGraver(clash, worst))) worst = clash;
    }
  }
  return worst;
}

/** What another holder does not cure comes before what it does; then the deeper. */
function isGraver(a: Clash, b: Clash): boolean {
  const [holderA, holderB] = [a.by === 'holder', b.by === 'holder'];
  return holderA === holderB ? a.overlapMm > b.overlapMm + ROUNDING : holderB;
}

function uprightClash(stages: readonly Stage[], p: Vec3, obstacle: Standing, up: Face): Clash | undefined {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const { min, max } = obstacle.box;
  const top = ((sign > 0 ? max[i] : min[i]) - p[i]) * sign;
  if (top <= TOUCH_MM) return undefined;
  const off = distance(p, min, max, i);
  for (const [n, { by, from, radius }] of stages.entries()) {
    if (top <= from + TOUCH_MM || off >= radius - TOUCH_MM) continue;
    if (isAlsoCut(obstacle) && highestOf(obstacle, [p], up, radius, stages[n + 1]?.from) <= from + TOUCH_MM) continue;
    return { with: obstacle, by, at: p, heightAboveMm: -top, overlapMm: radius - off };
  }
  return undefined;
}

interface Stage {
  readonly by: Clash['by'];
  readonly from: number;
  readonly radius: number;
}

/** A tool from its tip up: where each cylinder begins, and how wide it is. */
function stagesOf(shape: ToolShape): readonly Stage[] {
  const out = shape.outMm ?? shape.mostOutMm;
  return [
    { by: 'cutter', from: 0, radius: shape.cutRadiusMm },
    { by: 'shank', from: shape.reachMm, radius: shape.shankRadiusMm },
    ...(shape.holder ? [{ by: 'holder', from: out, radius: shape.holder.radiusMm } as const] : []),
  ];
}

function leaningClash(stages: readonly Stage[], p: Vec3, obstacle: Standing, axes: Axes): Clash | undefined {
  for (const { by, from, radius } of stages) {
    const piece = above(obstacle.box, p, axes, from + TOUCH_MM);
    if (!piece) continue;
    const off = piece.offMm;
    if (off >= radius - TOUCH_MM) continue;
    return { with: obstacle, by, at: inPart(p, axes), heightAboveMm: -piece.topMm, overlapMm: radius - off };
  }
  return undefined;
}

/**
 * The part of a leaning box that is higher than `from` above a tip, looked at along the spindle: how near it comes to the
 * tool's axis in plan (0 where the axis goes through it), and how high it reaches. Undefined where none of it is so high.
 */
export function above(
  { min, max }: Obstacle['box'],
  tip: Vec3,
  axes: Axes,
  from: number,
): { readonly offMm: number; readonly topMm: number } | undefined {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
    const c = seen([k & 1 ? max[0] : min[0], k & 2 ? max[1] : min[1], k & 4 ? max[2] : min[2]], axes);
    return [c[0] - tip[0], c[1] - tip[1], c[2] - tip[2]] as const;
  });
  const topMm = Math.max(...corners.map((c) => c[2]));
  if (topMm <= from) return undefined;
  const points = corners.filter((c) => c[2] >= from).map((c) => [c[0], c[1]] as const);
  for (let k = 0; k < 8; k++) {
    for (const bit of [1, 2, 4]) {
      if (k & bit) continue;
      const [a, b] = [corners[k]!, corners[k | bit]!];
      if (a[2] < from === b[2] < from) continue;
      const t = (from - a[2]) / (b[2] - a[2]);
      points.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
    }
  }
  return { offMm: offHull(points), topMm };
}

/** From the origin to the convex hull of points; 0 inside. */
function offHull(points: readonly (readonly [number, number])[]): number {
  const sorted = [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const half = (list: readonly (readonly [number, number])[]) => {
    const chain: (readonly [number, number])[] = [];
    for (const p of list) {
      while (chain.length > 1 && turn(chain[chain.length - 2]!, chain[chain.length - 1]!, p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  const hull = [...half(sorted), ...half([...sorted].reverse())];
  let inside = hull.length > 2;
  let least = Number.POSITIVE_INFINITY;
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]!;
    if (turn(a, b, [0, 0]) < 0) inside = false;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const square = dx * dx + dy * dy;
    const t = square > 0 ? Math.min(1, Math.max(0, -(a[0] * dx + a[1] * dy) / square)) : 0;
    least = Math.min(least, Math.hypot(a[0] + dx * t, a[1] + dy * t));
  });
  return inside ? 0 : least;
}

function turn(a: readonly [number, number], b: readonly [number, number], c: readonly [number, number]): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
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

/** A tool that runs into nothing, but passes nearer to what stands round the work than the shop's margin. */
export interface Near extends Omit<Clash, 'overlapMm'> {
  readonly clearMm: number;
}

/**
 * The nearest that a tool comes to hardened steel, where that is nearer than the margin and no work stands between. Work held
 * at an angle is not looked at: its jaws lean.
 */
export function nearestTo(
  { shape, stands, up }: Path,
  obstacles: readonly Standing[],
  work: () => Workpiece,
  marginMm: number,
): Near | undefined {
  const passing = { stages: stagesOf(shape), up, work };
  let nearest: Near | undefined;
  for (const obstacle of obstacles) {
    if (obstacle.axes || obstacle.what === 'parallel') continue;
    for (const p of stands) {
      const belowMm = nearest ? nearest.clearMm - ROUNDING : marginMm - TOUCH_MM;
      nearest = nearerAt(p, obstacle, passing, belowMm) ?? nearest;
    }
  }
  return nearest;
}

interface Passing {
  readonly stages: readonly Stage[];
  readonly up: Face;
  readonly work: () => Workpiece;
}

/** The nearest of a tool's stages at one place, where that is nearer than so much. */
function nearerAt(p: Vec3, obstacle: Standing, { stages, up, work }: Passing, belowMm: number): Near | undefined {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const { min, max } = obstacle.box;
  const top = ((sign > 0 ? max[i] : min[i]) - p[i]) * sign;
  if (top < -belowMm) return undefined;
  const off = distance(p, min, max, i);
  let nearest: Near | undefined;
  for (const { by, from, radius } of stages) {
    const clearMm = apart(from - top, off - radius);
    if (clearMm > (nearest ? nearest.clearMm - ROUNDING : belowMm)) continue;
    // What lies on the work has none beside it.
    const rise = Math.max(from, ((sign > 0 ? min[i] : max[i]) - p[i]) * sign + INTO_MM);
    if (isAlsoCut(obstacle) && !isAhead(obstacle, p, up, rise)) continue;
    if (from < top && isMaterial(work(), between(p, obstacle.box, i, radius, rise * sign))) continue;
    nearest = { with: obstacle, by, at: p, heightAboveMm: -top, clearMm: Math.max(0, clearMm) };
  }
  return nearest;
}

/** From a cylinder's foot and side to a box, by how far it is above it and beside it. */
function apart(aboveMm: number, besideMm: number): number {
  return aboveMm > 0 && besideMm > 0 ? Math.hypot(aboveMm, besideMm) : Math.max(aboveMm, besideMm);
}

/** A place is taken so far inside what is passed: work lies against its surface. */
const INTO_MM = 0.02;

/** Half way from a tool's side to what it passes, at the foot of the stage or of that. */
function between(p: Vec3, { min, max }: Obstacle['box'], up: AxisIndex, radius: number, rise: number): Vec3 {
  const near = p.map((x, k) => Math.min(max[k]! - INTO_MM, Math.max(min[k]! + INTO_MM, x)));
  const [a, b] = ([0, 1, 2] as const).filter((k) => k !== up) as [AxisIndex, AxisIndex];
  const off = Math.hypot(near[a]! - p[a], near[b]! - p[b]);
  const share = off > 0 ? (radius + off) / 2 / off : 0;
  const q: [number, number, number] = [p[0], p[1], p[2]];
  for (const k of [a, b]) q[k] += (near[k]! - p[k]) * share;
  q[up] += rise;
  return q;
}

/** Stick-out that obstacles ask of a holder, mm above the tip. */
export function outForObstacles({ shape, stands, up }: Path, obstacles: readonly Standing[]): number {
  if (!shape.holder) return 0;
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  let most = 0;
  for (const obstacle of obstacles) {
    const { box, axes } = obstacle;
    if (isAlsoCut(obstacle)) {
      most = Math.max(most, highestOf(obstacle, stands, up, shape.holder.radiusMm));
      continue;
    }
    for (const p of stands) {
      if (axes) {
        most = Math.max(most, outForLeaning(box, p, axes, shape.holder.radiusMm));
        continue;
      }
      const top = ((sign > 0 ? box.max[i] : box.min[i]) - p[i]) * sign;
      if (top > most && distance(p, box.min, box.max, i) < shape.holder.radiusMm - TOUCH_MM) most = top;
    }
  }
  return most;
}

/** How high a leaning box reaches within a holder's radius, mm above the tip, to a hundredth. */
function outForLeaning(box: Obstacle['box'], tip: Vec3, axes: Axes, radiusMm: number): number {
  const meets = (from: number) => {
    const piece = above(box, tip, axes, from);
    return piece !== undefined && piece.offMm < radiusMm - TOUCH_MM;
  };
  if (!meets(0)) return 0;
  let [low, high] = [0, above(box, tip, axes, 0)!.topMm];
  while (high - low > 0.01) {
    const mid = (low + high) / 2;
    if (meets(mid)) low = mid;
    else high = mid;
  }
  return high;
}
