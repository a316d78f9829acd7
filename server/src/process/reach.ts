/**
 * How far down a tool must reach: from the highest material of the finished part that stands beside it, to where it
 * cuts. A narrow pocket in the floor of a wide one does not count the wide one's depth for the cutter, but may for
 * the holder: what matters is what stands within the tool's own radius.
 */

import { nearTo } from '../geometry/solid/near';
import type { Vec3, Void } from '../geometry/types';
import type { Face } from '../model/model';
import { ROUNDING } from '../tolerance';
import { firstMaterial, type Place, type Which } from './column';
import { add } from './section';

/** A shank this much off a wall does not rub. Common practice, no source. */
export const SHANK_CLEARANCE_MM = 0.25;

const TURNS = 24;
const RINGS = [0.999, 0.8, 0.55];

/** Broken edges are taken last, or take nothing away that a shank would meet. */
export const beforeEdges: Which = (v) => v.role !== 'edge' && v.role !== 'engraving';

/**
 * Least depth below the face at which material stands within `radiusMm` of the tool's axis through `p`; `floorMm`
 * where none stands above that. The heights are exact, looked up on rings of 24 columns. Once something stands as high
 * as `enoughMm` nothing higher is looked for.
 */
export function highestBeside(
  solid: Place,
  face: Face,
  p: Vec3,
  radiusMm: number,
  { floorMm, enoughMm = ROUNDING }: { readonly floorMm: number; readonly enoughMm?: number },
): number {
  // At the plane of the face already: nothing stands above that.
  if (floorMm <= 0) return floorMm;
  const [a, b] = across(face);
  const far = ([0, 1, 2] as const).map((i) => (a[i] === 0 && b[i] === 0 ? Number.POSITIVE_INFINITY : radiusMm));
  const [min, max] = [add(p, far as unknown as Vec3, -1), add(p, far as unknown as Vec3)];
  const about = nearTo(solid.voids, { min, max });
  const near = { body: solid.body, voids: about.filter((v) => beforeEdges(v) && beside(v, p, radiusMm, a, b)) };
  let highest = floorMm;
  for (const ring of RINGS) {
    for (let i = 0; i < TURNS; i++) {
      const turn = (2 * Math.PI * (i + 0.03)) / TURNS;
      const q = add(add(p, a, ring * radiusMm * Math.cos(turn)), b, ring * radiusMm * Math.sin(turn));
      const depth = firstMaterial(near, face, q);
      if (depth < highest) highest = depth;
      if (highest <= enoughMm) return highest;
    }
  }
  return highest;
}

/** The void's bounds come within reach of the disc. */
function beside(v: Void, p: Vec3, radiusMm: number, a: Vec3, b: Vec3): boolean {
  for (const i of [0, 1, 2] as const) {
    if (a[i] === 0 && b[i] === 0) continue;
    if (v.bounds.min[i] > p[i] + radiusMm || v.bounds.max[i] < p[i] - radiusMm) return false;
  }
  return true;
}

/** The two axes across a face's own. */
export function across(face: Face): readonly [Vec3, Vec3] {
  if (face === 'left' || face === 'right') {
    return [
      [0, 1, 0],
      [0, 0, 1],
    ];
  }
  if (face === 'front' || face === 'back') {
    return [
      [1, 0, 0],
      [0, 0, 1],
    ];
  }
  return [
    [1, 0, 0],
    [0, 1, 0],
  ];
}
