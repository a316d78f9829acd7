/**
 * A swept outline cut by a plane normal to a part axis: the flat region it shows there, as a sheet in the plane's
 * coordinates (the two axes after the cut one, in turn). Exact where the plane is square to the sweep or contains its
 * direction and the sides are straight; a cone cut off its axis is a fine polygon and says so.
 */
import { isFullCircle, line, reversedEdge } from './edge';
import { directInset, insetEdges, isSteady } from './inset';
import { windingOf } from './inside';
import { momentsOf, regionEdges } from './moments';
import { mapEdge, type PlaneMap } from './plane-map';
import { insetAt, type Prism } from './prism';
import { obliqueSection } from './section-oblique';
import { type Sheet, sheetOf } from './sheet';
import type { ArcEdge, Edge, Point2, Region } from './types';
import type { AxisIndex } from './vector';

export interface Section {
  readonly sheet: Sheet;
  readonly exact: boolean;
}

export const EMPTY: Section = { sheet: sheetOf([]), exact: true };
/** Layers a tapered volume is cut into where no closed form is used. */
const LAYERS = 20;

/** How a prism stands to an axis: `along` it, `across` (its sweep lies in the plane) or `oblique`. */
export function standing(p: Prism, axis: AxisIndex): 'along' | 'across' | 'oblique' {
  const w = Math.abs(p.frame.w[axis]);
  return w > 1 - 1e-12 ? 'along' : w < 1e-12 ? 'across' : 'oblique';
}

/** Prisms whose sections are their outline's edges, moved, at every depth. */
const steady = new WeakMap<Prism, boolean>();
const flats = new WeakMap<Prism, (Section | undefined)[]>();

/** The section of a prism at `at` mm along the axis. */
export function sectionOf(p: Prism, axis: AxisIndex, at: number): Section {
  const stands = standing(p, axis);
  if (stands === 'along') {
    const w = (at - p.frame.origin[axis]) * p.frame.w[axis];
    if (w < p.from || w > p.to) return EMPTY;
    const inset = insetAt(p, w);
    if (inset !== 0) return alongAt(p, axis, inset);
    let kept = flats.get(p);
    if (!kept) {
      kept = [];
      flats.set(p, kept);
    }
    let flat = kept[axis];
    if (!flat) {
      flat = alongAt(p, axis, 0);
      kept[axis] = flat;
    }
    return flat;
  }
  return stands === 'across' ? acrossAt(p, axis, at) : obliqueSection(p, axis, at, LAYERS);
}

function alongAt(p: Prism, axis: AxisIndex, inset: number): Section {
  const map = planeMap(p, axis);
  let plain = steady.get(p);
  if (plain === undefined) {
    plain = p.region.outer.edges.length > 1 && isSteady(p.region, insetAt(p, p.from), insetAt(p, p.to));
    steady.set(p, plain);
  }
  const edges = (plain && inset !== 0 && directInset(p.region, inset)) || insetEdges(p.region, inset);
  // an outline too tangled to move: the unmoved one, and it is said
  const used = edges ?? regionEdges(p.region);
  return { sheet: sheetOf(used.map((e) => mapEdge(map, e))), exact: edges !== undefined };
}

/** From the prism's (u, v) to the plane's coordinates, for a prism along the axis. */
function planeMap(p: Prism, axis: AxisIndex): PlaneMap {
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const { origin, u, v } = p.frame;
  return { uu: u[i], uv: v[i], vu: u[k], vv: v[k], u0: origin[i], v0: origin[k] };
}

function acrossAt(p: Prism, axis: AxisIndex, at: number): Section {
  const { frame, profile } = p;
  const nu = frame.u[axis];
  const nv = frame.v[axis];
  const d = at - frame.origin[axis];
  const edges: Edge[] = [];
  const strip = (t0: number, t1: number, w0: number, w1: number, s0 = t0, s1 = t1) => {
    quad(p, axis, d, [t0, w0], [t1, w0], [s1, w1], [s0, w1], edges);
  };
  if (profile.type === 'straight') {
    for (const [t0, t1] of chords(regionEdges(p.region), nu, nv, d)) strip(t0, t1, p.from, p.to);
    return edges.length === 0 ? EMPTY : { sheet: sheetOf(edges), exact: true };
  }
  const only = p.region.outer.edges[0]!;
  if (only.type === 'arc' && isFullCircle(only) && p.region.holes.length === 0) {
    return turnedAt(p, only, axis, d);
  }
  let start = p.from;
  if (profile.type === 'floor') {
    start = p.to - profile.radius;
    for (const [t0, t1] of chords(regionEdges(p.region), nu, nv, d)) if (start > p.from) strip(t0, t1, p.from, start);
  }
  for (let n = 0; n < LAYERS; n++) {
    const w0 = start + ((p.to - start) * n) / LAYERS;
    const w1 = start + ((p.to - start) * (n + 1)) / LAYERS;
    for (const [t0, t1] of layerChords(p.region, insetAt(p, (w0 + w1) / 2), nu, nv, d)) strip(t0, t1, w0, w1);
  }
  return edges.length === 0 ? EMPTY : { sheet: sheetOf(edges, true), exact: false };
}

/** A turned shape (cone, bowl) cut beside its axis: one polygon along its two flanks. */
function turnedAt(p: Prism, circle: ArcEdge, axis: AxisIndex, d: number): Section {
  const nu = p.frame.u[axis];
  const nv = p.frame.v[axis];
  const off = Math.abs(d - circle.centre.u * nu - circle.centre.v * nv);
  const half = (w: number) => {
    const r = circle.radius - insetAt(p, w);
    return r > off ? Math.sqrt(r * r - off * off) : 0;
  };
  // the stretch of depth in which it is cut at all
  let [low, high] = [p.from, p.to];
  if (half(low) === 0 && half(high) === 0) return EMPTY;
  const edge = (cut: number, bare: number) => {
    let [a, b] = [cut, bare];
    for (let n = 0; n < 50 && Math.abs(b - a) > 1e-12; n++) {
      const m = (a + b) / 2;
      if (half(m) > 0) a = m;
      else b = m;
    }
    return a;
  };
  if (half(high) === 0) high = edge(low, high);
  else if (half(low) === 0) low = edge(high, low);
  if (high - low < 1e-9) return EMPTY;
  const foot = -circle.centre.u * nv + circle.centre.v * nu;
  const corners: Corner[] = [];
  for (let n = 0; n <= LAYERS; n++) {
    const w = low + ((high - low) * (1 - Math.cos((Math.PI * n) / LAYERS))) / 2;
    corners.push([foot + half(w), w]);
  }
  for (let n = LAYERS; n >= 0; n--) {
    const [t, w] = corners[n]!;
    corners.push([2 * foot - t, w]);
  }
  const points = corners.map((c) => placeOf(p, axis, d, c));
  const apart = points.filter((q, n) => {
    const next = points[(n + 1) % points.length]!;
    return Math.abs(q.u - next.u) > 1e-9 || Math.abs(q.v - next.v) > 1e-9;
  });
  if (apart.length < 3) return EMPTY;
  const edges = apart.map((q, n) => line(q, apart[(n + 1) % apart.length]!));
  return { sheet: sheetOf(momentsOf(edges).area < 0 ? edges.map(reversedEdge) : edges), exact: false };
}

function layerChords(region: Region, inset: number, nu: number, nv: number, d: number): [number, number][] {
  const edges = insetEdges(region, inset);
  return edges ? chords(edges, nu, nv, d) : [];
}

/** The stretches of the line `nu·u + nv·v = d` inside the edges, by the distance t along (−nv, nu). */
export function chords(edges: readonly Edge[], nu: number, nv: number, d: number): [number, number][] {
  const ts: number[] = [];
  for (const e of edges) {
    if (e.type === 'line') {
      const ha = e.a.u * nu + e.a.v * nv - d;
      const hb = e.b.u * nu + e.b.v * nv - d;
      if (ha > 0 === hb > 0) continue;
      const s = ha / (ha - hb);
      ts.push(-(e.a.u + (e.b.u - e.a.u) * s) * nv + (e.a.v + (e.b.v - e.a.v) * s) * nu);
      continue;
    }
    const off = e.centre.u * nu + e.centre.v * nv - d;
    const h2 = e.radius * e.radius - off * off;
    if (h2 <= 0) continue;
    const foot = -e.centre.u * nv + e.centre.v * nu;
    const h = Math.sqrt(h2);
    ts.push(foot - h, foot + h); // points off the sweep only cut a stretch in two
  }
  ts.sort((a, b) => a - b);
  const out: [number, number][] = [];
  for (let n = 0; n + 1 < ts.length; n++) {
    const t0 = ts[n]!;
    const t1 = ts[n + 1]!;
    if (t1 - t0 < 1e-12) continue;
    const m = (t0 + t1) / 2;
    if (windingOf(edges, d * nu - m * nv, d * nv + m * nu) === 0) continue;
    const last = out[out.length - 1];
    if (last && t0 - last[1] < 1e-12) last[1] = t1;
    else out.push([t0, t1]);
  }
  return out;
}

type Corner = readonly [t: number, w: number];

/** A corner given by chord distance and depth, in the plane. */
function placeOf(p: Prism, axis: AxisIndex, d: number, [t, along]: Corner): Point2 {
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const { origin, u, v, w } = p.frame;
  const pu = d * u[axis] - t * v[axis];
  const pv = d * v[axis] + t * u[axis];
  return { u: origin[i] + pu * u[i] + pv * v[i] + along * w[i], v: origin[k] + pu * u[k] + pv * v[k] + along * w[k] };
}

/** Adds the four sides of a quadrilateral given by chord distance and depth, counter-clockwise in the plane. */
function quad(p: Prism, axis: AxisIndex, d: number, a: Corner, b: Corner, c: Corner, e: Corner, out: Edge[]): void {
  const [pa, pb, pc, pe] = [
    placeOf(p, axis, d, a),
    placeOf(p, axis, d, b),
    placeOf(p, axis, d, c),
    placeOf(p, axis, d, e),
  ];
  const area = (pb.u - pa.u) * (pe.v - pa.v) - (pe.u - pa.u) * (pb.v - pa.v);
  if (area > 0) out.push(line(pa, pb), line(pb, pc), line(pc, pe), line(pe, pa));
  else out.push(line(pa, pe), line(pe, pc), line(pc, pb), line(pb, pa));
}
