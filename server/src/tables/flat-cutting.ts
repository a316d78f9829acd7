/**
 * What a flat cut from sheet or plate holds: ISO 9013:2017, limit deviations for nominal dimensions, tolerance class 1
 * (laser cuts to 32 mm), as public pages reproduce the table. A water jet is not in that standard; what it holds in
 * ordinary work is of the same size (common practice, no source).
 */

/** Upper ends of nominal dimensions, mm: each range ends below the next number. */
const NOMINALS = [3, 10, 35, 125, 315, 1000] as const;

/** Thickest plate of a row, and ± for each range of nominal dimensions, mm; none for cuts narrower than 3 mm in thick plate. */
const CLASS_1: readonly (readonly [uptoMm: number, deviations: readonly (number | undefined)[]])[] = [
  [1, [0.075, 0.1, 0.1, 0.2, 0.2, 0.3]],
  [3.15, [0.1, 0.15, 0.2, 0.25, 0.25, 0.35]],
  [6.3, [0.2, 0.2, 0.25, 0.25, 0.3, 0.4]],
  [10, [undefined, 0.25, 0.3, 0.3, 0.35, 0.45]],
  [15, [undefined, 0.3, 0.35, 0.4, 0.45, 0.55]],
  [20, [undefined, 0.4, 0.4, 0.45, 0.55, 0.75]],
];

export const FLAT_CUTTING_SOURCE = 'ISO 9013:2017, tolerance class 1 (laser cuts), as reproduced on public pages';

/** ± mm that a flat cut holds for a size; undefined where the table says nothing: too thick, too large, or a hole too fine. */
export function flatCutHoldsMm(thicknessMm: number, nominalMm: number): number | undefined {
  const row = CLASS_1.find(([upto]) => thicknessMm <= upto + 1e-9);
  const column = NOMINALS.findIndex((upto) => nominalMm < upto);
  return column < 0 ? undefined : row?.[1][column];
}
