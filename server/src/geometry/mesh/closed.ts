/** A solid as one closed mesh and no more: corners on one spot are one. */
import type { BodyShape, Void } from '../types';
import type { Kernel } from './handles';
import { Mesher } from './mesher';
import { traced } from './traced';

export interface ClosedMesh {
  /** x, y, z of each corner, mm. */
  readonly points: Float32Array;
  /** Three corners a triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
  /** Lumps of material. */
  readonly pieces: number;
  /** Of the voids those that could not be drawn. */
  readonly missing: readonly number[];
}

/** Made from nothing and not kept. `chordMm`: how far a chord may stray from its arc. Undefined without a body. */
export function closedMesh(
  kernel: Kernel,
  body: BodyShape,
  voids: readonly Void[],
  chordMm: number,
): ClosedMesh | undefined {
  const mesher = new Mesher(kernel, { chordMm });
  try {
    const built = mesher.build(body, voids);
    if (!built) return undefined;
    const pieces = built.handle.decompose();
    for (const p of pieces) p.delete();
    const missing = built.missing.map((v) => voids.indexOf(v));
    return { ...numbered(traced(built)), pieces: pieces.length, missing };
  } finally {
    mesher.dispose();
  }
}

function numbered({ corners, spots, point }: ReturnType<typeof traced>): Pick<ClosedMesh, 'points' | 'triangles'> {
  const number = new Int32Array(spots).fill(-1);
  const points: number[] = [];
  const triangles = corners.map((corner) => {
    if (number[corner]! < 0) {
      number[corner] = points.length / 3;
      points.push(...point(corner));
    }
    return number[corner]!;
  });
  return { points: Float32Array.from(points), triangles };
}
