/**
 * O-rings on a face that nothing moves over: the housing by the thickness of the ring. Depth and width are those of a
 * public table of axial housings (read in 2026-11); sections of ISO 3601-1 are the inch ones and their rounded kin.
 */

interface Housing {
  /** Thickness of the ring. */
  readonly sectionMm: number;
  /** From the face, +0.1 mm. */
  readonly depthMm: number;
  /** Across the groove, +0.2 mm. */
  readonly widthMm: number;
  /** Of the groove's corner at its floor, at most. */
  readonly cornerMm: number;
  /** A section of ISO 3601-1, or of the older series of 1.8 to 7 mm. */
  readonly iso: boolean;
}

export const HOUSING_SOURCE = 'public table of O-ring housings, axial and static (read in 2026-11)';
export const DEEPER_MM = 0.1;
export const WIDER_MM = 0.2;

const ROWS: readonly (readonly [section: number, depth: number, width: number, corner: number])[] = [
  [1, 0.7, 1.4, 0.2],
  [1.5, 1.1, 2.1, 0.3],
  [1.78, 1.3, 2.6, 0.3],
  [1.8, 1.3, 2.6, 0.3],
  [2, 1.5, 2.8, 0.3],
  [2.4, 1.8, 3.3, 0.3],
  [2.5, 1.9, 3.4, 0.3],
  [2.62, 2, 3.8, 0.3],
  [2.65, 2, 3.8, 0.3],
  [3, 2.3, 4, 0.6],
  [3.5, 2.65, 4.7, 0.6],
  [3.53, 2.7, 5, 0.6],
  [3.55, 2.7, 5, 0.6],
  [4, 3.1, 5.3, 0.6],
  [4.5, 3.5, 5.9, 0.6],
  [5, 4, 6.7, 0.6],
  [5.3, 4.3, 7.3, 0.6],
  [5.33, 4.3, 7.3, 0.6],
  [5.7, 4.6, 7.4, 0.6],
  [6, 4.9, 7.6, 0.6],
  [6.99, 5.8, 9.7, 1],
  [7, 5.8, 9.7, 1],
];
const ISO: ReadonlySet<number> = new Set([1.78, 1.8, 2.62, 2.65, 3.53, 3.55, 5.3, 5.33, 6.99, 7]);

export const HOUSINGS: readonly Housing[] = ROWS.map(([sectionMm, depthMm, widthMm, cornerMm]) => ({
  sectionMm,
  depthMm,
  widthMm,
  cornerMm,
  iso: ISO.has(sectionMm),
}));

/** `24x2`, `ISO 3601 24.99 x 3.53`: inside diameter by thickness, mm. */
export function readRing(text: string): { readonly insideMm: number; readonly sectionMm: number } | undefined {
  const found = /^(?:ISO\s*3601(?:-1)?\s*[-–:]?\s+)?(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)(?:\s*mm)?$/i.exec(
    text.trim(),
  );
  return found ? { insideMm: Number(found[1]), sectionMm: Number(found[2]) } : undefined;
}

export function housingFor(sectionMm: number): Housing | undefined {
  return HOUSINGS.find((h) => Math.abs(h.sectionMm - sectionMm) < 1e-9);
}

/** How much of its thickness a ring loses in a groove so deep, and how much of the groove it fills: shares of 1. */
export function squeezeOf(sectionMm: number, depthMm: number): number {
  return (sectionMm - depthMm) / sectionMm;
}
export function fillOf(sectionMm: number, depthMm: number, widthMm: number): number {
  return ((Math.PI / 4) * (sectionMm * sectionMm)) / (depthMm * widthMm);
}
