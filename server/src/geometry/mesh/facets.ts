/**
 * The body as flat facets, each a face of its own for the library: so what is left of each after a cut can be told. A flat
 * side is one facet, a bent one has many.
 */
import type { Box, Vec3 } from '../types';
import { cross, dot, length, sub } from '../vector';
import { eachEdge } from './half-edges';
import type { Kernel, Manifold } from './handles';
import type { Base, Origin } from './mesher';
import { Spots } from './spots';
import { type ShownSurface, SurfaceList } from './traced';

/** Edges as points: six numbers a stretch, walked with its facet on the left. */
export type Stretches = readonly number[];

export interface Facet {
  /** Its number in the list of surfaces. */
  readonly surface: number;
  readonly box: Box;
  /** Nine numbers a triangle. */
  readonly corners: readonly number[];
  /** Its edges by the facet on their other side. */
  readonly seams: ReadonlyMap<number, Stretches>;
}

export interface Facets {
  /** Its triangles answer to `id`, and say their facet. */
  readonly handle: Manifold;
  readonly id: number;
  readonly surfaces: readonly ShownSurface[];
  readonly facets: readonly Facet[];
}

/** Cosine between neighbours in one flat piece of a bent side; the chords of a bend turn a hundred times as much. */
const FLAT = 1 - 1e-8;

/** The handle is whoever's asks. Undefined where the library does not take it. */
export function facetsOf(kernel: Kernel, { handle: whole, origins }: Base): Facets | undefined {
  const mesh = whole.getMesh();
  const id = kernel.Manifold.reserveIDs(1);
  const { surfaces, facetOf, surfaceOf } = numbered(mesh, origins);
  const again = new kernel.Mesh({
    numProp: 3,
    vertProperties: threeEach(mesh),
    triVerts: mesh.triVerts,
    mergeFromVert: mesh.mergeFromVert,
    mergeToVert: mesh.mergeToVert,
    faceID: facetOf,
    runOriginalID: Uint32Array.of(id),
    runIndex: Uint32Array.of(0, mesh.triVerts.length),
  });
  let handle: Manifold;
  try {
    handle = new kernel.Manifold(again);
  } catch {
    return undefined;
  }
  if (handle.status() === 'NoError') return { handle, id, surfaces, facets: collected(handle, surfaceOf) };
  handle.delete();
  return undefined;
}

type Mesh = ReturnType<Manifold['getMesh']>;

function threeEach({ vertProperties, numProp }: Mesh): Float32Array {
  if (numProp === 3) return vertProperties;
  return Float32Array.from({ length: (vertProperties.length / numProp) * 3 }, (_, i) => {
    return vertProperties[Math.floor(i / 3) * numProp + (i % 3)]!;
  });
}

/** Runs of triangles in the order of what they answer to, whichever was drawn first. */
export function* runsOf(
  { runIndex, runOriginalID }: Mesh,
  origins: Iterable<readonly [number, Origin]>,
): Iterable<{ readonly id: number; readonly origin: Origin; readonly from: number; readonly to: number }> {
  for (const [id, origin] of origins)
    for (let run = 0; run < runOriginalID.length; run++)
      if (runOriginalID[run] === id) yield { id, origin, from: runIndex[run]! / 3, to: runIndex[run + 1]! / 3 };
}

interface Numbered {
  readonly surfaces: readonly ShownSurface[];
  /** Of each triangle. */
  readonly facetOf: Uint32Array;
  /** Of each facet. */
  readonly surfaceOf: readonly number[];
}

function numbered(mesh: Mesh, origins: Base['origins']): Numbered {
  const { triVerts, vertProperties: at, numProp, faceID } = mesh;
  const count = triVerts.length / 3;
  const surfaces = new SurfaceList();
  const surface = new Int32Array(count).fill(-1);
  const order: number[] = [];
  for (const { origin, from, to } of runsOf(mesh, origins)) {
    const known = surfaces.of(origin);
    for (let t = from; t < to; t++) {
      surface[t] = known(faceID[t]!);
      order.push(t);
    }
  }
  const spots = new Spots();
  const corners = triVerts.map((v) => spots.of(at, v * numProp));
  const group = Int32Array.from({ length: count }, (_, t) => t);
  const rootOf = (t: number): number => {
    while (group[t] !== t) {
      group[t] = group[group[t]!]!;
      t = group[t]!;
    }
    return t;
  };
  const normal = (t: number) => normalOf([0, 1, 2].map((k) => spots.at(corners[3 * t + k]!)));
  eachEdge(corners, count, (t, u) => {
    if (surface[t] !== surface[u] || surface[t]! < 0) return;
    if (surfaces.list[surface[t]!]!.shape.type === 'plane') return;
    const [n, m] = [normal(t), normal(u)];
    if (n && m && dot(n, m) > FLAT) group[rootOf(t)] = rootOf(u);
  });
  const facetOf = new Uint32Array(count);
  const surfaceOf: number[] = [];
  const numbers = new Map<string, number>();
  for (const t of order) {
    const s = surface[t]!;
    const key = surfaces.list[s]!.shape.type === 'plane' ? `${s}` : `${s} ${rootOf(t)}`;
    let known = numbers.get(key);
    if (known === undefined) {
      known = surfaceOf.push(s) - 1;
      numbers.set(key, known);
    }
    facetOf[t] = known;
  }
  return { surfaces: surfaces.list, facetOf, surfaceOf };
}

function normalOf(points: readonly Vec3[]): Vec3 | undefined {
  const n = cross(sub(points[1]!, points[0]!), sub(points[2]!, points[0]!));
  const l = length(n);
  return l > 0 ? [n[0] / l, n[1] / l, n[2] / l] : undefined;
}

function collected(handle: Manifold, surfaceOf: readonly number[]): readonly Facet[] {
  const { triVerts, vertProperties: at, numProp, faceID } = handle.getMesh();
  const spots = new Spots();
  const corners = triVerts.map((v) => spots.of(at, v * numProp));
  const made = surfaceOf.map((surface) => ({
    surface,
    box: { min: [Infinity, Infinity, Infinity], max: [-Infinity, -Infinity, -Infinity] },
    corners: [] as number[],
    seams: new Map<number, number[]>(),
  }));
  for (let t = 0; t < faceID.length; t++) {
    const facet = made[faceID[t]!]!;
    for (let k = 0; k < 3; k++) {
      const p = spots.at(corners[3 * t + k]!);
      facet.corners.push(...p);
      for (const a of [0, 1, 2] as const) {
        facet.box.min[a] = Math.min(facet.box.min[a]!, p[a]);
        facet.box.max[a] = Math.max(facet.box.max[a]!, p[a]);
      }
    }
  }
  eachEdge(corners, faceID.length, (t, u, a, b) => {
    const [f, g] = [faceID[t]!, faceID[u]!];
    if (f === g) return;
    const [p, q] = [spots.at(a), spots.at(b)];
    stretch(made[f]!.seams, g).push(...p, ...q);
    stretch(made[g]!.seams, f).push(...q, ...p);
  });
  return made as unknown as readonly Facet[];
}

/** The stretches beside one neighbour. */
export function stretch(seams: Map<number, number[]>, beside: number): number[] {
  let known = seams.get(beside);
  if (!known) {
    known = [];
    seams.set(beside, known);
  }
  return known;
}
