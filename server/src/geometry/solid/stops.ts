/**
 * The depths along an axis where the sections of several prisms change their make-up: where one begins or ends, where
 * a corner or the widest place of one is passed, and where the sides of two sections run past each other. Between two
 * stops the common area changes smoothly.
 */

import { DIGITS, ROUNDING } from '../../tolerance';
import { chords } from '../2d/chords';
import { isFullCircle } from '../2d/edge';
import { meetings } from '../2d/intersect';
import { regionEdges } from '../2d/moments';
import { mapEdge } from '../2d/plane-map';
import type { Vec3 } from '../types';
import { type AxisIndex, add, dot } from '../vector';
import type { Prism } from './prism';
import { standing } from './section';

/** Heights along an axis between `low` and `high`, mm, rising: from one to the next, sections change smoothly. */
export function stopsOf(prisms: readonly Prism[], axis: AxisIndex, low: number, high: number): number[] {
  const stops = new Stops(low, high);
  for (const p of prisms) ownStops(p, axis, stops.put);
  const across = prisms.filter((p) => standing(p, axis) === 'across' && p.profile.type === 'straight');
  for (const p of across) {
    for (const q of prisms) if (q !== p && standing(q, axis) === 'along') passing(p, q, axis, stops.put);
  }
  for (let i = 0; i < across.length; i++) {
    for (let k = i + 1; k < across.length; k++) {
      side(across[i]!, across[k]!, axis, stops.put);
      ends(across[i]!, across[k]!, axis, stops.put);
      ends(across[k]!, across[i]!, axis, stops.put);
    }
  }
  return stops.sorted();
}

/** Only where one begins, ends or turns by itself: enough to see what hangs together. */
export function plainStopsOf(prisms: readonly Prism[], axis: AxisIndex, low: number, high: number): number[] {
  const stops = new Stops(low, high);
  for (const p of prisms) ownStops(p, axis, stops.put);
  return stops.sorted();
}

class Stops {
  private readonly all: number[];

  constructor(
    private readonly low: number,
    private readonly high: number,
  ) {
    this.all = [low, high];
  }

  readonly put = (x: number): void => {
    if (x > this.low + ROUNDING && x < this.high - ROUNDING) this.all.push(x);
  };

  sorted(): number[] {
    this.all.sort((a, b) => a - b);
    return this.all.filter((x, n) => n === 0 || x - this.all[n - 1]! > ROUNDING);
  }
}

function ownStops(p: Prism, axis: AxisIndex, put: (x: number) => void): void {
  const { frame, profile } = p;
  const o = frame.origin[axis];
  const ends = [p.from, p.to];
  if (profile.type === 'floor') ends.push(p.to - profile.radius);
  if (standing(p, axis) === 'along') {
    for (const w of ends) put(o + w * frame.w[axis]);
    return;
  }
  const nu = frame.u[axis];
  const nv = frame.v[axis];
  const l = Math.hypot(nu, nv);
  for (const e of regionEdges(p.region)) {
    const marks = [e.a.u * nu + e.a.v * nv];
    if (e.type === 'arc') {
      const c = e.centre.u * nu + e.centre.v * nv;
      marks.push(c - e.radius * l, c + e.radius * l);
    }
    for (const m of marks) for (const w of ends) put(o + m + w * frame.w[axis]);
  }
}

/** Which way the width of a prism lying across is measured in the section: a unit vector. */
function widthOf(p: Prism, axis: AxisIndex): Vec3 {
  const { u, v } = p.frame;
  // (−nv, nu) in the prism's own plane
  return [0, 1, 2].map((a) => -v[axis] * u[a]! + u[axis] * v[a]!) as unknown as Vec3;
}

/** The depths at which the side of a prism lying across stands at `mark` along its width. */
function sideAt(p: Prism, axis: AxisIndex, mark: number, put: (x: number) => void): void {
  const { frame } = p;
  for (const [a, b] of chords(regionEdges(p.region), -frame.v[axis], frame.u[axis], mark)) {
    put(frame.origin[axis] - a);
    put(frame.origin[axis] - b);
  }
}

/**
 * Where the sides of a prism lying across pass a corner or an arc's outermost point of one standing along, and where
 * the corners at its ends pass that one's sides.
 */
function passing(p: Prism, q: Prism, axis: AxisIndex, put: (x: number) => void): void {
  const { frame } = p;
  const t = widthOf(p, axis);
  const tu = dot(t, q.frame.u);
  const tv = dot(t, q.frame.v);
  const base = dot(t, add(q.frame.origin, frame.origin, -1));
  const marks = new Set<number>();
  const edges = regionEdges(q.region);
  for (const e of edges) {
    if (e.type === 'line' || !isFullCircle(e)) marks.add(round(base + e.a.u * tu + e.a.v * tv));
    if (e.type === 'arc') {
      const c = base + e.centre.u * tu + e.centre.v * tv;
      marks.add(round(c - e.radius)).add(round(c + e.radius));
    }
  }
  const wu = dot(frame.w, q.frame.u);
  const wv = dot(frame.w, q.frame.v);
  const shift = dot(frame.w, add(frame.origin, q.frame.origin, -1));
  const sign = -wv * tu + wu * tv;
  for (const w of [p.from, p.to]) {
    for (const c of chords(edges, wu, wv, shift + w)) for (const s of c) marks.add(round(base + s * sign));
  }
  for (const m of marks) sideAt(p, axis, m, put);
}

/** Where the sides of `q` pass the ends of `p`, both lying across, square to each other. */
function ends(p: Prism, q: Prism, axis: AxisIndex, put: (x: number) => void): void {
  const t = widthOf(q, axis);
  const along = dot(t, p.frame.w);
  if (Math.abs(along) < 1 - DIGITS) return;
  const base = dot(t, add(p.frame.origin, q.frame.origin, -1));
  for (const w of [p.from, p.to]) sideAt(q, axis, base + w * along, put);
}

function round(x: number): number {
  return Math.round(x * 1e9) / 1e9;
}

/** Where the outlines of two prisms that lie across side by side cross. */
function side(p: Prism, q: Prism, axis: AxisIndex, put: (x: number) => void): void {
  if (Math.abs(dot(p.frame.w, q.frame.w)) < 1 - DIGITS) return;
  const { u, v, origin } = p.frame;
  const shift = add(q.frame.origin, origin, -1);
  const map = {
    uu: dot(q.frame.u, u),
    uv: dot(q.frame.v, u),
    vu: dot(q.frame.u, v),
    vv: dot(q.frame.v, v),
    u0: dot(shift, u),
    v0: dot(shift, v),
  };
  const others = regionEdges(q.region).map((e) => mapEdge(map, e));
  for (const e of regionEdges(p.region)) {
    for (const f of others) for (const m of meetings(e, f)) put(origin[axis] + m.u * u[axis] + m.v * v[axis]);
  }
}
