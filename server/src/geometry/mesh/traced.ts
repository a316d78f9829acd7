/** The triangles of a built solid, each with the exact surface that it stands for. */
import { memo } from '../../memo';
import type { Vec3, Void } from '../types';
import type { Built, Origin } from './mesher';
import type { ExactShape, Place } from './surface';

export interface ShownSurface {
  /** The volume that left it; absent for a face of the body. */
  readonly of?: Void;
  readonly place: Place;
  readonly shape: ExactShape;
}

/** The triangles by their corners' numbers; corners on one spot are one. */
export interface Traced {
  readonly count: number;
  readonly corners: Uint32Array;
  readonly surfaceOf: Uint32Array;
  readonly surfaces: readonly ShownSurface[];
  readonly spots: number;
  point(corner: number): Vec3;
}

/** Every triangle traced to its surface. Those thinner than single precision can tell are left out. */
export function traced({ handle, origins }: Built): Traced {
  const mesh = handle.getMesh();
  const { vertProperties: at, numProp, triVerts, runIndex, runOriginalID, faceID } = mesh;
  const merged = mergedVertices(at, numProp);
  const surfaces = new SurfaceList();
  const corners = new Uint32Array(triVerts.length);
  const surfaceOf = new Uint32Array(triVerts.length / 3);
  let count = 0;
  for (let run = 0; run < runOriginalID.length; run++) {
    const origin = origins.get(runOriginalID[run]!);
    if (!origin) continue;
    const known = surfaces.of(origin);
    for (let t = runIndex[run]! / 3; t < runIndex[run + 1]! / 3; t++) {
      const a = merged[triVerts[3 * t]!]!;
      const b = merged[triVerts[3 * t + 1]!]!;
      const c = merged[triVerts[3 * t + 2]!]!;
      if (a === b || b === c || c === a) continue;
      corners[3 * count] = a;
      corners[3 * count + 1] = b;
      corners[3 * count + 2] = c;
      surfaceOf[count++] = known(faceID[t]!);
    }
  }
  return {
    count,
    corners: corners.subarray(0, 3 * count),
    surfaceOf: surfaceOf.slice(0, count),
    surfaces: surfaces.list,
    spots: merged.length,
    point: (v) => [at[v * numProp]!, at[v * numProp + 1]!, at[v * numProp + 2]!],
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

const keyOf = memo((shape: ExactShape) =>
  JSON.stringify(shape, (_, x) => (typeof x === 'number' ? Math.round(x * 1e6) / 1e6 + 0 : x)),
);

/** For each vertex the first one on its spot, as single precision sees it. */
function mergedVertices(at: Float32Array, numProp: number): Uint32Array {
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

/** −0 and 0 are one spot: the sign is left out. */
function hash(a: number, b: number, c: number): number {
  const n = Math.imul(a << 1, 0x9e3779b1) ^ Math.imul(b << 1, 0x85ebca6b) ^ Math.imul(c << 1, 0xc2b2ae35);
  return (n ^ (n >>> 15)) >>> 0;
}
