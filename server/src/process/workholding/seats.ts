/** Where work can sit in a vise while a face looks up: which sides the jaws take, and on which parallels. */
import type { Box, Solid } from '../../geometry/types';
import { FACE_AXIS, type Face, type Feature } from '../../model/model';
import type { Shop, Vise } from '../../model/shop-model';
import { HAIR, ROUNDING } from '../../tolerance';

/** The faces a vise can hold while one looks up: the two pairs beside it, in the order of a plain choice first. */
export function jawPairs(up: Face): readonly (readonly [Face, Face])[] {
  const pairs: readonly (readonly [Face, Face])[] = [
    ['back', 'front'],
    ['left', 'right'],
    ['bottom', 'top'],
  ];
  return pairs.filter(([a]) => FACE_AXIS[a].axis !== FACE_AXIS[up].axis);
}

const INDEX = { x: 0, y: 1, z: 2 } as const;

export function extent(box: Box, face: Face): number {
  const i = INDEX[FACE_AXIS[face].axis];
  return box.max[i] - box.min[i];
}

export interface Seat {
  readonly gripMm: number;
  /** Height of the pair under the work; absent where it lies on the bed of the vise. */
  readonly parallelsMm?: number;
}

/** Seats that leave less than this above the jaws are not worth a setup. */
const LEAST_ABOVE_MM = 0.5;

/**
 * Seats for work of this height: first those that leave all that must stand clear above the jaws, the deepest grip
 * first; then the others, the shallowest first. `sunk`: what is cut stands beside the jaws, and may lie below their tops.
 */
export function seatsFor(
  { vise: { jawHeightMm } }: { readonly vise: Vise },
  heightMm: number,
  clearMm: number,
  shop: Shop,
  { leastGripMm, sunk = false }: { readonly leastGripMm: number; readonly sunk?: boolean },
): readonly Seat[] {
  const seats: Seat[] = [0, ...shop.parallelsMm]
    .filter((p) => p < jawHeightMm)
    .map((p) => ({ gripMm: jawHeightMm - p, ...(p > 0 && { parallelsMm: p }) }))
    .filter((s) => s.gripMm >= leastGripMm - ROUNDING && (sunk || heightMm - s.gripMm >= LEAST_ABOVE_MM));
  const clear = seats.filter((s) => heightMm - s.gripMm >= clearMm).sort((a, b) => b.gripMm - a.gripMm);
  const others = seats.filter((s) => heightMm - s.gripMm < clearMm).sort((a, b) => a.gripMm - b.gripMm);
  return [...clear, ...others];
}

/** What is cut there: a feature or a face, or half of it. */
interface InLot {
  readonly feature?: Feature;
  readonly face?: Face;
  readonly share?: 'half';
}

/** How far below the face that looks up the deepest of these is cut at a side of the body, where jaws or the stop stand. */
export function deepestAtSides(cut: readonly InLot[], up: Face, solid: Solid): number {
  const { min, max } = solid.body.box;
  const { axis, sign } = FACE_AXIS[up];
  const i = INDEX[axis];
  let deepest = 0;
  for (const { feature, face, share } of cut) {
    // Half from each side goes a little beyond the middle.
    const part = share ? 0.5 : 1;
    // A side is milled down to where the body ends.
    if (face && FACE_AXIS[face].axis !== axis) deepest = Math.max(deepest, part * (max[i] - min[i]));
    // A hole that comes near a side opens nothing there, and broken edges are shallow where they matter.
    if (!feature || feature.kind === 'hole') continue;
    for (const { bounds, role } of solid.voidsOf(feature.name)) {
      if (role === 'edge') continue;
      const inside = [0, 1, 2].every(
        (k) => k === i || (bounds.min[k]! > min[k]! + HAIR && bounds.max[k]! < max[k]! - HAIR),
      );
      if (!inside) deepest = Math.max(deepest, part * (sign > 0 ? max[i] - bounds.min[i] : bounds.max[i] - min[i]));
    }
  }
  return deepest;
}
