/**
 * A built solid as triangles to be shown: each with its surface, every vertex with that surface's own exact normal, and
 * the lines where surfaces meet at an angle.
 */
import type { Vec3, Void } from '../types';
import { dot } from '../vector';
import type { Built, Origin } from './mesher';
import { type ExactShape, normalAt, type Place } from './surface';

export interface ShownSurface {
  /** The volume that left it; absent for a face of the body. */
  readonly of?: Void;
  readonly place: Place;
  readonly shape: ExactShape;
}

/** Numbers as the view takes them: x, y, z; three vertices a triangle; two points an edge. */
export interface Shown {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
  readonly surfaceOf: Uint32Array;
  readonly edges: Float32Array;
  readonly surfaces: readonly ShownSurface[];
}

/** Surfaces whose normals differ by less than this (cosine) run into each other: no line is drawn. About 3°. */
const SMOOTH = 0.9986;

export function shown({ handle, origins }: Built): Shown {
  const mesh = handle.getMesh();
  const { vertProperties: at, numProp, runIndex, runOriginalID, faceID } = mesh;
  const merged = mergedVertices(mesh);
  const surfaces = new SurfaceList();
  const triVerts: number[] = [];
  const surfaceOf: number[] = [];
  for (let run = 0; run < runOriginalID.length; run++) {
    const origin = origins.get(runOriginalID[run]!);
    if (!origin) continue;
    const known = surfaces.of(origin);
    for (let t = runIndex[run]! / 3; t < runIndex[run + 1]! / 3; t++) {
      const [a, b, c] = [0, 1, 2].map((k) => merged[mesh.triVerts[3 * t + k]!]!) as [number, number, number];
      // thinner than single precision can tell: nothing to see
      if (a === b || b === c || c === a) continue;
      triVerts.push(a, b, c);
      surfaceOf.push(known(faceID[t]!));
    }
  }
  const count = surfaceOf.length;
  const point = (v: number): Vec3 => [at[v * numProp]!, at[v * numProp + 1]!, at[v * numProp + 2]!];
  const positions: number[] = [];
  const normals: number[] = [];
  const triangles = new Uint32Array(triVerts.length);
  const made = new Map<number, number>();
  const numVert = at.length / numProp;
  for (let t = 0; t < count; t++) {
    const s = surfaceOf[t]!;
    const { shape } = surfaces.list[s]!;
    for (let c = 0; c < 3; c++) {
      const v = triVerts[3 * t + c]!;
      const key = s * numVert + v;
      let vertex = made.get(key);
      if (vertex === undefined) {
        const p = point(v);
        const n = normalAt(shape, p);
        vertex = positions.length / 3;
        positions.push(...p);
        // at an apex each triangle keeps its own
        normals.push(...(n ?? normalAt(shape, middle(point, triVerts, t)) ?? [0, 0, 1]));
        if (n) made.set(key, vertex);
      }
      triangles[3 * t + c] = vertex;
    }
  }
  return {
    positions: Float32Array.from(positions),
    normals: Float32Array.from(normals),
    triangles,
    surfaceOf: Uint32Array.from(surfaceOf),
    edges: edgesOf(triVerts, numVert, surfaceOf, surfaces.list, point),
    surfaces: surfaces.list,
  };
}

/** The surfaces met so far; equal ones of one member are one. */
class SurfaceList {
  readonly list: ShownSurface[] = [];
  readonly #byKey = new Map<string, number>();

  /** The number of each of an origin's sides. */
  of({ void: of, sides }: Origin): (face: number) => number {
    const known: number[] = [];
    return (face) => {
      known[face] ??= this.#enter(of, sides[face]!);
      return known[face]!;
    };
  }

  #enter(of: Void | undefined, { place, shape }: Origin['sides'][number]): number {
    const key = `${of?.feature ?? ''} ${of?.member ?? ''} ${of?.role ?? ''} ${place} ${keyOf(shape)}`;
    let at = this.#byKey.get(key);
    if (at === undefined) {
      at = this.list.length;
      this.list.push(of ? { of, place, shape } : { place, shape });
      this.#byKey.set(key, at);
    }
    return at;
  }
}

function keyOf(shape: ExactShape): string {
  return JSON.stringify(shape, (_, x) => (typeof x === 'number' ? Math.round(x * 1e6) / 1e6 + 0 : x));
}

function middle(point: (v: number) => Vec3, triVerts: readonly number[], t: number): Vec3 {
  const [a, b, c] = [point(triVerts[3 * t]!), point(triVerts[3 * t + 1]!), point(triVerts[3 * t + 2]!)];
  return [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3];
}

/** For each vertex the first one on its spot, as single precision sees it. */
function mergedVertices({
  vertProperties: at,
  numProp,
}: {
  vertProperties: Float32Array;
  numProp: number;
}): Uint32Array {
  const count = at.length / numProp;
  const to = new Uint32Array(count);
  const bits = new Uint32Array(at.buffer, at.byteOffset, at.length);
  // a table of open addresses: a Map of strings would take longer than all the rest
  const size = 1 << Math.ceil(Math.log2(2 * count + 1));
  const table = new Int32Array(size).fill(-1);
  for (let v = 0; v < count; v++) {
    const i = v * numProp;
    let slot = hash(bits[i]!, bits[i + 1]!, bits[i + 2]!) & (size - 1);
    for (;;) {
      const other = table[slot]!;
      if (other < 0) {
        table[slot] = v;
        to[v] = v;
        break;
      }
      const k = other * numProp;
      if (at[k] === at[i] && at[k + 1] === at[i + 1] && at[k + 2] === at[i + 2]) {
        to[v] = other;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  return to;
}

/** −0 and 0 hash alike only after the sign is taken off; the grid has both. */
function hash(a: number, b: number, c: number): number {
  const n = Math.imul(a << 1, 0x9e3779b1) ^ Math.imul(b << 1, 0x85ebca6b) ^ Math.imul(c << 1, 0xc2b2ae35);
  return (n ^ (n >>> 15)) >>> 0;
}

function edgesOf(
  triVerts: readonly number[],
  n: number,
  surfaceOf: readonly number[],
  surfaces: readonly ShownSurface[],
  point: (v: number) => Vec3,
): Float32Array {
  const half = new Map<number, number>();
  const edges: number[] = [];
  for (let t = 0; t < surfaceOf.length; t++) {
    for (let c = 0; c < 3; c++) {
      const a = triVerts[3 * t + c]!;
      const b = triVerts[3 * t + ((c + 1) % 3)]!;
      const other = half.get(b * n + a);
      if (other === undefined) {
        half.set(a * n + b, t);
        continue;
      }
      half.delete(b * n + a);
      const [s, u] = [surfaceOf[t]!, surfaceOf[other]!];
      if (s === u) continue;
      const [p, q] = [point(a), point(b)];
      if (isSmooth(surfaces[s]!.shape, surfaces[u]!.shape, p, q)) continue;
      edges.push(...p, ...q);
    }
  }
  return Float32Array.from(edges);
}

function isSmooth(a: ExactShape, b: ExactShape, p: Vec3, q: Vec3): boolean {
  return [p, q].every((x) => {
    const [m, n] = [normalAt(a, x), normalAt(b, x)];
    return m !== undefined && n !== undefined && dot(m, n) > SMOOTH;
  });
}
