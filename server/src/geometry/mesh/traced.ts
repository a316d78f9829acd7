/** The triangles of a built solid, each with the exact surface that it stands for. */
import { memo } from '../../memo';
import type { Vec3, Void } from '../types';
import type { Built, Origin } from './mesher';
import { Spots } from './spots';
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
  const spots = new Spots();
  const merged = Uint32Array.from({ length: at.length / numProp }, (_, v) => spots.of(at, v * numProp));
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
    spots: spots.count,
    point: (spot) => spots.at(spot),
  };
}

/** The surfaces met so far; equal ones of one member are one. */
export class SurfaceList {
  readonly list: ShownSurface[] = [];
  readonly #byKey = new Map<string, number>();

  /** The number of each of an origin's sides. */
  of({ void: of, sides }: Origin): (face: number) => number {
    const known: number[] = [];
    return (face) => {
      const { place, shape } = sides[face]!;
      known[face] ??= this.enter(of ? { of, place, shape } : { place, shape });
      return known[face]!;
    };
  }

  enter(surface: ShownSurface): number {
    const key = surfaceKey(surface);
    let at = this.#byKey.get(key);
    if (at === undefined) {
      at = this.list.length;
      this.list.push(surface);
      this.#byKey.set(key, at);
    }
    return at;
  }
}

/** The same for surfaces that are shown as one. */
function surfaceKey({ of, place, shape }: ShownSurface): string {
  return `${of?.feature ?? ''} ${of?.member ?? ''} ${of?.role ?? ''} ${place} ${keyOf(shape)}`;
}

const keyOf = memo((shape: ExactShape) =>
  JSON.stringify(shape, (_, x) => (typeof x === 'number' ? Math.round(x * 1e6) / 1e6 + 0 : x)),
);
