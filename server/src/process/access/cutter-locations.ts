/**
 * Where the axis of a mill stands while it makes a volume: along every wall that stays, its own radius off it, to the very
 * ends of the wall. What is farther from the walls it sweeps with room to spare.
 */

import { between, lengthOf, pointAt, tangentAt } from '../../geometry/2d/edge';
import { isDeepInside } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { Box, Edge, Frame, Point2, Region, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex, dot } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { depthBelow, firstMaterial, inward, materialAlong, type Place } from '../column';
import { isWall } from '../corners';
import { across } from '../reach';
import { add, ofFrame } from '../section';

/** Looks along one edge of an outline, ends included. */
const ALONG = 9;
/** Where a wall ends is found to so much, mm. */
const CLOSE_MM = 0.05;

/** The volume as a prism along the spindle: itself, or, milled from its side, the block round it. */
export function alongSpindle(v: Void, up: Face): Void {
  return Math.abs(dot(v.frame.w, inward(up))) > 1 - SAME ? v : turned(v, up);
}

/** One for each face that may be up. */
const turned = memo(turn, { size: 6 });

function turn(v: Void, up: Face): Void {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const [a, b] = [(i + 1) % 3, (i + 2) % 3] as [AxisIndex, AxisIndex];
  const unit = (k: number, by = 1): Vec3 => [k === 0 ? by : 0, k === 1 ? by : 0, k === 2 ? by : 0];
  const { min, max } = v.bounds;
  const origin: [number, number, number] = [0, 0, 0];
  origin[i] = sign > 0 ? max[i] : min[i];
  const frame: Frame = { origin, u: unit(a), v: unit(b), w: unit(i, -sign) };
  const region: Region = { outer: rectLoop(min[a], min[b], max[a], max[b]), holes: [] };
  const to = max[i] - min[i];
  const profile = { type: 'straight' } as const;
  return { ...v, frame, region, from: 0, to, profile, bounds: boundsOf(frame, region, 0, to, profile) };
}

interface WallPoint {
  readonly edge: Edge;
  readonly share: number;
}
/** Where there are walls that this cut makes: the same for a cutter of any size, and whatever stands farther off. */
function wallPoints(v: Void, { body, voids }: Place, up: Face, was: Place | undefined): readonly WallPoint[] {
  const box = outlineBox(v);
  return wallPointsBy(v, up, body, closeTo(box, voids, up), was && closeTo(box, was.voids, up));
}

const wallPointsBy = memo(
  (
    v: Void,
    up: Face,
    body: Place['body'],
    voids: readonly Void[],
    uncut: readonly Void[] | undefined,
  ): readonly WallPoint[] => {
    const { min, max } = body.box;
    const place = { body, voids };
    const was = uncut && { body, voids: uncut };
    return regionEdges(v.region).flatMap((whole) => {
      const edge = clipped(whole, v.frame, min, max);
      return edge ? wallShares(edge, v, place, up, was).map((share) => ({ edge, share })) : [];
    });
  },
  { size: 4 },
);

/** Of the outline as it is drawn: a volume's own bounds lie within it where its sides lean. */
const outlineBox = memo((v: Void): Box => boundsOf(v.frame, v.region, v.from, v.to, { type: 'straight' }));

/** Those that a column beside the outline can meet. */
function closeTo({ min, max }: Box, voids: readonly Void[], up: Face): readonly Void[] {
  const axis = AXIS_INDEX[FACE_AXIS[up].axis];
  const [a, b] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const by = BESIDE_WALL_MM;
  return voids.filter(
    ({ bounds: { min: low, max: high } }) =>
      high[a] >= min[a] - by && low[a] <= max[a] + by && high[b] >= min[b] - by && low[b] <= max[b] + by,
  );
}

/** How far from a volume's bounds is looked, in plan, for where a cutter of this radius stands, mm. */
export function roundMm(radiusMm: number): number {
  return 2 * radiusMm + BESIDE_WALL_MM;
}
/** Beside its walls is looked no farther than this, mm. */
const BESIDE_WALL_MM = 0.2;

/**
 * Points of the axis, at the depth of the volume's floor. `place` is the workpiece without the volume. `free`: nothing
 * stands on the side of the walls that is cut, however thick the cutter. `was`: the workpiece as it was before, with the
 * volume; where nothing was left beside a wall, another cut had made it, and no tool goes there again.
 */
export function standsIn(
  v: Void,
  place: Place,
  up: Face,
  radiusMm: number,
  { free = false, was }: Free = {},
): readonly Vec3[] {
  return stands(v, place, up, radiusMm, { free, was });
}

interface Free {
  readonly free?: boolean;
  readonly was?: Place | undefined;
}

/** Each of a shop's cutters is tried. */
const stands = memo(findStands, {
  owners: 2,
  size: 32,
  by: (_, __, up, radiusMm, { free, was }) => [up, radiusMm, free, was],
});

function findStands(v: Void, place: Place, up: Face, radiusMm: number, { free, was }: Free): readonly Vec3[] {
  const found: Vec3[] = [];
  const floor = floorOf(v, up);
  const edges = regionEdges(v.region);
  for (const { edge, share } of wallPoints(v, place, up, was)) {
    const p = offEdge(edge, share, radiusMm);
    const at = ofFrame(v.frame, p.u, p.v, floor);
    if (free || isDeepInside(edges, p.u, p.v, radiusMm * 0.95) || fits(at, place, up, radiusMm)) found.push(at);
  }
  return found;
}

/** The depth along its frame of the end that lies lower in the set-up. */
function floorOf(v: Void, up: Face): number {
  return dot(v.frame.w, inward(up)) > 0 ? v.to : v.from;
}

/** A straight edge cut off where it leaves the stock; undefined where all of it is outside, or on its surface: no wall. */
function clipped(e: Edge, f: Frame, min: Vec3, max: Vec3): Edge | undefined {
  if (e.type !== 'line') return e;
  const ends = [ofFrame(f, e.a.u, e.a.v, 0), ofFrame(f, e.b.u, e.b.v, 0)] as const;
  let [lo, hi] = [0, 1];
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(f.w[i]) > 0.5) continue;
    const [a, b] = [ends[0][i], ends[1][i]];
    if (Math.abs(b - a) < ROUNDING) {
      if (a < min[i] + SAME || a > max[i] - SAME) return undefined;
      continue;
    }
    const [t0, t1] = [(min[i] - a) / (b - a), (max[i] - a) / (b - a)];
    lo = Math.max(lo, Math.min(t0, t1));
    hi = Math.min(hi, Math.max(t0, t1));
  }
  if (hi - lo < ROUNDING) return undefined;
  return lo === 0 && hi === 1 ? e : between(e, pointAt(e, lo), pointAt(e, hi));
}

/** Shares of the edge at which there is a wall, with the places where walls begin and end. */
function wallShares(e: Edge, v: Void, place: Place, up: Face, was: Place | undefined): readonly number[] {
  const length = lengthOf(e);
  if (length < SAME) return [];
  const wall = (t: number) =>
    isWall(pointAt(e, t), v, place, up) && (!was || isCut(offEdge(e, t, BESIDE_MM), v, was, up));
  const end = Math.min(0.01, 0.01 / length);
  const looks = Array.from({ length: ALONG }, (_, i) => end + ((1 - 2 * end) * i) / (ALONG - 1));
  const walls = looks.map(wall);
  const shares: number[] = [];
  looks.forEach((t, i) => {
    if (walls[i]) shares.push(t);
    if (i + 1 < looks.length && walls[i] !== walls[i + 1]) {
      let [yes, no] = walls[i] ? [t, looks[i + 1]!] : [looks[i + 1]!, t];
      while (Math.abs(yes - no) * length > CLOSE_MM) {
        const mid = (yes + no) / 2;
        if (wall(mid)) yes = mid;
        else no = mid;
      }
      shares.push(yes);
    }
  });
  return shares;
}

/** How far beside a wall is looked for what the cut takes there, mm. */
const BESIDE_MM = 0.02;

/** Before the cut there is material at a place of its outline, somewhere along its depth. */
function isCut(p: Point2, v: Void, was: Place, up: Face): boolean {
  const [a, b] = [v.from, v.to].map((w) => depthBelow(was, up, ofFrame(v.frame, p.u, p.v, w)));
  const [high, low] = [Math.min(a!, b!), Math.max(a!, b!)];
  const { min, max } = was.body.box;
  // At the very end of a wall the place beside it may lie just outside the stock.
  const at = ofFrame(v.frame, p.u, p.v, v.from).map((x, i) =>
    x > max[i]! && x < max[i]! + BESIDE_MM
      ? max[i]! - SAME
      : x < min[i]! && x > min[i]! - BESIDE_MM
        ? min[i]! + SAME
        : x,
  ) as unknown as Vec3;
  const column = materialAlong(was, up, at);
  return column.some((s) => Math.min(s.to, low) - Math.max(s.from, high) > NOTHING_MM);
}

/** Less than this of a column is nothing, mm. */
const NOTHING_MM = 1e-3;

function offEdge(e: Edge, share: number, by: number): Point2 {
  const p = pointAt(e, share);
  const t = tangentAt(e, p);
  return { u: p.u - t.v * by, v: p.v + t.u * by };
}

/** The cutter stands there without cutting into what stays: looked at round its edge, at the depth of its tip. */
function fits(at: Vec3, place: Place, up: Face, radiusMm: number): boolean {
  const [a, b] = across(up);
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const tip = sign > 0 ? place.body.box.max[i] - at[i] : at[i] - place.body.box.min[i];
  for (let k = 0; k < 12; k++) {
    const turn = (2 * Math.PI * (k + 0.03)) / 12;
    const r = radiusMm * 0.97;
    const q = add(add(at, a, r * Math.cos(turn)), b, r * Math.sin(turn));
    if (firstMaterial(place, up, q) < tip - 0.01) return false;
  }
  return true;
}
