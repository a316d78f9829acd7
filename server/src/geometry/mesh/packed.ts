/** A mesh as text for the view: plain strings and numbers that cross threads and connections. */
import type { Void } from '../types';
import { base64Of } from './base64';
import { shown } from './display';
import type { Built } from './mesher';
import type { ExactShape, Place } from './surface';

interface PackedMesh {
  readonly mesh: {
    readonly positions: string;
    readonly normals: string;
    readonly triangles: string;
    readonly surfaceOf: string;
    readonly edges: string;
    readonly edgeOf: string;
  };
  /** `of`: which of the voids, by its place in their list. */
  readonly surfaces: readonly { readonly of?: number; readonly place: Place; readonly shape: ExactShape }[];
  readonly missing: readonly number[];
}

/** `voids`: the list that the solid was built with. `encode`: base64, where the machine has a quicker one. */
export function packed(built: Built, voids: readonly Void[], encode = base64Of): PackedMesh {
  const { positions, normals, triangles, surfaceOf, edges, edgeOf, surfaces } = shown(built);
  const at = new Map(voids.map((v, i) => [v, i]));
  return {
    mesh: {
      positions: encode(positions),
      normals: encode(normals),
      triangles: encode(triangles),
      surfaceOf: encode(surfaceOf),
      edges: encode(edges),
      edgeOf: encode(edgeOf),
    },
    surfaces: surfaces.map(({ of, place, shape }) => (of ? { of: at.get(of)!, place, shape } : { place, shape })),
    missing: built.missing.map((v) => at.get(v)!),
  };
}
