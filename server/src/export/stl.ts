/**
 * A part as binary STL: 80 bytes of heading, the number of triangles, and for each its normal, its three corners and two
 * bytes of nothing, little-endian (the format of 1989; it has no published standard and carries no unit: mm here).
 */

import type { Vec3 } from '../geometry/types';
import { cross, length, scale, sub } from '../geometry/vector';
import { type TriangleMaker, type Triangles, trianglesOf } from './triangles';
import type { Writer } from './writer';

const HEADING = 80;
const RECORD = 50;

export function stlWriter(maker: TriangleMaker): Writer {
  return {
    extensions: ['.stl'],
    title: 'STL: triangles, for 3-D printing and viewers',
    async write(request) {
      const mesh = await trianglesOf(request, maker);
      const heading = `${request.checked.part.name}, mm, ${request.creator}`;
      return { bytes: stlOf(mesh, heading), notes: ['the format carries no unit: lengths are mm.', ...mesh.notes] };
    },
  };
}

/** `heading`: what the file says of itself; plain letters are kept, at most 80. */
export function stlOf({ points, triangles }: Pick<Triangles, 'points' | 'triangles'>, heading: string): Uint8Array {
  const bytes = new Uint8Array(HEADING + 4 + (RECORD * triangles.length) / 3);
  const view = new DataView(bytes.buffer);
  // a file that begins with "solid" is taken for the text form by some readers
  const said = heading.replace(/^solid/i, 'a solid').replace(/[^\x20-\x7e]/g, '?');
  for (let i = 0; i < HEADING; i++) bytes[i] = i < said.length ? said.charCodeAt(i) : 0x20;
  view.setUint32(HEADING, triangles.length / 3, true);
  let at = HEADING + 4;
  const put = (v: readonly number[]) => {
    for (const x of v) {
      view.setFloat32(at, x, true);
      at += 4;
    }
  };
  const corner = (i: number): Vec3 => {
    const p = 3 * triangles[i]!;
    return [points[p]!, points[p + 1]!, points[p + 2]!];
  };
  for (let i = 0; i < triangles.length; i += 3) {
    const [p, q, r] = [corner(i), corner(i + 1), corner(i + 2)];
    const n = cross(sub(q, p), sub(r, p));
    const l = length(n);
    put(l > 0 ? scale(n, 1 / l) : [0, 0, 0]);
    put(p);
    put(q);
    put(r);
    at += 2;
  }
  return bytes;
}
