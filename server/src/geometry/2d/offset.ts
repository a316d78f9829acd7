/**
 * An outline moved inward (positive) or outward (negative) by a distance: the region of all points that deep inside,
 * which is what a round cutter, a drill's cone or a chamfer leaves. Outward corners turn into arcs.
 *
 * Every edge is moved sideways, arcs are put in where a corner opens, everything is split where it meets, and the
 * pieces that lie at the right depth are joined again. Undefined when they do not join up.
 */

import { DIGITS, ROUNDING } from '../../tolerance';
import type { Edge, Loop, Point2, Region } from '../types';
import { chainLoops, regionsOfLoops } from './assemble-loops';
import { between, isFullCircle, lengthOf, paramOf, pointAt, tangentAt } from './edge';
import { apart, sheetOf } from './indexed-region';
import { depthInside } from './inside';
import { meet } from './intersect';
import { regionEdges } from './moments';
import { beside } from './path-outline';

/** The inset region: none, one or several. */
export function insetRegion(region: Region, by: number): readonly Region[] | undefined {
  if (Math.abs(by) < DIGITS) return [region];
  const edges = insetEdges(region, by);
  if (!edges) return undefined;
  if (edges.length === 0) return [];
  const loops = chainLoops(edges);
  return loops && regionsOfLoops(loops);
}

/** The inset's boundary pieces, material on the left; joined or not. Undefined when it cannot be told. */
export function insetEdges(region: Region, by: number): readonly Edge[] | undefined {
  const own = regionEdges(region);
  if (by === 0) return own;
  const only = own.length === 1 ? own[0]! : undefined;
  if (only?.type === 'arc' && isFullCircle(only)) {
    const moved = beside(only, by);
    return moved ? [moved] : [];
  }
  const direct = directInset(region, by);
  if (direct && isClean(direct, own, by)) return direct;
  const raw: Edge[] = [];
  for (const loop of [region.outer, ...region.holes]) addMoved(loop, by, raw);
  return trim(raw, own, by);
}

/**
 * True when no edge vanishes or appears between the two insets, so that every inset between them is the edges moved
 * and cut at their corners. Sides move apart or together steadily, so both ends tell for all between.
 */
export function isSteady(region: Region, from: number, to: number): boolean {
  const own = regionEdges(region);
  return [from, to].every((by) => {
    if (by === 0) return true;
    const direct = directInset(region, by);
    return direct !== undefined && isClean(direct, own, by);
  });
}

/** How the corner after an edge behaves when both its edges move: they stay joined, draw apart, or overlap. */
export function cornerOf(e: Edge, next: Edge, by: number): 'joined' | 'opens' | 'closes' {
  const t0 = tangentAt(e, e.b);
  const t1 = tangentAt(next, next.a);
  const turn = t0.u * t1.v - t0.v * t1.u;
  if (Math.abs(turn) < ROUNDING && t0.u * t1.u + t0.v * t1.v > 0) return 'joined';
  return turn * by > 0 && Math.abs(turn) >= ROUNDING ? 'closes' : 'opens';
}

/** The arc that fills an opened corner. */
function filler(e: Edge, next: Edge, by: number): Edge {
  const t0 = tangentAt(e, e.b);
  const t1 = tangentAt(next, next.a);
  const a = { u: e.b.u - t0.v * by, v: e.b.v + t0.u * by };
  const b = { u: e.b.u - t1.v * by, v: e.b.v + t1.u * by };
  return { type: 'arc', a, b, centre: e.b, radius: Math.abs(by), ccw: by < 0 };
}

/** Every edge moved sideways, an arc about every corner that opens. */
function addMoved(loop: Loop, by: number, raw: Edge[]): void {
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    const next = loop.edges[(i + 1) % n]!;
    const moved = beside(e, by);
    if (moved) raw.push(moved);
    if (n > 1 && cornerOf(e, next, by) === 'opens') raw.push(filler(e, next, by));
  }
}

/** The usual case: each moved edge is cut where it meets the next. Undefined as soon as one vanishes or turns round. */
export function directInset(region: Region, by: number): Edge[] | undefined {
  const out: Edge[] = [];
  for (const { edges } of [region.outer, ...region.holes]) {
    const loop = directLoop(edges, by);
    if (!loop) return undefined;
    out.push(...loop);
  }
  return out;
}

function directLoop(edges: readonly Edge[], by: number): readonly Edge[] | undefined {
  const n = edges.length;
  const moved: Edge[] = [];
  for (const e of edges) {
    const m = beside(e, by);
    if (!m) return undefined;
    moved.push(m);
  }
  if (n === 1) return moved;
  const starts = moved.map((m) => m.a);
  const ends = moved.map((m) => m.b);
  const fillers: (Edge | undefined)[] = [];
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const corner = cornerOf(edges[i]!, edges[k]!, by);
    if (corner === 'opens') {
      fillers[i] = { ...filler(edges[i]!, edges[k]!, by), a: ends[i]!, b: starts[k]! };
    } else if (corner === 'closes') {
      const p = crossing(moved[i]!, moved[k]!, edges[i]!.b);
      if (!p) return undefined;
      ends[i] = p;
      starts[k] = p;
    } else starts[k] = ends[i]!;
  }
  const out: Edge[] = [];
  for (let i = 0; i < n; i++) {
    const [m, a, b] = [moved[i]!, starts[i]!, ends[i]!];
    if (paramOf(m, b.u, b.v) <= paramOf(m, a.u, a.v) && a !== b) return undefined;
    out.push(between(m, a, b));
    if (fillers[i]) out.push(fillers[i]!);
  }
  return out;
}

/** Where two moved neighbours meet, nearest to their old corner. */
function crossing(e: Edge, f: Edge, corner: Point2): Point2 | undefined {
  const points: Point2[] = [];
  meet(e, f, 1e-10, points);
  let best: Point2 | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const p of points) {
    const d = (p.u - corner.u) ** 2 + (p.v - corner.v) ** 2;
    if (d < least) {
      least = d;
      best = p;
    }
  }
  return best;
}

/** No two edges of it cross, and each lies as deep as it should. */
function isClean(edges: readonly Edge[], own: readonly Edge[], by: number): boolean {
  for (const e of edges) {
    const p = pointAt(e, 0.4637);
    if (Math.abs(depthInside(own, p.u, p.v) - by) > 1e-8) return false;
  }
  const { rects } = sheetOf(edges);
  const points: Point2[] = [];
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    for (let k = i + 1; k < edges.length; k++) {
      const f = edges[k]!;
      if (apart(rects[i]!, rects[k]!, ROUNDING)) continue;
      points.length = 0;
      meet(e, f, 1e-10, points);
      // neighbours share an end and nothing else
      if (points.some((p) => !(same(p, e.a) || same(p, e.b)) || !(same(p, f.a) || same(p, f.b)))) return false;
    }
  }
  return true;
}

function same(p: Point2, q: Point2): boolean {
  return Math.abs(p.u - q.u) < 1e-7 && Math.abs(p.v - q.v) < 1e-7;
}

function trim(raw: readonly Edge[], own: readonly Edge[], by: number): readonly Edge[] | undefined {
  const size = own.reduce((m, e) => Math.max(m, Math.abs(e.a.u), Math.abs(e.a.v)), 1);
  const tol = size * 1e-10;
  const kept: Edge[] = [];
  const { rects } = sheetOf(raw);
  for (let i = 0; i < raw.length; i++) {
    const e = raw[i]!;
    const points: Point2[] = [];
    for (let k = 0; k < raw.length; k++)
      if (k !== i && !apart(rects[i]!, rects[k]!, tol)) meet(e, raw[k]!, tol, points);
    const cuts = points.map((p) => ({ t: paramOf(e, p.u, p.v), p })).sort((a, b) => a.t - b.t);
    let from = e.a;
    const stops = e.type === 'arc' && isFullCircle(e) && cuts.length > 0 ? [...cuts, cuts[0]!] : [...cuts];
    if (stops.length > cuts.length) from = cuts[0]!.p;
    else stops.push({ t: 1, p: e.b });
    if (e.type === 'arc' && isFullCircle(e) && cuts.length === 0) {
      if (asDeep(e, own, by, tol)) kept.push(e);
      continue;
    }
    for (const s of stops) {
      if (Math.abs(s.p.u - from.u) <= tol && Math.abs(s.p.v - from.v) <= tol) continue;
      const piece = between(e, from, s.p);
      from = s.p;
      if (lengthOf(piece) > tol && asDeep(piece, own, by, tol) && !twice(piece, kept, tol)) kept.push(piece);
    }
  }
  return kept;
}

/** Outward pieces may lie too deep, inward ones not deep enough: some other edge is nearer than their own. */
function asDeep(piece: Edge, own: readonly Edge[], by: number, tol: number): boolean {
  const p = pointAt(piece, 0.4637);
  return Math.abs(depthInside(own, p.u, p.v) - by) <= 100 * tol;
}

function twice(piece: Edge, kept: readonly Edge[], tol: number): boolean {
  const p = pointAt(piece, 0.5);
  return kept.some((k) => {
    const q = pointAt(k, 0.5);
    return Math.abs(p.u - q.u) < 8 * tol && Math.abs(p.v - q.v) < 8 * tol;
  });
}
