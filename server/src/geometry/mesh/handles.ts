/**
 * Meshes inside the boolean library. Whoever makes a handle owns it and must `delete` it: nothing there is collected.
 * The library is handed in already loaded.
 */
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import type { Frame, Point2, Vec3 } from '../types';
import type { RawMesh } from './sweep';

export type Kernel = Pick<ManifoldToplevel, 'Manifold' | 'Mesh' | 'triangulate'>;
export type { Manifold };

/** A closed mesh as a handle; its triangles answer to `id`. Undefined where the library finds it not closed. */
export function handleOf(kernel: Kernel, raw: RawMesh, id: number): Manifold | undefined {
  const mesh = new kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(raw.positions),
    triVerts: Uint32Array.from(raw.triangles),
    faceID: Uint32Array.from(raw.faces),
    runOriginalID: Uint32Array.of(id),
    runIndex: Uint32Array.of(0, raw.triangles.length),
  });
  let made: Manifold;
  try {
    made = new kernel.Manifold(mesh);
  } catch {
    return undefined;
  }
  if (made.status() === 'NoError') return made;
  made.delete();
  return undefined;
}

/** From a frame's coordinates into the part's. The handle is given up for the new one. */
export function placed(handle: Manifold, { u, v, w, origin: o }: Frame): Manifold {
  const moved = handle.transform([...u, 0, ...v, 0, ...w, 0, ...o, 1]);
  handle.delete();
  return moved;
}

/** All of them as one. The handles are given up. */
export function united(kernel: Kernel, handles: readonly Manifold[]): Manifold {
  if (handles.length === 1) return handles[0]!;
  const whole = kernel.Manifold.union(handles);
  whole.numTri(); // worked out now: what is kept must not hang on what is given up
  for (const h of handles) h.delete();
  return whole;
}

export function triangulator(kernel: Kernel): (polygons: readonly (readonly Point2[])[]) => readonly Vec3[] {
  return (polygons) =>
    kernel.triangulate(
      polygons.map((polygon) => polygon.map((p): [number, number] => [p.u, p.v])),
      -1,
    );
}
