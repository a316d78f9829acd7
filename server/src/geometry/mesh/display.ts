/**
 * A built solid as triangles to be shown: each with its surface, every vertex with that surface's own exact normal, and
 * the lines where surfaces meet at an angle.
 */
import type { Vec3 } from '../types';
import { edgesOf } from './edges';
import type { Arrays } from './joined';
import type { Built } from './mesher';
import { normalAt } from './surface';
import { type ShownSurface, type Traced, traced } from './traced';

export interface Shown extends Arrays {
  readonly surfaces: readonly ShownSurface[];
}

export function shown(built: Built): Shown {
  const mesh = traced(built);
  return { ...displayed(mesh), ...edgesOf(mesh) };
}

/** Without edges. */
export function displayed(mesh: Traced): Omit<Shown, 'edges' | 'edgeOf'> {
  const { count, corners, surfaceOf, surfaces, spots, point } = mesh;
  const positions = new Float32Array(9 * count);
  const normals = new Float32Array(9 * count);
  const triangles = new Uint32Array(3 * count);
  // a spot has one vertex for each surface that meets there: a chain for each spot
  const first = new Int32Array(spots).fill(-1);
  const next = new Int32Array(3 * count);
  const surfaceAt = new Int32Array(3 * count);
  let made = 0;
  for (let i = 0; i < 3 * count; i++) {
    const spot = corners[i]!;
    const t = Math.floor(i / 3);
    const s = surfaceOf[t]!;
    let vertex = first[spot]!;
    while (vertex >= 0 && surfaceAt[vertex] !== s) vertex = next[vertex]!;
    if (vertex < 0) {
      vertex = made++;
      const { shape } = surfaces[s]!;
      const p = point(spot);
      const n = normalAt(shape, p);
      // at an apex each triangle keeps its own
      const m = n ?? normalAt(shape, middle(mesh, t)) ?? [0, 0, 1];
      for (let k = 0; k < 3; k++) {
        positions[3 * vertex + k] = p[k]!;
        normals[3 * vertex + k] = m[k]!;
      }
      surfaceAt[vertex] = n ? s : -1;
      next[vertex] = first[spot]!;
      first[spot] = vertex;
    }
    triangles[i] = vertex;
  }
  return {
    positions: positions.slice(0, 3 * made),
    normals: normals.slice(0, 3 * made),
    triangles,
    surfaceOf,
    surfaces,
  };
}

function middle({ corners, point }: Traced, t: number): Vec3 {
  const [a, b, c] = [point(corners[3 * t]!), point(corners[3 * t + 1]!), point(corners[3 * t + 2]!)];
  return [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3];
}
