/** Slitting saws as they are made: how wide their flanges are, and how many teeth they have. */

/** Of its diameter. */
export const SLITTING_SAW = {
  flange: 0.4,
  source: 'common practice, no source: flanges of 0.35 to 0.45 of the saw',
} as const;

/**
 * Coarse teeth: their pitch grows with the fourth root of diameter times thickness, so that chips have room. ISO 2296, DIN
 * 1838 (from memory): 40 teeth for 63 × 1.6, 48 for 100 × 2, 40 for 50 × 1; this comes within a fifth of them.
 */
export function sawTeeth(diameterMm: number, thicknessMm: number): number {
  const pitchMm = 3.5 * Math.sqrt(Math.sqrt(diameterMm * thicknessMm) / 5);
  const teeth = (Math.PI * diameterMm) / pitchMm;
  return Math.max(12, 4 * Math.round(teeth / 4));
}
