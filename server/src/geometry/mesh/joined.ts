/** Pieces of a mesh put together to one, as whoever holds them does: the same order, the same numbers. */

/** Numbers as the view takes them: x, y, z; three vertices a triangle; two points an edge. */
export interface Arrays {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
  readonly surfaceOf: Uint32Array;
  readonly edges: Float32Array;
  readonly edgeOf: Uint32Array;
}

/** `surfaces`: of each piece, what its surfaces are called among all. */
export function joined(pieces: readonly Arrays[], surfaces: readonly ArrayLike<number>[]): Arrays {
  const size = (name: keyof Arrays) => pieces.reduce((n, p) => n + p[name].length, 0);
  const all: Arrays = {
    positions: new Float32Array(size('positions')),
    normals: new Float32Array(size('normals')),
    triangles: new Uint32Array(size('triangles')),
    surfaceOf: new Uint32Array(size('surfaceOf')),
    edges: new Float32Array(size('edges')),
    edgeOf: new Uint32Array(size('edgeOf')),
  };
  const at = { positions: 0, normals: 0, triangles: 0, surfaceOf: 0, edges: 0, edgeOf: 0 };
  pieces.forEach((piece, i) => {
    const vertices = at.positions / 3;
    const names = surfaces[i]!;
    for (const name of ['positions', 'normals', 'edges'] as const) all[name].set(piece[name], at[name]);
    for (let k = 0; k < piece.triangles.length; k++) all.triangles[at.triangles + k] = piece.triangles[k]! + vertices;
    for (const name of ['surfaceOf', 'edgeOf'] as const) named(all[name], at[name], piece[name], names);
    for (const name of Object.keys(at) as (keyof Arrays)[]) at[name] += piece[name].length;
  });
  return all;
}

function named(to: Uint32Array, from: number, numbers: Uint32Array, names: ArrayLike<number>): void {
  for (let i = 0; i < numbers.length; i++) to[from + i] = names[numbers[i]!]!;
}
