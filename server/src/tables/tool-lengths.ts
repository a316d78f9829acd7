/** How long ordinary cutters are: flutes of jobber drills, flutes of end mills, usual shanks. From memory of the standards named. */

/** DIN 338 jobber drills: [up to diameter mm, flute length mm]. */
export const JOBBER: readonly (readonly [number, number])[] = [
  [0.48, 5],
  [0.53, 6],
  [0.6, 7],
  [0.67, 8],
  [0.75, 9],
  [0.85, 10],
  [0.95, 11],
  [1.06, 12],
  [1.18, 14],
  [1.32, 16],
  [1.5, 18],
  [1.7, 20],
  [1.9, 22],
  [2.12, 24],
  [2.36, 27],
  [2.65, 30],
  [3, 33],
  [3.35, 36],
  [3.75, 39],
  [4.25, 43],
  [4.75, 47],
  [5.3, 52],
  [6, 57],
  [6.7, 63],
  [7.5, 69],
  [8.5, 75],
  [9.5, 81],
  [10.6, 87],
  [11.8, 94],
  [13.2, 101],
  [14, 108],
  [15, 114],
  [16, 120],
  [17, 125],
  [18, 130],
  [19, 135],
  [20, 140],
];

/** ISO 1641-1 end mills, standard series: [up to diameter mm, flute length mm]. */
export const END_MILL: readonly (readonly [number, number])[] = [
  [1.9, 4],
  [2.36, 7],
  [3, 8],
  [3.75, 10],
  [4.75, 11],
  [6, 13],
  [7.5, 16],
  [9.5, 19],
  [11.8, 22],
  [15, 26],
  [19, 32],
  [23.6, 38],
  [30, 45],
  [37.5, 53],
];

const SHANKS_MM: readonly number[] = [3, 4, 6, 8, 10, 12, 16, 20, 25, 32];
const SHANKS_IN: readonly number[] = [0.125, 0.1875, 0.25, 0.375, 0.5, 0.625, 0.75, 1, 1.25];

/** Flute length of a jobber drill, mm: DIN 338; 7 D beyond the table. */
export function jobberFluteMm(diameterMm: number): number {
  return JOBBER.find(([upTo]) => diameterMm <= upTo)?.[1] ?? 7 * diameterMm;
}

/** Flute length of an end mill of the standard series, mm: ISO 1641-1; 1.4 D beyond the table. */
export function endMillFluteMm(diameterMm: number): number {
  return END_MILL.find(([upTo]) => diameterMm <= upTo)?.[1] ?? 1.4 * diameterMm;
}

/** The usual shank that is not thinner than the cutter nor than `leastMm`; the cutter's own diameter beyond the largest. */
export function usualShankMm(diameterMm: number, system: 'metric' | 'inch', leastMm = 0): number {
  const sizes = system === 'metric' ? SHANKS_MM : SHANKS_IN.map((inches) => inches * 25.4);
  return sizes.find((s) => s >= diameterMm - 1e-9 && s >= leastMm - 1e-9) ?? diameterMm;
}
