/** Two solids laid upon each other: the material that only the first has, and that only the second has. */
import type { BodyShape, Vec3, Void } from '../types';
import type { AxisIndex } from '../vector';
import type { Kernel, Manifold } from './handles';
import { Mesher } from './mesher';

export interface SolidShape {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
}

/** Material as closed meshes. */
export interface Lumps {
  /** x, y, z of each corner, mm. */
  readonly points: Float32Array;
  /** Three corners a triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
  readonly volumeMm3: number;
  /** The box round each lump, the largest first. */
  readonly boxes: readonly { readonly min: Vec3; readonly max: Vec3 }[];
  /** As seen along x, y and z: outlines in the two axes after that one, holes the other way round. */
  readonly shadows: readonly [Outlines, Outlines, Outlines];
}
type Outlines = readonly (readonly (readonly [number, number])[])[];

export interface Differing {
  readonly went: Lumps;
  readonly came: Lumps;
}

/** Undefined where one of them has no body. What is thinner than `chordMm` is of the drawing, not of the parts. */
export function differing(
  kernel: Kernel,
  before: SolidShape,
  after: SolidShape,
  chordMm: number,
): Differing | undefined {
  const meshers = [new Mesher(kernel, { chordMm }), new Mesher(kernel, { chordMm })] as const;
  try {
    const a = meshers[0].build(before.body, before.voids)?.handle;
    const b = meshers[1].build(after.body, after.voids)?.handle;
    if (!a || !b) return undefined;
    return { went: lumpsOf(kernel, a.subtract(b), chordMm), came: lumpsOf(kernel, b.subtract(a), chordMm) };
  } finally {
    for (const m of meshers) m.dispose();
  }
}

/** The handle is given up. */
function lumpsOf(kernel: Kernel, whole: Manifold, chordMm: number): Lumps {
  const pieces = whole.decompose();
  whole.delete();
  const thick = pieces.filter((p) => thickness(p) > chordMm).sort((p, q) => q.volume() - p.volume());
  const kept = kernel.Manifold.compose(thick);
  try {
    const { vertProperties, numProp, triVerts } = kept.getMesh();
    const points = new Float32Array((vertProperties.length / numProp) * 3);
    for (let i = 0; i < points.length; i++) points[i] = vertProperties[Math.floor(i / 3) * numProp + (i % 3)]!;
    return {
      points,
      triangles: Uint32Array.from(triVerts),
      volumeMm3: kept.volume(),
      boxes: thick.map((p) => p.boundingBox()).map(({ min, max }) => ({ min: min as Vec3, max: max as Vec3 })),
      shadows: [shadow(kept, 0), shadow(kept, 1), shadow(kept, 2)],
    };
  } finally {
    kept.delete();
    for (const p of pieces) p.delete();
  }
}

/** Of a plate or a shell its own thickness; of other lumps less than that. */
function thickness(lump: Manifold): number {
  return (2 * lump.volume()) / Math.max(lump.surfaceArea(), Number.MIN_VALUE);
}

/** Turned so that the axis looked along points up. */
function shadow(lump: Manifold, axis: AxisIndex): Outlines {
  const column = (of: number): [number, number, number, number] => {
    const to = (of - axis + 5) % 3;
    return [to === 0 ? 1 : 0, to === 1 ? 1 : 0, to === 2 ? 1 : 0, 0];
  };
  const turned = lump.transform([...column(0), ...column(1), ...column(2), 0, 0, 0, 1]);
  const section = turned.project();
  const outlines = section.toPolygons().map((polygon) => polygon.map(([u, v]): [number, number] => [u!, v!]));
  section.delete();
  turned.delete();
  return outlines;
}
