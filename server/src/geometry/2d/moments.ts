/**
 * Area and first moments by integrating along the boundary (Green's theorem), in closed form for lines and arcs.
 * Edges with the material on their left count positive.
 */

import type { Edge, Loop, Point2, Region } from '../types';
import { lengthOf, startAngle, sweepOf } from './edge';

export interface Moments {
  /** mm² */
  readonly area: number;
  /** ∫u dA, ∫v dA, mm³ */
  readonly mu: number;
  readonly mv: number;
}

/** What the edges enclose. The sum is taken about (`ou`, `ov`) so that far-off outlines lose no digits. */
export function momentsOf(edges: readonly Edge[], ou = 0, ov = 0): Moments {
  let area = 0;
  let mu = 0;
  let mv = 0;
  for (const e of edges) {
    const au = e.a.u - ou;
    const av = e.a.v - ov;
    const bu = e.b.u - ou;
    const bv = e.b.v - ov;
    const cross = au * bv - bu * av;
    area += cross / 2;
    mu += (cross * (au + bu)) / 6;
    mv += (cross * (av + bv)) / 6;
    if (e.type === 'arc') {
      // the piece between chord and arc: a circular segment, its centroid on the bisector
      const sweep = sweepOf(e);
      const half = sweep / 2;
      const s = Math.sin(half);
      const r = e.radius;
      const segment = (r * r * (sweep - Math.sin(sweep))) / 2;
      const out = (2 * r * r * r * s * s * s) / 3;
      const mid = startAngle(e) + half;
      area += segment;
      mu += segment * (e.centre.u - ou) + out * Math.cos(mid);
      mv += segment * (e.centre.v - ov) + out * Math.sin(mid);
    }
  }
  return { area, mu: mu + area * ou, mv: mv + area * ov };
}

/** Second moments of an area about its own centroid, mm⁴: ∫(u − ū)² dA and ∫(v − v̄)² dA. */
interface SecondMoments {
  readonly uu: number;
  readonly vv: number;
}

/** About the centroid of what the edges enclose, by Green's theorem: ∫u² dA = ∮u³/3 dv and ∫v² dA = −∮v³/3 du. */
export function secondMomentsOf(edges: readonly Edge[]): SecondMoments {
  const m = momentsOf(edges);
  const { u: cu, v: cv } = centroidOf(m);
  let uu = 0;
  let vv = 0;
  for (const e of edges) {
    const a = { u: e.a.u - cu, v: e.a.v - cv };
    const b = { u: e.b.u - cu, v: e.b.v - cv };
    if (e.type === 'line') {
      uu += ((b.v - a.v) * (a.u + b.u) * (a.u ** 2 + b.u ** 2)) / 12;
      vv -= ((b.u - a.u) * (a.v + b.v) * (a.v ** 2 + b.v ** 2)) / 12;
      continue;
    }
    const from = startAngle(e);
    const to = from + sweepOf(e);
    uu += cubed(e.centre.u - cu, e.radius, to) - cubed(e.centre.u - cu, e.radius, from);
    // sin θ = cos(θ − 90°), and du = −r sin θ dθ.
    vv += cubed(e.centre.v - cv, e.radius, to - QUARTER) - cubed(e.centre.v - cv, e.radius, from - QUARTER);
  }
  return { uu, vv };
}

const QUARTER = Math.PI / 2;

/** ∫ (c + r cos θ)³/3 · r cos θ dθ, up to θ. */
function cubed(c: number, r: number, theta: number): number {
  const s = Math.sin(theta);
  const double = Math.sin(2 * theta) / 4;
  const cos2 = theta / 2 + double;
  const cos3 = s - s ** 3 / 3;
  const cos4 = (3 * theta) / 8 + double + Math.sin(4 * theta) / 32;
  return (r * (c ** 3 * s + 3 * c ** 2 * r * cos2 + 3 * c * r ** 2 * cos3 + r ** 3 * cos4)) / 3;
}

export function regionEdges(r: Region): readonly Edge[] {
  if (r.holes.length === 0) return r.outer.edges;
  const all = [...r.outer.edges];
  for (const h of r.holes) all.push(...h.edges);
  return all;
}

/** Area (mm²) and first moments (mm³) of a region, its holes taken off. */
export function regionMoments(r: Region): Moments {
  return momentsOf(regionEdges(r));
}

/** Area in mm²: negative for a loop that runs clockwise. */
export function loopArea(l: Loop): number {
  return momentsOf(l.edges).area;
}

/** Where the area balances, mm; the origin for no area. */
export function centroidOf(m: Moments): Point2 {
  return m.area === 0 ? { u: 0, v: 0 } : { u: m.mu / m.area, v: m.mv / m.area };
}

/** Length all round, mm. */
export function perimeterOf(l: Loop): number {
  return l.edges.reduce((sum, e) => sum + lengthOf(e), 0);
}
