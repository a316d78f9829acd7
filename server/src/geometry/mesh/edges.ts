/** The part's own edges: where triangles of different surfaces meet, unless the surfaces run into each other. */
import type { Vec3 } from '../types';
import { dot } from '../vector';
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
  // half edges that wait for their other half, in a table of open addresses
  const size = 1 << Math.ceil(Math.log2(6 * count + 2));
  const mask = size - 1;
  const from = new Int32Array(size).fill(-1);
  const to = new Int32Array(size);
  const triangle = new Int32Array(size);
  for (let t = 0; t < count; t++) {
    for (let c = 0; c < 3; c++) {
      const a = corners[3 * t + c]!;
      const b = corners[3 * t + (c === 2 ? 0 : c + 1)]!;
      const [low, high] = a < b ? [a, b] : [b, a];
      const h = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
      let slot = (h ^ (h >>> 15)) & mask;
      while (from[slot] !== -1 && !(from[slot] === low && to[slot] === high)) slot = (slot + 1) & mask;
      if (from[slot] === -1 || triangle[slot] === -1) {
        from[slot] = low;
        to[slot] = high;
        triangle[slot] = t;
        continue;
      }
      const s = surfaceOf[t]!;
      const u = surfaceOf[triangle[slot]!]!;
      triangle[slot] = -1;
      if (s === u) continue;
      const [p, q] = [point(a), point(b)];
      if (isSmooth(surfaces[s]!.shape, surfaces[u]!.shape, p, q)) continue;
      edges.push(p[0], p[1], p[2], q[0], q[1], q[2]);
      between.push(s, u);
    }
  }
  return { edges: Float32Array.from(edges), edgeOf: Uint32Array.from(between) };
}

function isSmooth(a: ExactShape, b: ExactShape, p: Vec3, q: Vec3): boolean {
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
