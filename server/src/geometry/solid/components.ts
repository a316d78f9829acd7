/**
 * How many connected lumps of material the finished part is. Voids that touch form a cluster; clusters apart from each
 * other cannot sever anything together that neither severs alone, so each is judged by itself and kept. Most cannot
 * sever anything for a plain reason; the rest is sliced (`slices.ts`).
 */

import { memo } from '../../memo';
import { FACES, type Face } from '../../model/model';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { isFullCircle, pointAt, tangentAt } from '../2d/edge';
import { windingOf } from '../2d/inside';
import { meetings } from '../2d/intersect';
import { inward, levelOf, toFrame } from '../frame';
import type { BodyShape, Region, Vec3, Void } from '../types';
import { dot } from '../vector';
import { bodyPrism } from './body';
import { lumpsOf } from './slices';

/** `touches`: for each void, those it meets or touches. */
export function lumpCount(body: BodyShape, voids: readonly Void[], touches: readonly (readonly number[])[]): number {
  let pieces = 1;
  for (const cluster of clustersOf(touches)) {
    const lumps = lumpsWith(
      voids[cluster[0]!]!,
      body,
      cluster.map((i) => voids[i]!),
    );
    if (lumps === 0) return 0;
    pieces += lumps - 1;
  }
  return pieces;
}

function clustersOf(touches: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const seen = new Array<boolean>(touches.length).fill(false);
  const clusters: number[][] = [];
  for (let i = 0; i < touches.length; i++) {
    if (seen[i]) continue;
    seen[i] = true;
    const cluster = [i];
    for (let n = 0; n < cluster.length; n++) {
      for (const k of touches[cluster[n]!]!) {
        if (seen[k]) continue;
        seen[k] = true;
        cluster.push(k);
      }
    }
    clusters.push(cluster.sort((a, b) => a - b));
  }
  return clusters;
}

/** Sections that cannot be followed: no alarm. */
const lumpsWith = memo((_first: Void, body: BodyShape, cluster: readonly Void[]): number => {
  if (isRoundStack(body, cluster) || FACES.some((face) => opensTo(face, body, cluster))) return 1;
  return lumpsOf(bodyPrism(body), cluster) ?? 1;
});

/** Discs about one line, all inside the body's sides: every section keeps a ring of material round them. */
function isRoundStack(body: BodyShape, cluster: readonly Void[]): boolean {
  const first = cluster[0]!;
  const axis = ([0, 1, 2] as const).find((a) => Math.abs(first.frame.w[a]) === 1);
  if (axis === undefined) return false;
  const c0 = centreLine(first);
  if (!c0) return false;
  for (const v of cluster) {
    if (Math.abs(v.frame.w[axis]) !== 1 || v.region.holes.length > 0) return false;
    const c = centreLine(v);
    if (!c || ([0, 1, 2] as const).some((a) => a !== axis && Math.abs(c[a] - c0[a]) > ROUNDING)) return false;
    for (const a of [0, 1, 2] as const) {
      if (a === axis) continue;
      if (v.bounds.min[a] < body.box.min[a] + SAME || v.bounds.max[a] > body.box.max[a] - SAME) return false;
    }
    if (body.form === 'round' && !clearOfRound(body, axis, v)) return false;
  }
  return true;
}

function centreLine(v: Void): Vec3 | undefined {
  const e = v.region.outer.edges[0]!;
  if (e.type !== 'arc' || !isFullCircle(e)) return undefined;
  const { origin, u, v: fv } = v.frame;
  return ([0, 1, 2] as const).map((a) => origin[a] + e.centre.u * u[a] + e.centre.v * fv[a]) as unknown as Vec3;
}

function clearOfRound(body: BodyShape & { form: 'round' }, axis: number, v: Void): boolean {
  if (axis !== body.axis) return false;
  const far = ([0, 1, 2] as const)
    .filter((a) => a !== axis)
    .map((a) => {
      const c = (body.box.min[a] + body.box.max[a]) / 2;
      return Math.max(Math.abs(v.bounds.min[a] - c), Math.abs(v.bounds.max[a] - c));
    });
  return Math.hypot(...far) < body.radius - SAME;
}

/**
 * Everything in the cluster is open straight up to one face and none reaches the opposite one: every bit of material
 * stands on the plate that is left below the deepest floor.
 */
function opensTo(face: Face, body: BodyShape, cluster: readonly Void[]): boolean {
  const into = inward(face);
  const axis = into[0] !== 0 ? 0 : into[1] !== 0 ? 1 : 2;
  const level = levelOf(face, body.box.max);
  const extent = body.box.max[axis];
  // across a round bar only down to its middle does every column have something to stand on
  const limit = body.form === 'round' && body.axis !== axis ? extent / 2 : extent - SAME;
  for (const v of cluster) {
    const deepest = into[axis] > 0 ? v.bounds.max[axis] - level : level - v.bounds.min[axis];
    if (deepest > limit) return false;
  }
  return cluster.every((v) => opensUp(v, into, level, axis, cluster));
}

function opensUp(v: Void, into: Vec3, level: number, axis: 0 | 1 | 2, cluster: readonly Void[]): boolean {
  const along = dot(v.frame.w, into);
  if (along > 1 - DIGITS) {
    if (v.profile.type === 'taper' && v.profile.insetTo < v.profile.insetFrom) return false;
    if (v.from <= ROUNDING) return true;
    return cluster.some((q) => q !== v && q.from < v.from - ROUNDING && q.to >= v.from - ROUNDING && covers(q, v));
  }
  if (Math.abs(along) > DIGITS || v.profile.type !== 'straight') return false;
  // a sweep along the face: the outline must hang from the face, nothing of it overhung
  const up: readonly [number, number] = [-dot(v.frame.u, into), -dot(v.frame.v, into)];
  for (const e of [v.region.outer, ...v.region.holes].flatMap((l) => l.edges)) {
    for (const t of e.type === 'line' ? [0.5] : [0, 0.25, 0.5, 0.75, 1]) {
      const p = pointAt(e, t);
      const d = tangentAt(e, p);
      if (d.v * up[0] - d.u * up[1] <= ROUNDING) continue;
      const at = v.frame.origin[axis] + p.u * v.frame.u[axis] + p.v * v.frame.v[axis];
      const above = into[axis] > 0 ? at <= level + ROUNDING : at >= level - ROUNDING;
      if (!above) return false;
    }
  }
  return true;
}

/** The void below starts wholly within the outline above it, on the same axis and in a straight-walled cut. */
function covers(above: Void, below: Void): boolean {
  if (dot(above.frame.w, below.frame.w) < 1 - DIGITS || above.from > ROUNDING) return false;
  if (above.profile.type !== 'straight') return false;
  const o = toFrame(above.frame, below.frame.origin);
  if (above.region === below.region && Math.abs(o[0]) < ROUNDING && Math.abs(o[1]) < ROUNDING) return true;
  if (dot(above.frame.u, below.frame.u) < 1 - DIGITS || dot(above.frame.v, below.frame.v) < 1 - DIGITS) return false;
  return holdsRegion(above.region, below.region, o[0], o[1]);
}

function holdsRegion(outer: Region, inner: Region, du: number, dv: number): boolean {
  const moved = inner.outer.edges.map((e) => {
    const a = { u: e.a.u + du, v: e.a.v + dv };
    const b = e.b === e.a ? a : { u: e.b.u + du, v: e.b.v + dv };
    return e.type === 'line' ? { ...e, a, b } : { ...e, a, b, centre: { u: e.centre.u + du, v: e.centre.v + dv } };
  });
  const all = [outer.outer, ...outer.holes].flatMap((l) => l.edges);
  if (moved.some((e) => all.some((f) => meetings(e, f).length > 0))) return false;
  return windingOf(all, moved[0]!.a.u, moved[0]!.a.v) !== 0;
}
