/**
 * The section of a tapered, filleted or rounded volume by a plane that is not square to its sweep: a hyperbola for a
 * cone, an arc or a spiric curve for a fillet.
 *
 * At every depth w the plane cuts the (inset) outline along a line; the ends of its stretches inside are the points of
 * the section's flanks. Depths where the number of stretches changes are found by halving; between two of them each
 * flank is one smooth curve. Depth runs as a cosine there, which makes curves that start square to the sweep smooth too.
 */

import { charge, spend } from '../../effort';
import { memo } from '../../memo';
import { DIGITS } from '../../tolerance';
import { chords } from '../2d/chords';
import { arcsAlong } from '../2d/curve';
import { isFullCircle, line } from '../2d/edge';
import { sheetOf } from '../2d/indexed-region';
import { momentsOf, regionEdges } from '../2d/moments';
import { directInset, insetEdges, isSteady } from '../2d/offset';
import type { Edge, Point2 } from '../types';
import type { AxisIndex } from '../vector';
import { insetAt, type Prism } from './prism';
import { CURVE_SHARE, EMPTY, type Section } from './section-value';

/** Looks between two depths known to matter, before any halving. */
const LOOKS = 6;
/** Looks at an edge that a point of a flank is worth. */
const COST = 15;
type Stretches = readonly (readonly [number, number])[];

export function flankedSection(p: Prism, axis: AxisIndex, at: number): Section {
  const plane = planeOf(p, axis, at);
  const edges: Edge[] = [];
  let exact = true;
  const stops = depthsOf(p, plane);
  let below: Stretches = [];
  for (let n = 0; n + 1 < stops.length; n++) {
    if (stops[n + 1]! - stops[n]! < 1e-11) continue;
    const band = bandOf(stops[n]!, stops[n + 1]!, plane, edges);
    exact &&= band.exact;
    levelOf(below, band.first, band.w0, plane, edges);
    below = band.last;
  }
  levelOf(below, [], p.to, plane, edges);
  exact &&= !plane.lost;
  if (edges.length === 0) return { ...EMPTY, exact };
  return { sheet: sheetOf(momentsOf(edges).area < 0 ? edges.map(backwards) : edges), exact };
}

function backwards(e: Edge): Edge {
  return e.type === 'line' ? line(e.b, e.a) : { ...e, a: e.b, b: e.a, ccw: !e.ccw };
}

interface Plane {
  /** Stretches of the line in which the plane cuts the layer at depth w. */
  readonly at: (w: number) => Stretches;
  /** A place on that line, in the plane's coordinates. */
  readonly place: (t: number, w: number) => Point2;
  /** The depth at which the line passes a point of the outline; undefined where it does not move with depth. */
  readonly passing: (q: Point2) => number | undefined;
  readonly size: number;
  /** An outline too tangled to be moved was met. */
  lost: boolean;
}

function planeOf(p: Prism, axis: AxisIndex, at: number): Plane {
  const { origin, u, v, w } = p.frame;
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const l = Math.hypot(u[axis], v[axis]);
  const nu = u[axis] / l;
  const nv = v[axis] / l;
  const lean = w[axis] / l;
  const d0 = (at - origin[axis]) / l;
  const layers = layersOf(p);
  const only = turnedOf(p);
  const foot = only ? -only.centre.u * nv + only.centre.v * nu : 0;
  const seen = new Map<number, Stretches>();
  const stretches = (depth: number): Stretches => {
    const d = d0 - depth * lean;
    if (only) {
      const r = only.radius - insetAt(p, depth);
      const off = d - only.centre.u * nu - only.centre.v * nv;
      if (r <= Math.abs(off)) return [];
      const half = Math.sqrt((r - off) * (r + off));
      return [[foot - half, foot + half]];
    }
    const edges = layers(insetAt(p, depth));
    if (!edges) plane.lost = true;
    return edges ? chords(edges, nu, nv, d) : [];
  };
  const plane: Plane = {
    at: (depth) => {
      let known = seen.get(depth);
      if (!known) {
        known = stretches(depth);
        spend(COST);
        seen.set(depth, known);
      }
      return known;
    },
    place: (t, depth) => {
      const d = d0 - depth * lean;
      const pu = d * nu - t * nv;
      const pv = d * nv + t * nu;
      return {
        u: origin[i] + pu * u[i] + pv * v[i] + depth * w[i],
        v: origin[k] + pu * u[k] + pv * v[k] + depth * w[k],
      };
    },
    passing: (q) => (Math.abs(lean) < DIGITS ? undefined : (d0 - q.u * nu - q.v * nv) / lean),
    size: p.to - p.from,
    lost: false,
  };
  return plane;
}

function turnedOf(p: Prism) {
  const e = p.region.outer.edges[0]!;
  return e.type === 'arc' && isFullCircle(e) && p.region.holes.length === 0 ? e : undefined;
}

const MOST_LAYERS = 1000;
type Layers = (inset: number) => readonly Edge[] | undefined;

/** The outline inset, kept for the insets asked for often: far more of them than a list could be searched for. */
const layersOf = memo((p: Prism): Layers => {
  const known = new Map<number, readonly Edge[] | undefined>();
  const plain = isSteady(p.region, insetAt(p, p.from), insetAt(p, p.to));
  return (inset) => {
    const price = (edges: readonly Edge[] | undefined) =>
      (plain ? 2 : 12 * (edges?.length ?? 10)) * (edges?.length ?? 10);
    if (known.has(inset)) {
      charge(price(known.get(inset)));
      return known.get(inset);
    }
    const edges = (plain && inset !== 0 && directInset(p.region, inset)) || insetEdges(p.region, inset);
    spend(price(edges));
    if (known.size < MOST_LAYERS) known.set(inset, edges);
    return edges;
  };
});

/** Depths between which the number of stretches does not change, rising. */
function depthsOf(p: Prism, plane: Plane): readonly number[] {
  const marks = [p.from, p.to];
  if (p.profile.type === 'floor') marks.push(p.to - p.profile.radius);
  for (const e of regionEdges(p.region)) {
    for (const q of [e.a, ...(e.type === 'arc' ? extremes(e) : [])]) {
      const w = plane.passing(q);
      if (w !== undefined) marks.push(w);
    }
  }
  const sure = marks.filter((w) => w >= p.from && w <= p.to).sort((a, b) => a - b);
  const out = [p.from];
  for (let n = 0; n + 1 < sure.length; n++) {
    const [a, b] = [sure[n]!, sure[n + 1]!];
    if (b - a < 1e-10) continue;
    let last = a;
    for (let k = 1; k <= LOOKS; k++) {
      const w = k === LOOKS ? b : a + ((b - a) * (1 - Math.cos((Math.PI * k) / LOOKS))) / 2;
      halve(last, w, plane, out);
      last = w;
    }
    if (b - out[out.length - 1]! > DIGITS) out.push(b);
  }
  return out;
}

function extremes(e: { centre: Point2; radius: number }): readonly Point2[] {
  const { centre: c, radius: r } = e;
  return [
    { u: c.u + r, v: c.v },
    { u: c.u - r, v: c.v },
    { u: c.u, v: c.v + r },
    { u: c.u, v: c.v - r },
  ];
}

/** Adds where the number changes between two depths. */
function halve(a: number, b: number, plane: Plane, out: number[]): void {
  const [na, nb] = [plane.at(a).length, plane.at(b).length];
  if (na === nb) return;
  let [low, high] = [a, b];
  for (let n = 0; n < 60 && high - low > 1e-13; n++) {
    const m = (low + high) / 2;
    if (plane.at(m).length === na) low = m;
    else high = m;
  }
  out.push(low, high);
  if (plane.at(high).length !== nb) halve(high, b, plane, out);
}

/** What of a band the lines across its ends are drawn from. */
interface Band {
  readonly w0: number;
  readonly w1: number;
  /** The stretches at either end. */
  readonly first: Stretches;
  readonly last: Stretches;
  readonly exact: boolean;
}

/** Adds the flanks between two depths: up on the right of every stretch, down on its left. */
function bandOf(w0: number, w1: number, plane: Plane, out: Edge[]): Band {
  const middle = plane.at((w0 + w1) / 2);
  const count = middle.length;
  const depth = (s: number) => (s <= 0 ? w0 : s >= 1 ? w1 : w0 + ((w1 - w0) * (1 - Math.cos(Math.PI * s))) / 2);
  const stretches = (s: number): Stretches | undefined => {
    const all = plane.at(depth(s));
    if (all.length === count) return all;
    // an end that only touches: from a hair inside
    const inside = s === 0 ? plane.at(depth(1e-7)) : s === 1 ? plane.at(depth(1 - 1e-7)) : undefined;
    return inside?.length === count ? inside : undefined;
  };
  let exact = true;
  for (let n = 0; n < count; n++) {
    const allowed = CURVE_SHARE * (plane.size + middle[n]![1] - middle[n]![0]);
    for (const side of [1, 0] as const) {
      const flank: Edge[] = [];
      const point = (s: number) => {
        const all = stretches(s);
        return all && plane.place(all[n]![side], depth(s));
      };
      for (const half of [0, 0.5]) exact = arcsAlong(point, half, half + 0.5, allowed, flank) && exact;
      out.push(...(side === 1 ? flank : flank.map(backwards)));
    }
  }
  spend(4 * out.length);
  return { w0, w1, first: stretches(0) ?? [], last: stretches(1) ?? [], exact };
}

/** Gaps and stretches shorter than this, mm, are rounding. */
const HAIR = 1e-10;

/** Adds the line at depth w wherever there is section only on one side of it. */
function levelOf(below: Stretches, above: Stretches, w: number, plane: Plane, out: Edge[]): void {
  const ends = [...below, ...above].flat().sort((a, b) => a - b);
  for (let n = 0; n + 1 < ends.length; n++) {
    const [a, b] = [ends[n]!, ends[n + 1]!];
    if (b - a <= HAIR) continue;
    const m = (a + b) / 2;
    const has = (all: Stretches) => all.some(([t0, t1]) => t0 < m && m < t1);
    const [under, over] = [has(below), has(above)];
    if (under === over) continue;
    const [p, q] = [plane.place(a, w), plane.place(b, w)];
    out.push(over ? line(p, q) : line(q, p));
  }
}
