/** A flat facet as triangles, from the edges round it. */
import type { Point2, Vec3 } from '../types';
import type { Stretches } from './facets';
import { Spots } from './spots';
import type { SweepOptions } from './sweep';

/** How much larger the triangles together may be than the outline, as a share. */
const OVERLAP = 1e-5;

/**
 * Nine numbers a triangle; they are the same for the same edges in whatever order. `normal` of any length. Undefined
 * where the edges do not close, or make no outline.
 */
export function filled(
  edges: Stretches,
  normal: Vec3,
  triangulate: SweepOptions['triangulate'],
): readonly number[] | undefined {
  const flat = flattened(normal);
  const loops = loopsOf(edges, flat);
  if (!loops) return undefined;
  if (loops.length === 0) return [];
  const polygons = loops.map((loop) => loop.map(flat));
  const points = loops.flat();
  const at = polygons.flat();
  const corners: number[] = [];
  let covered = 0;
  for (const triangle of triangulate(polygons)) {
    const [a, b, c] = triangle.map((i) => at[i]!) as [Point2, Point2, Point2];
    covered += Math.abs((b.u - a.u) * (c.v - a.v) - (c.u - a.u) * (b.v - a.v));
    for (const i of triangle) corners.push(...points[i]!);
  }
  const whole = polygons.reduce((sum, p) => sum + twiceArea(p), 0);
  return whole > 0 && Math.abs(covered - whole) <= OVERLAP * whole ? corners : undefined;
}

/** Onto the two axes that it lies in most, so that it stays the same way round and keeps its digits. */
function flattened(normal: Vec3): (p: Vec3) => Point2 {
  const size = normal.map(Math.abs);
  const w = size[0]! > size[1]! ? (size[0]! > size[2]! ? 0 : 2) : size[1]! > size[2]! ? 1 : 2;
  const [u, v] = [(w + 1) % 3, (w + 2) % 3];
  return normal[w]! > 0 ? (p) => ({ u: p[u]!, v: p[v]! }) : (p) => ({ u: p[v]!, v: p[u]! });
}

function twiceArea(polygon: readonly Point2[]): number {
  let sum = 0;
  let before = polygon.at(-1)!;
  for (const p of polygon) {
    sum += before.u * p.v - p.u * before.v;
    before = p;
  }
  return sum;
}

/** Closed ways along the edges; each begins at its least point, and they are in the order of those. */
function loopsOf(edges: Stretches, flat: (p: Vec3) => Point2): readonly (readonly Vec3[])[] | undefined {
  const spots = new Spots();
  const out: number[][] = [];
  for (let i = 0; i < edges.length; i += 6) {
    const [a, b] = [spots.of(edges, i), spots.of(edges, i + 3)];
    if (a === b) continue;
    out[a] ??= [];
    out[a].push(b);
  }
  const points = Array.from({ length: spots.count }, (_, s) => spots.at(s));
  const order = points.map((_, s) => s).sort((a, b) => compare(points[a]!, points[b]!));
  const loops: Vec3[][] = [];
  for (const start of order) {
    while (out[start]?.length) {
      const loop = walked(out, start, (s) => flat(points[s]!));
      if (!loop) return undefined;
      if (loop.length > 2) loops.push(loop.map((s) => points[s]!));
    }
  }
  return loops;
}

/** Takes a way back to where it starts out of those that lead on from each spot; undefined where it ends. */
function walked(out: readonly number[][], start: number, flat: (s: number) => Point2): readonly number[] | undefined {
  const loop: number[] = [];
  for (let at = start, from = -1; ; ) {
    loop.push(at);
    const ways = out[at] ?? [];
    const [to] = ways.splice(ways.length > 1 ? sharpest(ways, at, from, flat) : 0, 1);
    if (to === undefined) return undefined;
    if (to === start) return loop;
    from = at;
    at = to;
  }
}

/** Where outlines touch in a point: the way that turns most to the left, so that they stay apart. From nowhere: the least. */
function sharpest(ways: readonly number[], at: number, from: number, flat: (s: number) => Point2): number {
  const p = flat(at);
  const angleOf = (s: number) => Math.atan2(flat(s).v - p.v, flat(s).u - p.u);
  const back = from < 0 ? 0 : angleOf(from);
  const turn = (s: number) => (back - angleOf(s) + 4 * Math.PI) % (2 * Math.PI);
  // the first that is met turning clockwise from where it came is the last turning to the left
  const turns = ways.map((s) => turn(s) || 2 * Math.PI);
  return turns.indexOf(Math.min(...turns));
}

function compare(a: Vec3, b: Vec3): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
}
