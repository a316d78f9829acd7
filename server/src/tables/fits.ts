/**
 * Limits and fits of ISO 286 (inch classes of ANSI B4.1 are in `inch-fits.ts`): tolerance grades, and the limits of a class such as `H7` or `g6`, for nominal sizes over 0
 * up to and including 500 mm. The tables are in `fits.data.ts`; the rules below are those of ISO 286-1, clause 4.
 */
import {
  COARSE_SOURCE,
  DELTA_ROWS,
  DEVIATION_UP_TO,
  IT_ROWS,
  J_UPPER_UM,
  OPEN_SOURCE,
  SHAFT_TO_10_UM,
  SHAFT_UM,
  TABLE_SOURCE,
} from './fits.data';
import { inchLimits, isInchFit } from './inch-fits';

/** The standard's last; and the largest size, mm, of the tables. */
export const COARSEST_GRADE = 18;
export const LARGEST_MM = 500;

interface Limits {
  /** Relative to the nominal size, mm. */
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly source: string;
}

/** Width of a tolerance grade at a nominal size, mm: `itGrade(25, 7)` is 0.021. IT1 to IT18; undefined outside the table. */
export function itGrade(nominalMm: number, grade: number): number | undefined {
  const um = itUm(nominalMm, grade);
  return um === undefined ? undefined : um / 1000;
}

/**
 * The coarsest grade whose width still lies within `widthMm` at this size: ±0.05 on 40 is a width of 0.1, IT10.
 * 0 where it is tighter than IT1; 18 also for anything wider. Undefined where the size is not in the table.
 */
export function gradeOf(nominalMm: number, widthMm: number): number | undefined {
  const row = IT_ROWS[rangeOf(nominalMm)];
  if (!row || !(widthMm >= 0)) return undefined;
  let grade = 0;
  // The sum of two decimal deviations misses its true value in the last digit.
  while (grade < COARSEST_GRADE && row[grade + 1]! / 1000 <= widthMm + 1e-9) grade++;
  return grade;
}

/** Whether a text is a tolerance class by its form, `H7`, `js6`, `zc11`, known or not. */
export function parseFit(text: string): { readonly letter: string; readonly grade: number } | undefined {
  const found = /^([A-Z]{1,2}|[a-z]{1,2})(\d{1,2})$/.exec(text.trim());
  return found ? { letter: found[1]!, grade: Number(found[2]) } : undefined;
}

/**
 * The limits of a tolerance class at a nominal size. An upper-case letter is a hole, a lower-case one a shaft.
 * Undefined for a class that ISO 286-1, or of `RC4` and its like ANSI B4.1, does not have at this size.
 */
export function fitLimits(nominalMm: number, letter: string, grade: number): Limits | undefined {
  if (isInchFit(letter)) return inchLimits(nominalMm, letter, grade);
  const itWidthUm = itUm(nominalMm, grade);
  if (itWidthUm === undefined || !/^([A-Z]{1,2}|[a-z]{1,2})$/.test(letter)) return undefined;
  const hole = letter === letter.toUpperCase();
  const shaft = letter.toLowerCase();
  const range = rangeOf(nominalMm);
  // ISO 286-1, notes of its tables: so coarse at 1 mm and below would leave nothing.
  if (nominalMm <= 1 && grade > 16) return undefined;
  const open = shaft === 'j' || shaft in SHAFT_TO_10_UM;
  const source = open ? OPEN_SOURCE : grade > 16 ? COARSE_SOURCE : TABLE_SOURCE;
  const answer = (upperUm: number): Limits => ({
    upperMm: clean(upperUm),
    lowerMm: clean(upperUm - itWidthUm),
    source,
  });

  if (shaft === 'js') return answer(itWidthUm / 2);
  if (shaft === 'j') {
    const upperUm = J_UPPER_UM[`${letter}${grade}`]?.[range];
    return upperUm === undefined ? undefined : answer(upperUm);
  }
  const deviation = fundamentalUm(nominalMm, shaft, hole ? 7 : grade);
  if (deviation === undefined) return undefined;
  const clearance = shaft <= 'h';
  if (!hole) return answer(clearance ? deviation : deviation + itWidthUm);
  if (clearance) return answer(-deviation + itWidthUm);
  const upperUm = holeUpperUm(nominalMm, shaft, grade, deviation, range);
  return upperUm === undefined ? undefined : answer(upperUm);
}

/** Upper deviation ES of holes K to ZC from the shaft's ei, with the delta rule and its exceptions. */
function holeUpperUm(nominalMm: number, shaft: string, grade: number, ei: number, range: number): number | undefined {
  const deltaTo = shaft === 'k' || shaft === 'm' || shaft === 'n' ? 8 : 7;
  if (shaft === 'm' && grade === 6 && nominalMm > 250 && nominalMm <= 315) return -9;
  if (grade <= deltaTo) {
    // At 3 mm and below Δ is 0 for every grade; the table has none below IT3.
    const delta = nominalMm <= 3 ? 0 : DELTA_ROWS[range]?.[grade - 2];
    return delta === undefined ? undefined : -ei + delta;
  }
  if (shaft === 'k') return nominalMm <= 3 ? 0 : undefined;
  if (shaft === 'n') return nominalMm <= 3 ? -ei : 0;
  return -ei;
}

function fundamentalUm(nominalMm: number, shaft: string, grade: number): number | undefined {
  if (shaft === 'h') return 0;
  if (shaft === 'k' && (grade < 4 || grade > 7)) return 0;
  // ISO 286-1: a and b are not used at 1 mm and below.
  if ((shaft === 'a' || shaft === 'b') && nominalMm <= 1) return undefined;
  const column = SHAFT_UM[shaft] ?? SHAFT_TO_10_UM[shaft];
  return column?.[DEVIATION_UP_TO.findIndex((upTo) => nominalMm <= upTo)] ?? undefined;
}

function itUm(nominalMm: number, grade: number): number | undefined {
  if (!Number.isInteger(grade) || grade < 1 || grade > COARSEST_GRADE) return undefined;
  return IT_ROWS[rangeOf(nominalMm)]?.[grade];
}

/** Index of the range in `IT_ROWS`, −1 outside 0 < size ≤ 500. */
function rangeOf(nominalMm: number): number {
  return nominalMm > 0 ? IT_ROWS.findIndex((row) => nominalMm <= row[0]!) : -1;
}

/** Micrometres to millimetres without a −0 or a tail of binary digits. */
function clean(um: number): number {
  return Math.round(um * 10) / 10000 || 0;
}
