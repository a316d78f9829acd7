/**
 * What a process really holds, from what was measured: how far the values lie from the middle of their limits, in the
 * tolerance unit i of ISO 286-1 (i = 0.45 ∛D + 0.001 D µm), so that sizes of different bores count together.
 */

/** Fewer are told, and nothing is offered from them. */
export const ENOUGH = 10;

/** Tolerance unit of a nominal size up to 500 mm, mm: ISO 286-1. */
export function toleranceUnitMm(nominalMm: number): number {
  return (0.45 * Math.cbrt(nominalMm) + 0.001 * nominalMm) / 1000;
}

/** Width of each grade in tolerance units: ISO 286-1, IT5 to IT16. */
const IN_UNITS: readonly (readonly [grade: number, units: number])[] = [
  [5, 7],
  [6, 10],
  [7, 16],
  [8, 25],
  [9, 40],
  [10, 64],
  [11, 100],
  [12, 160],
  [13, 250],
  [14, 400],
  [15, 640],
  [16, 1000],
];

/**
 * So many standard deviations to each side hold 95 of 100 pieces, with 95 % confidence, by how many were measured: factors
 * of two-sided tolerance intervals, ISO 16269-6, from memory. Between two, that of the fewer.
 */
const FACTORS: readonly (readonly [count: number, factor: number])[] = [
  [10, 3.379],
  [12, 3.162],
  [15, 2.954],
  [20, 2.752],
  [25, 2.631],
  [30, 2.549],
  [40, 2.445],
  [50, 2.379],
  [100, 2.233],
];

export interface Spread {
  readonly count: number;
  /** Of the deviations from the middle of the limits, in tolerance units. */
  readonly mean: number;
  /** Standard deviation, n − 1; 0 of one. */
  readonly deviation: number;
  /** The least ISO 286 grade that is as wide as what 95 of 100 pieces take; absent under ten, or where none is. */
  readonly grade?: number;
}

export function spreadOf(deviations: readonly number[]): Spread {
  const count = deviations.length;
  const mean = deviations.reduce((sum, d) => sum + d, 0) / count;
  const square = deviations.reduce((sum, d) => sum + (d - mean) ** 2, 0);
  const deviation = count > 1 ? Math.sqrt(square / (count - 1)) : 0;
  const factor = FACTORS.findLast(([n]) => n <= count)?.[1];
  // Off the middle on one side as far as the spread reaches: a grade lies evenly about its middle.
  const width = factor === undefined ? undefined : 2 * (Math.abs(mean) + factor * deviation);
  const grade = width === undefined ? undefined : IN_UNITS.find(([, units]) => units >= width)?.[0];
  return { count, mean, deviation, ...(grade !== undefined && { grade }) };
}
