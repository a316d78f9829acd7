/**
 * O-rings by the size codes of ISO 3601-1, which are the dash numbers of the inch series: from memory. Sizes go in even
 * steps, so a run of codes is its first inside diameter and its step, in inches; singles stand before the runs.
 */
import { MM_PER_INCH } from './units';

/** The first digit of a code: the thickness, mm (ISO 3601-1). */
const SECTIONS_MM: Readonly<Record<string, number>> = { 0: 1.78, 1: 2.62, 2: 3.53, 3: 5.33, 4: 6.99 };

/** First and last code, inside diameter of the first, step: both in inches. */
const RUNS: readonly (readonly [first: number, last: number, inside: number, step: number])[] = [
  [4, 4, 0.07, 0],
  [5, 5, 0.101, 0],
  [6, 6, 0.114, 0],
  [7, 8, 0.145, 0.031],
  [9, 9, 0.208, 0],
  [10, 28, 0.239, 0.0625],
  [29, 41, 1.489, 0.125],
  [42, 50, 3.239, 0.25],
  [102, 102, 0.049, 0],
  [103, 106, 0.081, 0.031],
  [107, 107, 0.206, 0],
  [108, 108, 0.237, 0],
  [109, 149, 0.299, 0.0625],
  [150, 150, 2.862, 0],
  [151, 178, 2.987, 0.25],
  [201, 222, 0.171, 0.0625],
  [223, 258, 1.609, 0.125],
  [259, 274, 6.234, 0.25],
  [275, 278, 10.484, 0.5],
  [279, 281, 12.984, 1],
  [282, 284, 15.955, 1],
  [309, 324, 0.412, 0.0625],
  [325, 361, 1.475, 0.125],
  [362, 377, 6.225, 0.25],
  [378, 381, 10.475, 0.5],
  [382, 388, 12.975, 1],
  [425, 437, 4.475, 0.125],
  [438, 445, 6.225, 0.25],
  [446, 460, 8.475, 0.5],
];

/** `214`, `-214`, `ISO 3601-1-214A`: its size in mm, to a hundredth as the standard has it; undefined of no such code. */
export function ringOfCode(text: string): { readonly insideMm: number; readonly sectionMm: number } | undefined {
  const found = /^(?:ISO\s*3601(?:-1)?\s*)?[-–:]?\s*(\d)(\d\d)\s*[AB]?$/i.exec(text.trim());
  if (!found) return undefined;
  const code = Number(`${found[1]}${found[2]}`);
  const run = RUNS.find(([first, last]) => code >= first && code <= last);
  const sectionMm = SECTIONS_MM[found[1]!];
  if (!run || sectionMm === undefined) return undefined;
  const [first, , inside, step] = run;
  // The series is written in thousandths of an inch; halves go up, but for the thinnest rings.
  const thousandths = (inside + (code - first) * step) * 1000;
  const inches = (code < 100 ? Math.floor(thousandths + 1e-6) : Math.round(thousandths + 1e-6)) / 1000;
  return { insideMm: Math.round(inches * MM_PER_INCH * 100 + 1e-6) / 100, sectionMm };
}
