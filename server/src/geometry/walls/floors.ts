/**
 * Material left between two bottoms, or between a bottom and a face: as thick as their distance along the axis, wherever
 * both lie over each other and no third volume breaks through.
 */

import type { Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { between, type Surroundings, stands } from '../distance/line-of-material';
import { type Outline, pointAlong, signedDistance } from '../distance/outline';
import { eachNearest } from '../distance/planar';
import { fromFrame, intoFrame } from '../frame';
import type { Frame, Point2, Void, Wall } from '../types';
import { spanAlong } from '../vector';

/** Flat ends that look at each other: outline, and the inset of the section there. */
interface Bottoms {
  readonly frame: Frame;
  readonly a: Outline;
  readonly insetA: number;
  /** Absent for a face of the body. */
  readonly b?: Outline;
  readonly insetB: number;
  /** Depths of the two ends; `depthB − depthA` is the thickness with a sign. */
  readonly depthA: number;
  readonly depthB: number;
}

const EDGE_MM = 1e-6;

/** Its far end is a floor: not where it goes through, nor where it is drawn from its side. */
export const endsInFloor = (v: Void): boolean => !v.through && !v.endsAreWalls;

export function floorWall(a: Void, b: Void | Face, k: Bottoms, isFloor: boolean, s: Surroundings): Wall | undefined {
  const thicknessMm = Math.abs(k.depthB - k.depthA);
  if (thicknessMm < SAME || thicknessMm >= s.belowMm) return undefined;
  const at = (p: Point2) => [fromFrame(k.frame, p.u, p.v, k.depthA), fromFrame(k.frame, p.u, p.v, k.depthB)] as const;
  for (const p of candidates(k, s)) {
    const line = at(p);
    if (!stands(...line, s)) continue;
    const lengthMm = Math.min(spanAt(k, p, 1, 0), spanAt(k, p, 0, 1));
    // on the very edge of an end that is no point: whether material stands there is chance
    if (lengthMm < EDGE_MM && k.insetA <= 0 && k.insetB <= 0) continue;
    const flat = isFloor && lengthMm > thicknessMm;
    return { thicknessMm, a, b, at: line, heightMm: 0, lengthMm, type: flat ? 'floor' : 'wall' };
  }
  return undefined;
}

/** Cells first; where none of them stands, what may be left beside a third volume: a lip along the rim. */
function* candidates(k: Bottoms, s: Surroundings): Generator<Point2> {
  yield* places(k, s);
  if (s.near.length > 0) yield* rims(k);
}

/** How far inside a rim a lip is looked for, mm. */
const LIPS_MM = [0.2, 0.01];
/** Outlines of more sides than this are letters and the like: their rims are not walked. */
const MOST_SIDES = 40;

function* rims(k: Bottoms): Generator<Point2> {
  const ends = k.b
    ? ([
        [k.a, k.insetA],
        [k.b, k.insetB],
      ] as const)
    : ([[k.a, k.insetA]] as const);
  for (const [outline, inset] of ends) {
    if (outline.sides.length > MOST_SIDES) continue;
    for (const lip of LIPS_MM) {
      for (const side of outline.sides) {
        for (const share of [0.5, 0.15, 0.85]) {
          const p = pointAlong(side, side.length * share);
          const q = pointAlong(side, side.length * (share + 0.01));
          const l = Math.hypot(q.u - p.u, q.v - p.v);
          if (l === 0) continue;
          const by = (inset + lip) / l;
          const place = { u: p.u - (q.v - p.v) * by, v: p.v + (q.u - p.u) * by };
          if (inBoth(k, place)) yield place;
        }
      }
    }
  }
}

const inBoth = (k: Bottoms, p: Point2): boolean =>
  signedDistance(k.a, p.u, p.v) <= -k.insetA + ROUNDING &&
  (!k.b || signedDistance(k.b, p.u, p.v) <= -k.insetB + ROUNDING);

/** Places that lie over both ends: middles of the cells that outlines and volumes near by cut, widest cell first. */
function places(k: Bottoms, s: Surroundings): readonly Point2[] {
  const outlines = k.b ? [k.a, k.b] : [k.a];
  const from = { u: Math.max(...outlines.map((o) => o.minU)), v: Math.max(...outlines.map((o) => o.minV)) };
  const to = { u: Math.min(...outlines.map((o) => o.maxU)), v: Math.min(...outlines.map((o) => o.maxV)) };
  if (from.u >= to.u || from.v >= to.v) return [];
  const us = [from.u, to.u];
  const vs = [from.v, to.v];
  const cutU = (x: number) => x > from.u && x < to.u && us.push(x);
  const cutV = (x: number) => x > from.v && x < to.v && vs.push(x);
  for (const o of outlines) {
    if (o.convex || o.sides.length > 40) continue;
    for (const side of o.sides) {
      cutU(side.ax);
      cutV(side.ay);
    }
  }
  const start = intoFrame(k.frame, [0, 0, 0]);
  for (const box of [s.body.box, ...s.near.map((v) => v.bounds)]) {
    for (const x of spanAlong(box, k.frame.u, start.u)) cutU(x);
    for (const x of spanAlong(box, k.frame.v, start.v)) cutV(x);
  }
  const found: { p: Point2; size: number }[] = [];
  for (const u of between(us)) {
    for (const v of between(vs)) {
      const p = { u: u.middle, v: v.middle };
      if (inBoth(k, p)) found.push({ p, size: Math.min(u.to - u.from, v.to - v.from) });
    }
  }
  found.sort((x, y) => y.size - x.size);
  return [...found.map((f) => f.p), ...crossings(k)];
}

/** Between the crossings of two boundaries: the place for a narrow overlap that no cell's middle meets. */
function crossings(k: Bottoms): readonly Point2[] {
  if (!k.b) return [];
  const at: Point2[] = [];
  for (const e of k.a.sides) {
    for (const f of k.b.sides) {
      eachNearest(e, f, (p, q) => {
        if (Math.abs(p.u - q.u) + Math.abs(p.v - q.v) < ROUNDING && at.length < 12) at.push(p);
      });
    }
  }
  return at
    .flatMap((p, i) => at.slice(i + 1).map((q) => ({ u: (p.u + q.u) / 2, v: (p.v + q.v) / 2 })))
    .filter((p) => inBoth(k, p));
}

/** How far both ends reach through a place along a direction of the plane, mm. */
function spanAt(k: Bottoms, p: Point2, du: number, dv: number): number {
  return reachAt(k, p, du, dv) + reachAt(k, p, -du, -dv);
}

function reachAt(k: Bottoms, p: Point2, du: number, dv: number): number {
  let at = 0;
  const room = () => {
    const u = p.u + du * at;
    const v = p.v + dv * at;
    const first = -signedDistance(k.a, u, v) - k.insetA;
    return k.b ? Math.min(first, -signedDistance(k.b, u, v) - k.insetB) : first;
  };
  // Stepping by the distance to the nearest boundary never steps over one.
  for (let i = 0; i < 60; i++) {
    const step = room();
    if (step < 1e-7) break;
    at += step;
  }
  return at;
}
