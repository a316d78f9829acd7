/** Screws, nuts, washers as bought: published rows, mm. Data only; `fasteners.ts` reads it. */

/** Nominal lengths of metric screws, preferred ones: ISO 888, from memory. */
export const ISO_888_MM: readonly number[] = [
  2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150,
  160, 180, 200,
];

/** Nominal lengths of inch socket screws, in: ASME B18.3, from memory (by 1/16 to 1/4, by 1/8 to 1, by 1/4 to 3 1/2, by 1/2 to 6). */
export const INCH_LENGTHS: readonly number[] = [
  0.125, 0.1875, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 4, 4.5, 5,
  5.5, 6,
];

/** [screw, ISO 4762, ISO 10642, ISO 7380-1, ISO 4017]: shortest and longest usual length of each, from memory of these standards. */
export const LENGTH_ROWS: readonly (readonly [string, Pair, Pair | null, Pair | null, Pair | null])[] = [
  ['M1.6', [2.5, 16], null, null, [2, 16]],
  ['M2', [3, 20], null, null, [4, 20]],
  ['M2.5', [4, 25], null, null, [5, 25]],
  ['M3', [5, 30], [8, 30], [6, 12], [6, 30]],
  ['M4', [6, 40], [8, 40], [8, 16], [8, 40]],
  ['M5', [8, 50], [8, 50], [10, 30], [10, 50]],
  ['M6', [10, 60], [8, 60], [10, 30], [12, 60]],
  ['M8', [12, 80], [10, 80], [10, 40], [16, 80]],
  ['M10', [16, 100], [12, 100], [16, 40], [20, 100]],
  ['M12', [20, 120], [20, 100], [16, 50], [25, 120]],
  ['M14', [25, 140], [25, 100], null, [30, 140]],
  ['M16', [25, 160], [30, 100], [20, 50], [30, 150]],
  ['M20', [30, 200], [35, 100], null, [40, 150]],
  ['M24', [40, 200], null, null, [50, 150]],
];
type Pair = readonly [number, number];

/** [screw, width across flats, head height (ISO 4014, ISO 4017), nut height (ISO 4032), locking nut height (ISO 7040)]: from memory. */
export const HEX_ROWS: readonly (readonly [string, number, number, number, number?])[] = [
  ['M1.6', 3.2, 1.1, 1.3],
  ['M2', 4, 1.4, 1.6],
  ['M2.5', 5, 1.7, 2],
  ['M3', 5.5, 2, 2.4, 4.5],
  ['M4', 7, 2.8, 3.2, 6],
  ['M5', 8, 3.5, 4.7, 6.8],
  ['M6', 10, 4, 5.2, 8],
  ['M8', 13, 5.3, 6.8, 9.5],
  ['M10', 16, 6.4, 8.4, 11.9],
  ['M12', 18, 7.5, 10.8, 14.9],
  ['M14', 21, 8.8, 12.8, 17],
  ['M16', 24, 10, 14.8, 19.1],
  ['M20', 30, 12.5, 18, 22.8],
  ['M24', 36, 15, 21.5, 27.1],
];

/** [screw, button head diameter, height (ISO 7380-1)]: from memory. */
export const BUTTON_ROWS: readonly (readonly [string, number, number])[] = [
  ['M3', 5.7, 1.65],
  ['M4', 7.6, 2.2],
  ['M5', 9.5, 2.75],
  ['M6', 10.5, 3.3],
  ['M8', 14, 4.4],
  ['M10', 17.5, 5.5],
  ['M12', 21, 6.6],
  ['M16', 28, 8.8],
];

/** [screw, hole, outside, thickness]: ISO 7089, from public tables (M1.6 to M2.5 from memory). */
export const ISO_7089_ROWS: readonly Washer[] = [
  ['M1.6', 1.7, 4, 0.3],
  ['M2', 2.2, 5, 0.3],
  ['M2.5', 2.7, 6, 0.5],
  ['M3', 3.2, 7, 0.5],
  ['M4', 4.3, 9, 0.8],
  ['M5', 5.3, 10, 1],
  ['M6', 6.4, 12, 1.6],
  ['M8', 8.4, 16, 1.6],
  ['M10', 10.5, 20, 2],
  ['M12', 13, 24, 2.5],
  ['M14', 15, 28, 2.5],
  ['M16', 17, 30, 3],
  ['M18', 19, 34, 3],
  ['M20', 21, 37, 3],
  ['M24', 25, 44, 4],
];
type Washer = readonly [string, number, number, number];

/** Small, for under cap heads: ISO 7092, from memory. */
export const ISO_7092_ROWS: readonly Washer[] = [
  ['M1.6', 1.7, 3.5, 0.3],
  ['M2', 2.2, 4.5, 0.3],
  ['M2.5', 2.7, 5, 0.5],
  ['M3', 3.2, 6, 0.5],
  ['M4', 4.3, 8, 0.5],
  ['M5', 5.3, 9, 1],
  ['M6', 6.4, 11, 1.6],
  ['M8', 8.4, 15, 1.6],
  ['M10', 10.5, 18, 1.6],
  ['M12', 13, 20, 2],
  ['M16', 17, 28, 2.5],
  ['M20', 21, 34, 3],
];

/** Large: ISO 7093-1, from memory. */
export const ISO_7093_ROWS: readonly Washer[] = [
  ['M3', 3.2, 9, 0.8],
  ['M4', 4.3, 12, 1],
  ['M5', 5.3, 15, 1],
  ['M6', 6.4, 18, 1.6],
  ['M8', 8.4, 24, 2],
  ['M10', 10.5, 30, 2.5],
  ['M12', 13, 37, 3],
  ['M16', 17, 50, 3],
];
