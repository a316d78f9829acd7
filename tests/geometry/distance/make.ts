/** Removed volumes made by hand for the tests: outlines, frames on any face, and a plain answer to "is it material?". */

import { outlineOf, signedDistance } from '../../../server/src/geometry/distance/outline';
import { depthOf, fromFrame, intoFrame } from '../../../server/src/geometry/frame';
import { insetAt } from '../../../server/src/geometry/solid/prism';
import type {
  BodyShape,
  Box,
  Edge,
  Frame,
  Loop,
  Point2,
  Profile,
  Region,
  Vec3,
  Void,
  VoidRole,
} from '../../../server/src/geometry/types';
import { FACE_AXIS, FACE_PLANE, type Face } from '../../../server/src/model/model';

const line = (a: Point2, b: Point2): Edge => ({ type: 'line', a, b });

export function circle(u: number, v: number, radius: number, ccw = true): Loop {
  const a = { u: u + radius, v };
  return { edges: [{ type: 'arc', a, b: a, centre: { u, v }, radius, ccw }] };
}

export function polygon(...points: readonly (readonly [number, number])[]): Loop {
  const at = points.map(([u, v]) => ({ u, v }));
  return { edges: at.map((a, i) => line(a, at[(i + 1) % at.length]!)) };
}

/** A rectangle about (u, v), counter-clockwise, with round corners. */
export function rectangle(u: number, v: number, width: number, height: number, radius = 0): Loop {
  const [x, y] = [width / 2, height / 2];
  if (radius === 0) return polygon([u - x, v - y], [u + x, v - y], [u + x, v + y], [u - x, v + y]);
  const edges: Edge[] = [];
  const corners: readonly (readonly [number, number])[] = [
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ];
  let last = { u: u - x + radius, v: v - y };
  corners.forEach(([su, sv], i) => {
    const centre = { u: u + su * (x - radius), v: v + sv * (y - radius) };
    const upright = i % 2 === 0;
    const a = upright ? { u: centre.u, v: centre.v + sv * radius } : { u: centre.u + su * radius, v: centre.v };
    const b = upright ? { u: centre.u + su * radius, v: centre.v } : { u: centre.u, v: centre.v + sv * radius };
    if (Math.hypot(a.u - last.u, a.v - last.v) > 1e-9) edges.push(line(last, a));
    edges.push({ type: 'arc', a, b, centre, radius, ccw: true });
    last = b;
  });
  const first = edges[0]!.a;
  if (Math.hypot(first.u - last.u, first.v - last.v) > 1e-9) edges.push(line(last, first));
  return { edges };
}

export function reversed(l: Loop): Loop {
  const turn = (e: Edge): Edge =>
    e.type === 'line' ? { ...e, a: e.b, b: e.a } : { ...e, a: e.b, b: e.a, ccw: !e.ccw };
  return { edges: [...l.edges].reverse().map(turn) };
}

export const region = (outer: Loop, ...holes: readonly Loop[]): Region => ({ outer, holes });

/** The frame of a feature on a face of a box that starts at the origin. Left-handed where the face's axes make it so. */
export function faceFrame(face: Face, size: Vec3): Frame {
  const unit = (axis: string, s: number): Vec3 => ['x', 'y', 'z'].map((k) => (k === axis ? s : 0)) as unknown as Vec3;
  const { axis, sign } = FACE_AXIS[face];
  const level = sign > 0 ? size['xyz'.indexOf(axis) as 0] : 0;
  const [u, v] = FACE_PLANE[face];
  return { origin: unit(axis, level), u: unit(u, 1), v: unit(v, 1), w: unit(axis, -sign) };
}

export interface Cut {
  readonly feature?: string;
  readonly member?: number;
  readonly role?: VoidRole;
  readonly frame: Frame;
  readonly region: Region;
  readonly from?: number;
  readonly to: number;
  readonly profile?: Profile;
  readonly through?: boolean;
}

let made = 0;

export function cut(c: Cut): Void {
  const { frame, from = 0, to, profile = { type: 'straight' as const } } = c;
  const o = outlineOf(c.region);
  const wider = profile.type === 'taper' ? Math.max(0, -profile.insetFrom, -profile.insetTo) : 0;
  const points: Vec3[] = [];
  for (const u of [o.minU - wider, o.maxU + wider]) {
    for (const v of [o.minV - wider, o.maxV + wider])
      for (const w of [from, to]) points.push(fromFrame(frame, u, v, w));
  }
  return {
    feature: c.feature ?? `cut-${String(made++).padStart(4, '0')}`,
    member: c.member ?? 0,
    role: c.role ?? 'pocket',
    frame,
    region: c.region,
    from,
    to,
    profile,
    through: c.through ?? false,
    bounds: boxOf(points),
  };
}

function boxOf(points: readonly Vec3[]): Box {
  const pick = (by: (...n: number[]) => number) =>
    [0, 1, 2].map((i) => by(...points.map((p) => p[i as 0]))) as unknown as Vec3;
  return { min: pick(Math.min), max: pick(Math.max) };
}

export const block = (x: number, y: number, z: number): BodyShape => ({
  form: 'box',
  box: { min: [0, 0, 0], max: [x, y, z] },
});

function inVoid(v: Void, p: Vec3): boolean {
  const w = depthOf(v.frame, p);
  if (w < v.from || w > v.to) return false;
  const at = intoFrame(v.frame, p);
  return signedDistance(outlineOf(v.region), at.u, at.v) <= -insetAt(v, w);
}

function inBody(body: BodyShape, p: Vec3): boolean {
  const { min, max } = body.box;
  if (p.some((x, i) => x < min[i as 0] || x > max[i as 0])) return false;
  if (body.form === 'box') return true;
  const off = p.map((x, i) => (i === body.axis ? 0 : x - (min[i as 0] + max[i as 0]) / 2));
  return Math.hypot(...off) <= body.radius;
}

export const materialOf = (body: BodyShape, voids: readonly Void[]) => (p: Vec3) =>
  inBody(body, p) && !voids.some((v) => inVoid(v, p));
