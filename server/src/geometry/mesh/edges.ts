/** The part's own edges: where triangles of different surfaces meet, unless the surfaces run into each other. */
import type { Vec3 } from '../types';
import { dot } from '../vector';
import { eachEdge } from './half-edges';
import { type ExactShape, normalAt } from './surface';
import type { Traced } from './traced';

/** Surfaces whose normals differ by less than this (cosine) run into each other: no line is drawn. About 3°. */
const SMOOTH = 0.9986;

interface Edges {
  /** Two points a stretch, x, y, z each. */
  readonly edges: Float32Array;
  /** For each stretch the numbers of the two surfaces that meet in it. */
  readonly edgeOf: Uint32Array;
}

export function edgesOf({ count, corners, surfaceOf, surfaces, point }: Traced): Edges {
  const edges: number[] = [];
  const between: number[] = [];
  eachEdge(corners, count, (t, u, a, b) => {
    const [s, r] = [surfaceOf[t]!, surfaceOf[u]!];
    if (s === r) return;
    const [p, q] = [point(a), point(b)];
    if (isSmooth(surfaces[s]!.shape, surfaces[r]!.shape, p, q)) return;
    edges.push(p[0], p[1], p[2], q[0], q[1], q[2]);
    between.push(s, r);
  });
  return { edges: Float32Array.from(edges), edgeOf: Uint32Array.from(between) };
}

/** Whether they run into each other from p to q. */
export function isSmooth(a: ExactShape, b: ExactShape, p: Vec3, q: Vec3): boolean {
  // Most edges are between planes, or a plane and a bore square to it: told without looking at their points.
  if (a.type === 'plane' && b.type === 'plane') return dot(a.normal, b.normal) > SMOOTH;
  if (a.type === 'plane' && b.type === 'cylinder' && isAlong(a.normal, b.axis)) return false;
  if (b.type === 'plane' && a.type === 'cylinder' && isAlong(b.normal, a.axis)) return false;
  return alike(normalAt(a, p), normalAt(b, p)) && alike(normalAt(a, q), normalAt(b, q));
}

function isAlong(normal: Vec3, axis: Vec3): boolean {
  return Math.abs(dot(normal, axis)) > SMOOTH;
}

function alike(m: Vec3 | undefined, n: Vec3 | undefined): boolean {
  return m !== undefined && n !== undefined && dot(m, n) > SMOOTH;
}
