/**
 * Undercuts of external metric threads at a shoulder, by pitch. `[pitch, off the diameter, least width, most width, radius]`.
 *
 * Regular: ISO 4755 (as GB/T 3-1997, table 2, has it), checked row by row against a public extract, read in 2026.
 * Short: widths of DIN 76-1 form B, from memory; its diameters are the same.
 */
type UndercutRow = readonly [pitch: number, off: number, least: number, most: number, radius: number];

export const ISO_4755: readonly UndercutRow[] = [
  [0.25, 0.4, 0.4, 0.75, 0.12],
  [0.3, 0.5, 0.5, 0.9, 0.16],
  [0.35, 0.6, 0.6, 1.05, 0.16],
  [0.4, 0.7, 0.6, 1.2, 0.2],
  [0.45, 0.7, 0.7, 1.35, 0.2],
  [0.5, 0.8, 0.8, 1.5, 0.2],
  [0.6, 1, 0.9, 1.8, 0.4],
  [0.7, 1.1, 1.1, 2.1, 0.4],
  [0.75, 1.2, 1.2, 2.25, 0.4],
  [0.8, 1.3, 1.3, 2.4, 0.4],
  [1, 1.6, 1.6, 3, 0.6],
  [1.25, 2, 2, 3.75, 0.6],
  [1.5, 2.3, 2.5, 4.5, 0.8],
  [1.75, 2.6, 3, 5.25, 1],
  [2, 3, 3.4, 6, 1],
  [2.5, 3.6, 4.4, 7.5, 1.2],
  [3, 4.4, 5.2, 9, 1.6],
  [3.5, 5, 6.2, 10.5, 1.6],
  [4, 5.7, 7, 12, 2],
  [4.5, 6.4, 8, 13.5, 2.5],
  [5, 7, 9, 15, 2.5],
  [5.5, 7.7, 11, 17.5, 3.2],
  [6, 8.3, 11, 18, 3.2],
];

/** By pitch: least and most width of the short form. */
export const DIN_76_B: Readonly<Record<string, readonly [least: number, most: number]>> = {
  '0.25': [0.25, 0.6],
  '0.3': [0.3, 0.75],
  '0.35': [0.4, 0.9],
  '0.4': [0.5, 1],
  '0.45': [0.5, 1.1],
  '0.5': [0.5, 1.25],
  '0.6': [0.6, 1.5],
  '0.7': [0.8, 1.75],
  '0.75': [0.9, 1.9],
  '0.8': [0.9, 2],
  '1': [1.1, 2.5],
  '1.25': [1.5, 3.2],
  '1.5': [1.8, 3.8],
  '1.75': [2.1, 4.3],
  '2': [2.5, 5],
  '2.5': [3.2, 6.3],
  '3': [3.7, 7.5],
  '3.5': [4.7, 9],
  '4': [5, 10],
  '4.5': [5.5, 11],
  '5': [6.5, 12.5],
  '5.5': [7.5, 14],
  '6': [8, 15],
};
