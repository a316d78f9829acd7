/** Where jaws stand along the work: all the way, or, of two vises in line, each for itself. */
import type { InVise, Span1 } from './seating-types';

export function alongOf({
  jawFromMm,
  jawToMm,
  gapMm,
}: Pick<InVise, 'jawFromMm' | 'jawToMm' | 'gapMm'>): readonly Span1[] {
  if (!gapMm) return [[jawFromMm, jawToMm]];
  return [
    [jawFromMm, gapMm[0]],
    [gapMm[1], jawToMm],
  ];
}

/** Of the length of the work, how far apart two vises in line stand; and how near they can. Common practice, no source. */
const APART_SHARE = 0.55;
const BESIDE_MM = 20;
const GRID_MM = 10;

export function apartFor(longMm: number, jawWidthMm: number): number {
  return Math.ceil(Math.max(jawWidthMm + BESIDE_MM, APART_SHARE * longMm) / GRID_MM) * GRID_MM;
}
