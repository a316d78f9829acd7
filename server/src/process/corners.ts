/**
 * The inside corners of what a feature removes: where a round cutter leaves its own radius. Found on the outline,
 * and kept only where the finished part still has material on both walls; where a pocket runs out of the body, or
 * into another cavity, there is no corner.
 */

import { lengthOf, sweepOf, tangentAt } from '../geometry/2d/edge';
import type { ArcEdge, Edge, Frame, Loop, Point2, Vec3, Void } from '../geometry/types';
import type { Face } from '../model/model';
import { HAIR, SAME } from '../tolerance';
import { materialAlong, type Place } from './column';
import { beforeEdges } from './reach';
import { dot, minus, ofFrame, type Stretch } from './section';

export interface Corner {
  readonly of: Void;
  /** 0 for a sharp corner. */
  readonly radiusMm: number;
  /** How much the wall turns there, degrees. */
  readonly turnDeg: number;
  /** The corner point, or the arc's centre. */
  readonly u: number;
  readonly v: number;
  /** Middle of the arc, or the corner point. */
  readonly at: Vec3;
  /** Which corner of the path, where the outline knows. */
  readonly path?: number;
  /** Below the face it was looked at from: where its wall begins and ends, mm. */
  readonly topMm: number;
  readonly floorMm: number;
}

/** Roles whose outline a mill follows. */
const MILLED: ReadonlySet<Void['role']> = new Set(['pocket', 'slot', 'step', 'contour']);
const OUTSIDE_MM = 0.02;
/** Joints of lines and arcs meant to be tangent turn by less. */
const TANGENT_DEG = 1;

/** What a wide open corner keeps that nobody will notice, mm. Common practice, no source. */
export const UNNOTICED_MM = 0.05;

/** What a cutter leaves standing in a sharp corner, measured on the bisector: R (1 / cos(turn / 2) − 1). */
export function leftInSharpMm({ turnDeg }: Pick<Corner, 'turnDeg'>, radiusMm: number): number {
  const half = (Math.min(turnDeg, 150) * Math.PI) / 360;
  return radiusMm * (1 / Math.cos(half) - 1);
}

/** The same corner of the same outline, wherever its walls begin and end. */
export function isSameCorner(a: Corner, b: Corner): boolean {
  const near = (x: number, y: number) => Math.abs(x - y) < SAME;
  return a.of.member === b.of.member && near(a.u, b.u) && near(a.v, b.v) && near(a.radiusMm, b.radiusMm);
}

/** Where the axis of a cutter stands while it makes a rounded corner: at the middle of its arc and a little off both walls. */
export function standsInCorner(
  { u, v, radiusMm, turnDeg, at }: Corner,
  frame: Frame,
  cutterMm: number,
): readonly Vec3[] {
  const off = Math.max(0, radiusMm - cutterMm);
  const [mu, mv] = [frame.u, frame.v].map((d) => dot(d, minus(at, ofFrame(frame, u, v, 0)))) as [number, number];
  const mid = Math.atan2(mv, mu);
  const half = (turnDeg * Math.PI) / 360;
  const turns = off > 0 ? [-half, -half / 2, 0, half / 2, half] : [0];
  return turns.map((by) => ofFrame(frame, u + off * Math.cos(mid + by), v + off * Math.sin(mid + by), 0));
}

/** Every inside corner of a void that is still one in the finished part, seen from a face on its own axis. */
export function insideCorners(v: Void, solid: Place, face: Face): readonly Corner[] {
  if (!MILLED.has(v.role)) return [];
  return [v.region.outer, ...v.region.holes].flatMap((loop) => ofLoop(loop, v, solid, face));
}

function ofLoop(loop: Loop, v: Void, solid: Place, face: Face): readonly Corner[] {
  const found: Corner[] = [];
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const edge = loop.edges[i]!;
    if (edge.type === 'arc' && edge.ccw) {
      const corner = roundCorner(edge, v, solid, face);
      if (corner) found.push(corner);
    }
    const next = loop.edges[(i + 1) % n]!;
    if (n > 1) {
      const corner = sharpCorner(edge, next, v, solid, face);
      if (corner) found.push(corner);
    }
  }
  return found;
}

function roundCorner(e: ArcEdge, v: Void, solid: Place, face: Face): Corner | undefined {
  const sweep = sweepOf(e);
  const from = Math.atan2(e.a.v - e.centre.v, e.a.u - e.centre.u);
  const outside = (k: number): Point2 => {
    const angle = from + k * sweep;
    const r = e.radius + OUTSIDE_MM;
    return { u: e.centre.u + r * Math.cos(angle), v: e.centre.v + r * Math.sin(angle) };
  };
  let walls: Stretch | undefined;
  const [top, floor] = depths(solid, face, ofFrame(v.frame, 0, 0, v.from), ofFrame(v.frame, 0, 0, v.to));
  for (const k of [0.5, 0.06, 0.94, 0.28, 0.72]) {
    const wall = wallAt(outside(k), v, solid, face);
    if (wall) walls = walls ? { from: Math.min(walls.from, wall.from), to: Math.max(walls.to, wall.to) } : wall;
    if (walls && walls.from <= top + SAME && walls.to >= floor - SAME) break;
  }
  if (!walls) return undefined;
  const mid = from + sweep / 2;
  const at = ofFrame(
    v.frame,
    e.centre.u + e.radius * Math.cos(mid),
    e.centre.v + e.radius * Math.sin(mid),
    (v.from + v.to) / 2,
  );
  return {
    of: v,
    radiusMm: e.radius,
    turnDeg: (sweep * 180) / Math.PI,
    ...e.centre,
    at,
    ...(e.corner !== undefined && { path: e.corner }),
    topMm: walls.from,
    floorMm: walls.to,
  };
}

function sharpCorner(a: Edge, b: Edge, v: Void, solid: Place, face: Face): Corner | undefined {
  const into = tangentAt(a, a.b);
  const out = tangentAt(b, b.a);
  const turn = Math.atan2(into.u * out.v - into.v * out.u, into.u * out.u + into.v * out.v);
  const turnDeg = (turn * 180) / Math.PI;
  if (turnDeg <= TANGENT_DEG) return undefined;
  const first = wallAt(beside(a, false), v, solid, face);
  const second = first && wallAt(beside(b, true), v, solid, face);
  if (!first || !second) return undefined;
  const topMm = Math.max(first.from, second.from);
  const floorMm = Math.min(first.to, second.to);
  if (floorMm - topMm < HAIR) return undefined;
  const { u, v: q } = b.a;
  return {
    of: v,
    radiusMm: 0,
    turnDeg,
    u,
    v: q,
    at: ofFrame(v.frame, u, q, (v.from + v.to) / 2),
    ...(b.corner !== undefined && { path: b.corner }),
    topMm,
    floorMm,
  };
}

/** Whether a place of the outline is a wall of the finished part, anywhere over the void's depth. */
export function isWall(p: Point2, v: Void, solid: Place, face: Face): boolean {
  return DIAGONALS.some(([du, dv]) => wallAt({ u: p.u + du * OUTSIDE_MM, v: p.v + dv * OUTSIDE_MM }, v, solid, face));
}
const DIAGONALS = [
  [1, 0.3],
  [-0.3, 1],
  [-1, -0.3],
  [0.3, -1],
] as const;

/** Where, over the void's own depth, there is material at a point beside its wall. */
function wallAt(p: Point2, v: Void, solid: Place, face: Face): Stretch | undefined {
  const near = ofFrame(v.frame, p.u, p.v, v.from);
  const far = ofFrame(v.frame, p.u, p.v, v.to);
  const [from, to] = depths(solid, face, near, far);
  const there = materialAlong(solid, face, near, beforeEdges)
    .map((s) => ({ from: Math.max(s.from, from), to: Math.min(s.to, to) }))
    .filter((s) => s.to - s.from > HAIR);
  const last = there[there.length - 1];
  return last && { from: there[0]!.from, to: last.to };
}

function depths(solid: Place, face: Face, a: Vec3, b: Vec3): readonly [number, number] {
  const { min, max } = solid.body.box;
  const i = face === 'left' || face === 'right' ? 0 : face === 'front' || face === 'back' ? 1 : 2;
  const up = face === 'right' || face === 'back' || face === 'top';
  const depth = (p: Vec3) => (up ? max[i]! - p[i]! : p[i]! - min[i]!);
  return [Math.min(depth(a), depth(b)), Math.max(depth(a), depth(b))];
}

/** A point just outside the region, beside an edge near its end (or start). Regions lie to the left of travel. */
function beside(e: Edge, atStart: boolean): Point2 {
  const back = Math.min(0.25, lengthOf(e) / 4);
  const p = atStart ? e.a : e.b;
  const t = tangentAt(e, p);
  const on = { u: p.u + (atStart ? back : -back) * t.u, v: p.v + (atStart ? back : -back) * t.v };
  if (e.type === 'line') return { u: on.u + OUTSIDE_MM * t.v, v: on.v - OUTSIDE_MM * t.u };
  const r = Math.hypot(on.u - e.centre.u, on.v - e.centre.v) || 1;
  const to = e.ccw ? e.radius + OUTSIDE_MM : e.radius - OUTSIDE_MM;
  return { u: e.centre.u + ((on.u - e.centre.u) * to) / r, v: e.centre.v + ((on.v - e.centre.v) * to) / r };
}
