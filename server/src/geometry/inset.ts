/**
 * An outline moved inward (positive) or outward (negative) by a distance: the region of all points that deep inside,
 * which is what a round cutter, a drill's cone or a chamfer leaves. Outward corners turn into arcs.
 *
 * Every edge is moved sideways, arcs are put in where a corner opens, everything is split where it meets, and the
 * pieces that lie at the right depth are joined again. Undefined when they do not join up.
 */
import { chainLoops, regionsOfLoops } from './chain';
import { between, isFullCircle, lengthOf, paramOf, pointAt, tangentAt } from './edge';
import { depthInside } from './inside';
import { meet } from './intersect';
import { regionEdges } from './moments';
import { beside } from './path-outline';
import type { Edge, Loop, Point2, Region } from './types';

/** The inset region: none, one or several. */
export function insetRegion(region: Region, by: number): readonly Region[] | undefined {
  if (Math.abs(by) < 1e-12) return [region];
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
  const raw: Edge[] = [];
  let opens = false;
  for (const loop of [region.outer, ...region.holes]) opens = addMoved(loop, by, raw) || opens;
  const clean = convexCorners(region, by, opens);
  if (clean) return clean;
  return trim(raw, own, by);
}

/** Every edge moved sideways, an arc about every corner that opens. Tells whether any corner opened. */
function addMoved(loop: Loop, by: number, raw: Edge[]): boolean {
  let opens = false;
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    const moved = beside(e, by);
    if (moved) raw.push(moved);
    if (n === 1) continue;
    const next = loop.edges[(i + 1) % n]!;
    const t0 = tangentAt(e, e.b);
    const t1 = tangentAt(next, next.a);
    const turn = t0.u * t1.v - t0.v * t1.u;
    const ahead = t0.u * t1.u + t0.v * t1.v;
    // a corner opens on the side away from its turn; tangent joints stay joined
    if (Math.abs(turn) < 1e-9 && ahead > 0) continue;
    if (turn * by > 0 && Math.abs(turn) >= 1e-9) continue;
    opens = true;
    const a = { u: e.b.u - t0.v * by, v: e.b.v + t0.u * by };
    const b = { u: e.b.u - t1.v * by, v: e.b.v + t1.u * by };
    raw.push({ type: 'arc', a, b, centre: e.b, radius: Math.abs(by), ccw: by < 0 });
  }
  return opens;
}

/** The common, quick case: one loop with tangent joints only, nothing vanishing: the moved edges are the answer. */
function convexCorners(region: Region, by: number, opens: boolean): readonly Edge[] | undefined {
  if (opens || region.holes.length > 0 || by < 0) return undefined;
  const { edges } = region.outer;
  const moved: Edge[] = [];
  for (let i = 0; i < edges.length; i++) {
    const e = edges[i]!;
    const next = edges[(i + 1) % edges.length]!;
    const t0 = tangentAt(e, e.b);
    const t1 = tangentAt(next, next.a);
    if (Math.abs(t0.u * t1.v - t0.v * t1.u) > 1e-9 || (e.type === 'arc' && !e.ccw)) return undefined;
    const m = beside(e, by);
    if (!m) return undefined;
    moved.push(m);
  }
  // convex with round corners: nothing can cross as long as opposite sides do not pass each other
  for (const m of moved) {
    const p = pointAt(m, 0.5);
    if (depthInside(edges, p.u, p.v) < by - 1e-9) return undefined;
  }
  return moved;
}

function trim(raw: readonly Edge[], own: readonly Edge[], by: number): readonly Edge[] | undefined {
  const size = own.reduce((m, e) => Math.max(m, Math.abs(e.a.u), Math.abs(e.a.v)), 1);
  const tol = size * 1e-9;
  const kept: Edge[] = [];
  for (let i = 0; i < raw.length; i++) {
    const e = raw[i]!;
    const points: Point2[] = [];
    for (let k = 0; k < raw.length; k++) if (k !== i) meet(e, raw[k]!, tol, points);
    const cuts = points.map((p) => ({ t: paramOf(e, p.u, p.v), p })).sort((a, b) => a.t - b.t);
    let from = e.a;
    const stops = e.type === 'arc' && isFullCircle(e) && cuts.length > 0 ? [...cuts, cuts[0]!] : [...cuts];
    if (stops.length > cuts.length) from = cuts[0]!.p;
    else stops.push({ t: 1, p: e.b });
    if (e.type === 'arc' && isFullCircle(e) && cuts.length === 0) {
      if (deepEnough(e, own, by, tol)) kept.push(e);
      continue;
    }
    for (const s of stops) {
      if (Math.abs(s.p.u - from.u) <= tol && Math.abs(s.p.v - from.v) <= tol) continue;
      const piece = between(e, from, s.p);
      from = s.p;
      if (lengthOf(piece) > tol && deepEnough(piece, own, by, tol) && !twice(piece, kept, tol)) kept.push(piece);
    }
  }
  return kept;
}

function deepEnough(piece: Edge, own: readonly Edge[], by: number, tol: number): boolean {
  const p = pointAt(piece, 0.4637);
  return depthInside(own, p.u, p.v) >= by - 100 * tol;
}

function twice(piece: Edge, kept: readonly Edge[], tol: number): boolean {
  const p = pointAt(piece, 0.5);
  return kept.some((k) => {
    const q = pointAt(k, 0.5);
    return Math.abs(p.u - q.u) < 8 * tol && Math.abs(p.v - q.v) < 8 * tol;
  });
}
