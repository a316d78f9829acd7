/**
 * ISO 286-1, annex A (formulas for the tolerance unit i, standard tolerances and fundamental deviations). D is the geometric
 * mean of a range, mm; all else µm. The standard rounds what its formulas give, and by rules of its own below 50 mm and for
 * what is small: so a value of the table counts as the same within the shares below. A digit that is wrong is further off.
 */
import { near, type Row, type Second, textOf } from './row';

const STEPS = [
  0, 3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500,
];
const MAIN_STEPS = [0, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];

/** Of the range that ends at a size; the first begins at 1 mm for this purpose. */
function meanOf(steps: readonly number[], upTo: number): number {
  const at = steps.findIndex((s) => upTo <= s);
  return Math.sqrt(Math.max(1, steps[at - 1]!) * steps[at]!);
}

const MULTIPLES: Readonly<Record<number, number>> = {
  5: 7,
  6: 10,
  7: 16,
  8: 25,
  9: 40,
  10: 64,
  11: 100,
  12: 160,
  13: 250,
  14: 400,
  15: 640,
  16: 1000,
  17: 1600,
  18: 2500,
};

function gradeUm(upTo: number, grade: number): number {
  const d = meanOf(MAIN_STEPS, upTo);
  const i = 0.45 * Math.cbrt(d) + 0.001 * d;
  if (grade >= 5) return MULTIPLES[grade]! * i;
  const first = 0.8 + 0.02 * d;
  // IT2 to IT4 go about evenly, by ratio, from IT1 to IT5.
  return first * ((7 * i) / first) ** ((grade - 1) / 4);
}

export const grades: Second = (row) => {
  const [upTo, grade, um] = [row.up_to_mm, row.grade, row.um] as [number, number, number];
  // The finest grades are off their formulas by up to a quarter: no check of a digit.
  if (grade < 5) return undefined;
  const share = upTo === 3 ? 0.135 : upTo === 6 && grade === 6 ? 0.085 : 0.055;
  return near(um, gradeUm(upTo, grade), share * um, textOf(row));
};

type Formula = (d: number, it: (grade: number) => number) => number;
const SHAFTS: Readonly<Record<string, Formula>> = {
  a: (d) => -(d <= 120 ? 265 + 1.3 * d : 3.5 * d),
  b: (d) => -(d <= 160 ? 140 + 0.85 * d : 1.8 * d),
  c: (d) => -(d <= 40 ? 52 * d ** 0.2 : 95 + 0.8 * d),
  cd: (d) => -Math.sqrt(52 * d ** 0.2 * 16 * d ** 0.44),
  d: (d) => -16 * d ** 0.44,
  e: (d) => -11 * d ** 0.41,
  ef: (d) => -Math.sqrt(11 * d ** 0.41 * 5.5 * d ** 0.41),
  f: (d) => -5.5 * d ** 0.41,
  fg: (d) => -Math.sqrt(5.5 * d ** 0.41 * 2.5 * d ** 0.34),
  g: (d) => -2.5 * d ** 0.34,
  h: () => 0,
  js: (_, it) => it(7) / 2,
  k: (d) => 0.6 * Math.cbrt(d),
  m: (_, it) => it(7) - it(6),
  n: (d) => 5 * d ** 0.34,
  p: (_, it) => it(7) + 2.5,
  r: (d, it) => Math.sqrt((it(7) + 2.5) * SHAFTS.s!(d, it)),
  s: (d, it) => (d <= 50 ? it(8) + 2.5 : it(7) + 0.4 * d),
  t: (d, it) => it(7) + 0.63 * d,
  u: (d, it) => it(7) + d,
  v: (d, it) => it(7) + 1.25 * d,
  x: (d, it) => it(7) + 1.6 * d,
  y: (d, it) => it(7) + 2 * d,
  z: (d, it) => it(7) + 2.5 * d,
  za: (d, it) => it(8) + 3.15 * d,
  zb: (d, it) => it(9) + 4 * d,
  zc: (d, it) => it(10) + 5 * d,
};

/** Where the standard's table goes by no formula of its annex. */
function isOffItsFormula(letter: string, upTo: number): boolean {
  if (letter === 'c') return upTo <= 40;
  if (letter === 'p' || letter === 'r') return upTo <= 3;
  return /^(u|x|z|za|zb|zc)$/.test(letter) && upTo <= 14;
}

export const shafts: Second = (row) => {
  const [letter, upTo, um] = [row.shaft, row.up_to_mm, row.um] as [string, number, number];
  // The letter j has no formula.
  const formula = SHAFTS[letter];
  if (!formula || isOffItsFormula(letter, upTo)) return undefined;
  // One value for both halves of a main range: of its mean.
  const steps = 'defgm'.includes(letter) ? MAIN_STEPS : STEPS;
  const expected = formula(meanOf(steps, upTo), (grade) => gradeUm(upTo, grade));
  return near(um, letter === 'js' ? -expected : expected, Math.max(0.08 * Math.abs(um), 2.5), textOf(row));
};

/** Δ of a grade: what it is wider than the next finer one; 0 to 3 mm. */
export const deltas: Second = (row: Row) => {
  const upTo = row.up_to_mm as number;
  (row.um_of_grades_3_to_8 as readonly number[]).forEach((delta, i) => {
    const expected = upTo <= 3 ? 0 : gradeUm(upTo, i + 3) - gradeUm(upTo, i + 2);
    near(delta, expected, Math.max(0.12 * delta, 1.5), `${textOf(row)}, IT${i + 3}`);
  });
  return true;
};
