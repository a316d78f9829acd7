/**
 * Sharp wedges of material in the plane of a cut: at the corners of an outline, where an outline leaves through a side
 * of the body, and where the outlines of two cuts meet. Each is made certain of on the finished part.
 */

import { tangentAt } from '../../geometry/2d/edge';
import { meetings } from '../../geometry/2d/intersect';
import { regionEdges } from '../../geometry/2d/moments';
import { nearIn } from '../../geometry/solid/near';
import type { Edge, Frame, Point2, Solid, Vec3, Void } from '../../geometry/types';
import { boxesMeet } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { alongside, depthRange, dot, inPart, minus } from '../kit/voids';

export interface Wedge {
  readonly angleDeg: number;
  readonly a: Void;
  /** What it meets: another cut, a side of the body, or itself at a corner. */
  readonly b: Void | Face;
  /** In the plane of `a`. */
  readonly point: Point2;
  readonly at: Vec3;
}

/** Flatter than this is two lines that run along each other, degrees. */
const ALONG = 2;
/** How far from the point, and how far outside the wedge, the part is probed: mm, degrees. */
const PROBE = 0.2;
const BESIDE = 8;
/** What has no wall that runs straight down, or is too shallow to leave an edge. */
const LEFT_OUT = new Set<Void['role']>(['edge', 'engraving', 'point', 'countersink', 'undercut', 'slope']);

/** A cut that meets more others than this is drawn into them: no one edge is worth a word. */
const CROWD = 64;

/** Every wedge under `belowDeg`. */
export function* wedges(solid: Solid, belowDeg: number): Iterable<Wedge> {
  const { voids } = solid;
  for (const [i, v] of voids.entries()) {
    if (LEFT_OUT.has(v.role)) continue;
    yield* atCorners(v, solid, belowDeg);
    yield* atSides(v, solid, belowDeg);
    const after = nearIn(voids, v.bounds).flatMap((k) => (k > i ? [voids[k]!] : []));
    const met = after.filter((w) => boxesMeet(v.bounds, w.bounds) && !LEFT_OUT.has(w.role));
    if (met.length > CROWD) continue;
    for (const w of met) yield* between(v, w, solid, belowDeg);
  }
}

function* atCorners(v: Void, solid: Solid, below: number): Iterable<Wedge> {
  const depth = (v.from + v.to) / 2;
  for (const { at, back, on } of sharpCorners(v, below)) {
    const found = wedge({ a: v, b: v, depth, solid, below }, at, back, on);
    if (found) yield found;
  }
}

interface Turn {
  readonly at: Point2;
  readonly back: Point2;
  readonly on: Point2;
}

/** Of the outline alone: whether material stands there is asked of the part. */
const sharpCorners = memo((v: Void, below: number): readonly Turn[] =>
  [v.region.outer, ...v.region.holes].flatMap(({ edges }) =>
    edges.flatMap((after, i) => {
      if (edges.length < 2) return [];
      const before = edges[(i + edges.length - 1) % edges.length]!;
      const [back, on] = [turned(tangentAt(before, after.a), 180), tangentAt(after, after.a)];
      return isSharp(angleBetween(back, on), below) ? [{ at: after.a, back, on }] : [];
    }),
  ),
);

/** Where the outline crosses a side of the body. Sides of a round body have no plane. */
function* atSides(v: Void, solid: Solid, below: number): Iterable<Wedge> {
  if (solid.body.form !== 'box') return;
  const { min, max } = solid.body.box;
  for (const face of FACES) {
    const { axis, sign } = FACE_AXIS[face];
    const i = 'xyz'.indexOf(axis);
    const level = sign < 0 ? min[i]! : max[i]!;
    if (!(v.bounds.min[i]! < level && level < v.bounds.max[i]!)) continue;
    const normal = [0, 1, 2].map((k) => (k === i ? sign : 0)) as unknown as Vec3;
    if (Math.abs(dot(normal, v.frame.w)) > ROUNDING) continue;
    const side = sideLine(v.frame, normal, level * sign);
    for (const edge of regionEdges(v.region)) {
      for (const p of meetings(edge, side))
        yield* crossing({ a: v, b: face, depth: (v.from + v.to) / 2, solid, below }, p, edge, side);
    }
  }
}

/** The plane `normal · p = level` as a line in a cut's own plane. */
function sideLine(frame: Frame, normal: Vec3, level: number): Edge {
  const n = { u: dot(normal, frame.u), v: dot(normal, frame.v) };
  const d = level - dot(normal, frame.origin);
  const foot = { u: n.u * d, v: n.v * d };
  const far = 1e4;
  return {
    type: 'line',
    a: { u: foot.u + n.v * far, v: foot.v - n.u * far },
    b: { u: foot.u - n.v * far, v: foot.v + n.u * far },
  };
}

function* between(a: Void, b: Void, solid: Solid, below: number): Iterable<Wedge> {
  if (alongside(a.frame, b.frame) === 0 || dot(a.frame.u, b.frame.u) < 1 - ROUNDING) return;
  const [a0, a1] = depthRange(a, a.frame);
  const [b0, b1] = depthRange(b, a.frame);
  const [from, to] = [Math.max(a0, b0), Math.min(a1, b1)];
  if (to - from < SAME) return;
  const d = minus(b.frame.origin, a.frame.origin);
  const by = { u: dot(d, a.frame.u), v: dot(d, a.frame.v) };
  const others = regionEdges(b.region).map((e) => shifted(e, by));
  for (const e of regionEdges(a.region)) {
    for (const f of others) {
      for (const p of meetings(e, f)) yield* crossing({ a, b, depth: (from + to) / 2, solid, below }, p, e, f);
    }
  }
}

function shifted(e: Edge, by: Point2): Edge {
  const move = (p: Point2) => ({ u: p.u + by.u, v: p.v + by.v });
  const a = move(e.a);
  const b = e.a === e.b ? a : move(e.b);
  return e.type === 'line' ? { ...e, a, b } : { ...e, a, b, centre: move(e.centre) };
}

/** Two outlines in one plane, at a depth of the first one's cut. */
interface Meeting {
  readonly a: Void;
  readonly b: Void | Face;
  readonly depth: number;
  readonly solid: Solid;
  /** Only sharper ones count, degrees. */
  readonly below: number;
}

/** The four angles between two lines that cross. */
function* crossing(of: Meeting, p: Point2, e: Edge, f: Edge): Iterable<Wedge> {
  const [t, s] = [tangentAt(e, p), tangentAt(f, p)];
  for (const one of [t, turned(t, 180)]) {
    for (const two of [s, turned(s, 180)]) {
      const found = wedge(of, p, one, two);
      if (found) yield found;
    }
  }
}

/** The wedge between two directions from a point, if it is sharp, of material, and free on both sides. */
function wedge({ a, b, depth, solid, below }: Meeting, p: Point2, one: Point2, two: Point2): Wedge | undefined {
  const angleDeg = angleBetween(one, two);
  if (!isSharp(angleDeg, below)) return undefined;
  const middle = unit({ u: one.u + two.u, v: one.v + two.v });
  const material = (turn: number) => {
    const d = turned(middle, turn);
    return solid.isMaterial(inPart(a.frame, p.u + d.u * PROBE, p.v + d.v * PROBE, depth));
  };
  if (!material(0) || material(angleDeg / 2 + BESIDE) || material(-angleDeg / 2 - BESIDE)) return undefined;
  return { angleDeg, a, b, point: p, at: inPart(a.frame, p.u, p.v, depth) };
}

function angleBetween(one: Point2, two: Point2): number {
  return (Math.atan2(Math.abs(one.u * two.v - one.v * two.u), one.u * two.u + one.v * two.v) * 180) / Math.PI;
}

function isSharp(angleDeg: number, below: number): boolean {
  return angleDeg >= ALONG && angleDeg < below;
}

function unit(p: Point2): Point2 {
  const l = Math.hypot(p.u, p.v) || 1;
  return { u: p.u / l, v: p.v / l };
}
function turned(p: Point2, deg: number): Point2 {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return { u: p.u * c - p.v * s, v: p.u * s + p.v * c };
}
