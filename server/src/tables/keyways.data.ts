/**
 * Keyways for parallel keys by the shaft's diameter, mm and inches. `[over, to, width, key height, depth in the shaft]`.
 *
 * Metric: ISO/R 773, DIN 6885-1 high form, checked row by row against two public extracts of DIN 6885-1 (6 to 44 mm with
 * shaft depths, 38 to 230 mm with shaft and hub depths), read in 2026; what lies beyond 230 mm is left out.
 * Inch: ASME B17.1-1967 (R1998), Table 1, square keys, checked against a public extract; where the fractions of the extract
 * were damaged (to 7/16) by memory.
 */
export type KeyRow = readonly [over: number, to: number, width: number, height: number, depth: number];

export const ISO_KEYS: readonly KeyRow[] = [
  [6, 8, 2, 2, 1.2],
  [8, 10, 3, 3, 1.8],
  [10, 12, 4, 4, 2.5],
  [12, 17, 5, 5, 3],
  [17, 22, 6, 6, 3.5],
  [22, 30, 8, 7, 4],
  [30, 38, 10, 8, 5],
  [38, 44, 12, 8, 5],
  [44, 50, 14, 9, 5.5],
  [50, 58, 16, 10, 6],
  [58, 65, 18, 11, 7],
  [65, 75, 20, 12, 7.5],
  [75, 85, 22, 14, 9],
  [85, 95, 25, 14, 9],
  [95, 110, 28, 16, 10],
  [110, 130, 32, 18, 11],
  [130, 150, 36, 20, 12],
  [150, 170, 40, 22, 13],
  [170, 200, 45, 25, 15],
  [200, 230, 50, 28, 17],
];

/** In inches; the depth is at the side of the keyseat: half the key. */
export const ASME_KEYS: readonly KeyRow[] = [
  [5 / 16, 7 / 16, 3 / 32, 3 / 32, 3 / 64],
  [7 / 16, 9 / 16, 1 / 8, 1 / 8, 1 / 16],
  [9 / 16, 7 / 8, 3 / 16, 3 / 16, 3 / 32],
  [7 / 8, 5 / 4, 1 / 4, 1 / 4, 1 / 8],
  [5 / 4, 11 / 8, 5 / 16, 5 / 16, 5 / 32],
  [11 / 8, 7 / 4, 3 / 8, 3 / 8, 3 / 16],
  [7 / 4, 9 / 4, 1 / 2, 1 / 2, 1 / 4],
  [9 / 4, 11 / 4, 5 / 8, 5 / 8, 5 / 16],
  [11 / 4, 13 / 4, 3 / 4, 3 / 4, 3 / 8],
  [13 / 4, 15 / 4, 7 / 8, 7 / 8, 7 / 16],
  [15 / 4, 9 / 2, 1, 1, 1 / 2],
  [9 / 2, 11 / 2, 5 / 4, 5 / 4, 5 / 8],
  [11 / 2, 13 / 2, 3 / 2, 3 / 2, 3 / 4],
];

/** On the width of the keyseat, inches over nominal, by key width up to: ASME B17.1 Table 4, class 1 (from memory). */
export const ASME_WIDER: readonly (readonly [to: number, by: number])[] = [
  [1 / 2, 0.002],
  [3 / 4, 0.003],
  [1, 0.003],
  [3 / 2, 0.004],
];
/** On its depth, inches: ASME B17.1 Table 4 (from memory). */
export const ASME_DEEPER = 0.015;
