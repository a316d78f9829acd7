/** Threads beside the screw threads: pipe threads, trapezoidal threads, holes of wire thread inserts. Data only; `special-threads.ts` reads it. */

/**
 * ISO 228-1 and ISO 7-1 share sizes and pitches: [size, diameter mm, threads per inch, tap drill of G, of Rp, of Rc]. Diameters
 * and pitches follow from the inch sizes that the standards' tables round; tap drills are those of tap makers. All from memory.
 */
type PipeRow = readonly [string, number, number, number, number | null, number | null];
export const PIPE_ROWS: readonly PipeRow[] = [
  ['1/16', 7.723, 28, 6.8, 6.6, 6.3],
  ['1/8', 9.728, 28, 8.8, 8.6, 8.4],
  ['1/4', 13.157, 19, 11.8, 11.5, 11.2],
  ['3/8', 16.662, 19, 15.25, 15, 14.75],
  ['1/2', 20.955, 14, 19, 18.5, 18.25],
  ['5/8', 22.911, 14, 21, null, null],
  ['3/4', 26.441, 14, 24.5, 24, 23.75],
  ['7/8', 30.201, 14, 28.25, null, null],
  ['1', 33.249, 11, 30.75, 30.25, 30],
  ['1 1/8', 37.897, 11, 35.5, null, null],
  ['1 1/4', 41.91, 11, 39.5, 39, 38.5],
  ['1 1/2', 47.803, 11, 45, 45, 44.5],
  ['1 3/4', 53.746, 11, 51, null, null],
  ['2', 59.614, 11, 57, 56.5, 56],
];
export const G_SOURCE = 'ISO 228-1; tap drill as tap makers list it: both from memory';
export const R_SOURCE = 'ISO 7-1; tap drill as tap makers list it, not reamed: both from memory';

/** Minor diameter tolerance of G threads by threads per inch, µm above basic: ISO 228-1, from memory. */
export const G_MINOR_UM: ReadonlyMap<number, number> = new Map([
  [28, 282],
  [19, 445],
  [14, 541],
  [11, 640],
]);
/** The same of Rp threads, µm to either side: ISO 7-1, from memory. */
export const RP_MINOR_UM: ReadonlyMap<number, number> = new Map([
  [28, 71],
  [19, 104],
  [14, 142],
  [11, 180],
]);
/** Useful length of thread, mm. R: ISO 7-1, for the basic gauge length. G: tapped depth of DIN 3852-2 ports. From memory. */
export const PIPE_LENGTH_MM: Readonly<Record<string, readonly [g: number | null, r: number | null]>> = {
  '1/16': [null, 6.5],
  '1/8': [8, 6.5],
  '1/4': [12, 9.7],
  '3/8': [12, 10.1],
  '1/2': [14, 13.2],
  '3/4': [16, 14.5],
  '1': [18, 16.8],
  '1 1/4': [20, 19.1],
  '1 1/2': [22, 19.1],
  '2': [24, 23.4],
};

/** ASME B1.20.1: [size, outside diameter of the pipe in, threads per inch, hand-tight length L1 in, tap drill, in]. From memory. */
type NptRow = readonly [string, number, number, number, string, number];
export const NPT_ROWS: readonly NptRow[] = [
  ['1/16', 0.3125, 27, 0.16, 'D', 0.246],
  ['1/8', 0.405, 27, 0.1615, 'R', 0.339],
  ['1/4', 0.54, 18, 0.2278, '7/16', 0.4375],
  ['3/8', 0.675, 18, 0.24, '37/64', 0.578125],
  ['1/2', 0.84, 14, 0.32, '23/32', 0.71875],
  ['3/4', 1.05, 14, 0.339, '59/64', 0.921875],
  ['1', 1.315, 11.5, 0.4, '1 5/32', 1.15625],
  ['1 1/4', 1.66, 11.5, 0.42, '1 1/2', 1.5],
  ['1 1/2', 1.9, 11.5, 0.42, '1 47/64', 1.734375],
  ['2', 2.375, 11.5, 0.436, '2 7/32', 2.21875],
];
export const NPT_SOURCE = 'ASME B1.20.1; tap drill as handbooks list it, not reamed: both from memory';

/** ISO 2904: [diameter mm, pitches mm]. Pitches of ISO 2902, from memory. */
export const TRAPEZOIDAL_ROWS: readonly (readonly [number, readonly number[]])[] = [
  [8, [1.5]],
  [9, [1.5, 2]],
  [10, [1.5, 2]],
  [11, [2, 3]],
  [12, [2, 3]],
  [14, [2, 3]],
  [16, [2, 4]],
  [18, [2, 4]],
  [20, [2, 4]],
  [22, [3, 5, 8]],
  [24, [3, 5, 8]],
  [26, [3, 5, 8]],
  [28, [3, 5, 8]],
  [30, [3, 6, 10]],
  [32, [3, 6, 10]],
  [34, [3, 6, 10]],
  [36, [3, 6, 10]],
  [38, [3, 7, 10]],
  [40, [3, 7, 10]],
  [42, [3, 7, 10]],
  [44, [3, 7, 12]],
  [46, [3, 8, 12]],
  [48, [3, 8, 12]],
  [50, [3, 8, 12]],
  [52, [3, 8, 12]],
  [55, [3, 9, 14]],
  [60, [3, 9, 14]],
  [65, [4, 10, 16]],
  [70, [4, 10, 16]],
  [75, [4, 10, 16]],
  [80, [4, 10, 16]],
  [85, [4, 12, 18]],
  [90, [4, 12, 18]],
  [95, [4, 12, 18]],
  [100, [4, 12, 20]],
];
/** Minor diameter tolerance of trapezoidal nuts by pitch, class 4H, µm: ISO 2903, from memory. */
export const TR_MINOR_UM: ReadonlyMap<number, number> = new Map([
  [1.5, 190],
  [2, 236],
  [3, 315],
  [4, 375],
  [5, 450],
  [6, 500],
  [7, 560],
  [8, 630],
  [9, 670],
  [10, 710],
  [12, 800],
  [14, 900],
  [16, 1000],
  [18, 1120],
  [20, 1180],
]);
/** What a tap hole is wider than D − P, up to a pitch, mm: as tap makers list it, from memory. */
export const TR_WIDER_MM: readonly (readonly [upTo: number, mm: number])[] = [
  [1.5, 0.1],
  [2, 0.2],
  [20, 0.25],
];
export const TR_SOURCE = 'ISO 2904 and 2902; tap drill D − P and a little, as tap makers list it: from memory';

/** Holes for wire thread inserts, DIN 8140-2: [screw, tap drill mm]. From memory. */
export const INSERT_ROWS: readonly (readonly [string, number])[] = [
  ['M2', 2.1],
  ['M2.5', 2.6],
  ['M3', 3.2],
  ['M4', 4.2],
  ['M5', 5.2],
  ['M6', 6.3],
  ['M8', 8.4],
  ['M8x1', 8.3],
  ['M10', 10.5],
  ['M10x1', 10.3],
  ['M10x1.25', 10.4],
  ['M12', 12.5],
  ['M12x1.25', 12.4],
  ['M12x1.5', 12.5],
  ['M14', 14.5],
  ['M16', 16.5],
  ['M18', 18.75],
  ['M20', 20.75],
  ['M24', 24.75],
];
export const INSERT_SOURCE =
  'DIN 8140-2: D of the hole is the screw’s and 1.299 P; tap drill as makers list it: from memory';
