/** The roughness that a cutter's shape leaves by itself; what is measured is commonly one and a half to three times as much (from memory). */

/** Height of the ridge between two passes of a ball, mm. */
export function scallopMm(stepoverMm: number, ballRadiusMm: number): number {
  return ballRadiusMm - Math.sqrt(Math.max(0, ballRadiusMm ** 2 - (stepoverMm / 2) ** 2));
}

/** The stepover that leaves ridges of this height, mm. */
export function stepoverMm(scallop: number, ballRadiusMm: number): number {
  return 2 * Math.sqrt(Math.max(0, 2 * ballRadiusMm * scallop - scallop ** 2));
}

/** Peak to valley under a rounded corner, mm: f² / 8r. */
export function cornerRidgeMm(feedMm: number, cornerRadiusMm: number): number {
  return feedMm ** 2 / (8 * cornerRadiusMm);
}

/** Ra of the same, µm: the mean of a parabola's ridge. */
export function cornerRaUm(feedMm: number, cornerRadiusMm: number): number {
  return (1000 * feedMm ** 2) / (32 * cornerRadiusMm);
}

/** Ridges that the side of a mill leaves, mm: f² / 4D. */
export function sideRidgeMm(feedPerToothMm: number, diameterMm: number): number {
  return feedPerToothMm ** 2 / (4 * diameterMm);
}
