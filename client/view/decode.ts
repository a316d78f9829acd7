/** The mesh's arrays out of their base64, and what is looked up in them: which surfaces a feature has, where they lie. */
import type { Arrays } from '../../server/src/geometry/mesh/joined';
import type { Mesh, Surface } from '../../server/src/service/view/protocol';
import type { Bounds } from './orbit';

export type { Arrays };

export function arraysOf(mesh: Mesh): Arrays {
  return {
    positions: new Float32Array(bytesOf(mesh.positions)),
    normals: new Float32Array(bytesOf(mesh.normals)),
    triangles: new Uint32Array(bytesOf(mesh.triangles)),
    surfaceOf: new Uint32Array(bytesOf(mesh.surfaceOf)),
    edges: new Float32Array(bytesOf(mesh.edges)),
    edgeOf: new Uint32Array(bytesOf(mesh.edgeOf)),
  };
}

export function bytesOf(base64: string): ArrayBuffer {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}

/** For each vertex the surface of a triangle that has it: vertices are never shared between surfaces. */
export function surfaceOfVertices({ positions, triangles, surfaceOf }: Arrays): Uint32Array {
  const of = new Uint32Array(positions.length / 3);
  for (let t = 0; t < surfaceOf.length; t++) for (let k = 0; k < 3; k++) of[triangles[3 * t + k]!] = surfaceOf[t]!;
  return of;
}

/** `mount`, or `mount[2]` where one member is meant. */
export function surfacesOf(surfaces: readonly Surface[], name: string): ReadonlySet<number> {
  const bracket = /^(.*)\[(\d+)\]$/.exec(name);
  const [feature, member] = bracket ? [bracket[1]!, Number(bracket[2])] : [name, undefined];
  const found = new Set<number>();
  surfaces.forEach((s, i) => {
    if ((s.feature ?? s.name) === feature && (member === undefined || s.member === member)) found.add(i);
  });
  return found;
}

/** The box round everything; undefined for an empty mesh. */
export function boundsOf({ positions }: Arrays): Bounds | undefined {
  if (positions.length === 0) return undefined;
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const a = (i % 3) as 0 | 1 | 2;
    min[a] = Math.min(min[a], positions[i]!);
    max[a] = Math.max(max[a], positions[i]!);
  }
  return { min, max };
}
