/**
 * Sets of faces that can look at the spindle, as bits, and the least number of them that a list of needs can do with:
 * the bound below which no plan can be. There are only 64 sets, so all are tried.
 */
import type { Face } from '../model/model';

export const DIRECTIONS: readonly Face[] = ['top', 'bottom', 'front', 'back', 'left', 'right'];

/** A set of directions: bit i is `DIRECTIONS[i]`. */
export type Mask = number;

const BIT = new Map(DIRECTIONS.map((face, i) => [face, 1 << i]));
const SIZE: readonly number[] = Array.from({ length: 64 }, (_, mask) => bits(mask));
/** Smaller sets first. */
const SETS: readonly Mask[] = Array.from({ length: 64 }, (_, mask) => mask).sort(
  (a, b) => SIZE[a]! - SIZE[b]! || a - b,
);

export function maskOf(faces: Iterable<Face>): Mask {
  let mask = 0;
  for (const face of faces) mask |= BIT.get(face)!;
  return mask;
}

export function facesOf(mask: Mask): readonly Face[] {
  return DIRECTIONS.filter((_, i) => mask & (1 << i));
}

export function sizeOf(mask: Mask): number {
  return SIZE[mask]!;
}

function bits(mask: Mask): number {
  let n = 0;
  for (let m = mask; m > 0; m &= m - 1) n++;
  return n;
}

/**
 * The least number of directions that meets every need (each the set of directions it can be cut from), and every set
 * of that size that does: a minimum hitting set, found by trying all. A need that no direction serves is passed over.
 */
export function fewestDirections(needs: readonly Mask[]): { readonly count: number; readonly sets: readonly Mask[] } {
  const distinct = [...new Set(needs)].filter((need) => need !== 0);
  const meets = (set: Mask) => distinct.every((need) => (need & set) !== 0);
  const sets: Mask[] = [];
  for (const set of SETS) {
    if (sets.length > 0 && sizeOf(set) > sizeOf(sets[0]!)) break;
    if (meets(set)) sets.push(set);
  }
  return { count: sizeOf(sets[0] ?? 0), sets };
}
