/**
 * An outline moved sideways edge by edge, with every edge knowing which of the old ones it was: what a wall that leans or
 * bends needs at its two ends. (The inset of the geometry answers a bare list of edges.)
 */
import { arc, isFullCircle, tangentAt } from '../../geometry/2d/edge';
import { cornerOf } from '../../geometry/2d/offset';
import type { Edge, Loop, Point2 } from '../../geometry/types';

/** Where each edge of a loop begins and ends once moved; edge for edge. */
export interface Rim {
  readonly by: number;
  readonly starts: readonly Point2[];
  readonly ends: readonly Point2[];
}

/** How the corner after each edge behaves when the outline moves that way (positive: inward). */
export function cornersOf(loop: Loop, way: number): readonly ('joined' | 'opens' | 'closes')[] {
  const n = loop.edges.length;
  return loop.edges.map((e, i) => (n === 1 ? 'joined' : cornerOf(e, loop.edges[(i + 1) % n]!, way)));
}

/** Corners that close must lie between two straight sides. `way` tells the direction where `by` is 0. */
export function rimAt(loop: Loop, by: number, way: number): Rim {
  const { edges } = loop;
  const n = edges.length;
  const corners = cornersOf(loop, way);
  const starts = edges.map((e) => beside(e, e.a, by));
  const ends = edges.map((e) => beside(e, e.b, by));
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    if (corners[i] === 'closes') ends[i] = starts[k] = mitre(edges[i]!, edges[k]!, by);
    // of a tangent pair the straight side says where they meet: an arc's ends are rounder numbers than its centre
    else if (corners[i] === 'joined' && n > 1) {
      if (edges[i]!.type === 'line') starts[k] = ends[i]!;
      else ends[i] = starts[k]!;
    }
  }
  return { by, starts, ends };
}

/** The moved outline as a loop, with the arcs that fill opened corners; undefined where nothing of it is left. */
export function rimLoop(loop: Loop, rim: Rim, way: number): Loop | undefined {
  const corners = cornersOf(loop, way);
  const out: Edge[] = [];
  loop.edges.forEach((e, i) => {
    const [a, b] = [rim.starts[i]!, rim.ends[i]!];
    if (e.type === 'line') {
      if (apart(a, b)) out.push({ type: 'line', a, b });
    } else if (isFullCircle(e)) {
      const radius = movedRadius(e, rim.by);
      if (radius > 0) out.push({ ...e, a, b: a, radius });
    } else if (apart(a, b)) out.push(arc(a, b, e.centre, e.ccw));
    const next = rim.starts[(i + 1) % loop.edges.length]!;
    if (corners[i] === 'opens' && apart(b, next)) out.push(arc(b, next, e.b, rim.by < 0));
  });
  return out.length > 0 ? { edges: out } : undefined;
}

/** An arc's radius once moved; 0 where it has come down to its centre. A circle of a hair's radius was meant as a point. */
export function movedRadius(e: Edge & { type: 'arc' }, by: number): number {
  const base = e.radius < HAIR_MM ? 0 : e.radius;
  const radius = e.ccw ? base - by : base + by;
  return radius < HAIR_MM ? 0 : radius;
}

export const HAIR_MM = 2e-6;

export function apart(a: Point2, b: Point2): boolean {
  return Math.hypot(a.u - b.u, a.v - b.v) > 1e-7;
}

/** Left of the direction of travel, a unit vector. */
export function leftOf(e: Edge, at: Point2): Point2 {
  const t = tangentAt(e, at);
  return { u: -t.v, v: t.u };
}

function beside(e: Edge, p: Point2, by: number): Point2 {
  if (e.type === 'arc') {
    const s = movedRadius(e, by) / e.radius;
    return { u: e.centre.u + (p.u - e.centre.u) * s, v: e.centre.v + (p.v - e.centre.v) * s };
  }
  const n = leftOf(e, p);
  return { u: p.u + n.u * by, v: p.v + n.v * by };
}

/** Where two moved straight sides meet: out along the bisector, by the distance over the sine of half the corner. */
function mitre(e: Edge, next: Edge, by: number): Point2 {
  const m = leftOf(e, e.b);
  const n = leftOf(next, next.a);
  const share = by / (1 + m.u * n.u + m.v * n.v);
  return { u: e.b.u + (m.u + n.u) * share, v: e.b.v + (m.v + n.v) * share };
}
