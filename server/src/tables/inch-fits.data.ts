/**
 * ANSI B4.1 (R2009) as rows, thousandths of an inch. Data only; `inch-fits.ts` reads it. Read in Machinery's Handbook, 31st
 * edition, Tables 8a and 8b (pp. 646 to 649), 10 (p. 654), 11 (p. 659) and 12 (p. 660), the small sizes of FN in the 27th (p. 663).
 */

export const INCH_SOURCE = "ANSI B4.1, Machinery's Handbook 31 pp. 646 to 660";
/** LC1 to LC5 by the grades and letters that the standard's table heads; LC10 and LC11 over 1.19 in, LT1 over 3.15 in. */
export const INCH_MEMORY = 'ANSI B4.1, from memory';

/** Ranges: over the one before, up to and including, in. */
export const INCH_UP_TO: readonly number[] = [
  0.12, 0.24, 0.4, 0.71, 1.19, 1.97, 3.15, 4.73, 7.09, 9.85, 12.41, 15.75, 19.69,
];

/** Widths of the grades, one value for each of `INCH_UP_TO`. */
export const INCH_GRADES: Readonly<Record<number, readonly number[]>> = {
  4: [0.15, 0.15, 0.15, 0.2, 0.25, 0.3, 0.3, 0.4, 0.5, 0.6, 0.6, 0.7, 0.8],
  5: [0.2, 0.2, 0.25, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1],
  6: [0.25, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.9, 1, 1.2, 1.2, 1.4, 1.6],
  7: [0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5],
  8: [0.6, 0.7, 0.9, 1, 1.2, 1.6, 1.8, 2.2, 2.5, 2.8, 3, 3.5, 4],
  9: [1, 1.2, 1.4, 1.6, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 6],
  10: [1.6, 1.8, 2.2, 2.8, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10],
  11: [2.5, 3, 3.5, 4, 5, 6, 7, 9, 10, 12, 12, 14, 16],
  12: [4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 25],
  13: [6, 7, 9, 10, 12, 16, 18, 22, 25, 28, 30, 35, 40],
};

/** What a shaft is off the nominal: the upper deviation, negative, of clearance fits; the lower one of n and k. */
export const INCH_LETTERS: Readonly<Record<string, readonly (number | null)[]>> = {
  c: [-2.5, -2.8, -3, -3.5, -4.5, -5, -6, -7, -8, -10, -12, -14, -16],
  d: [-1, -1.2, -1.6, -2, -2.5, -3, -4, -5, -6, -7, -8, -10, -12],
  e: [-0.6, -0.8, -1, -1.2, -1.6, -2, -2.5, -3, -3.5, -4, -5, -6, -8],
  f: [-0.3, -0.4, -0.5, -0.6, -0.8, -1, -1.2, -1.4, -1.6, -2, -2.5, -3, -4],
  g: [-0.1, -0.15, -0.2, -0.25, -0.3, -0.4, -0.4, -0.5, -0.6, -0.6, -0.8, -1, -1.2],
  h: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  k: [null, null, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.2, 0.2, 0.2, 0.2],
  n: [0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.4, 1.4, 1.6, 1.8],
  RC9: [-4, -4.5, -5, -6, -7, -8, -9, -10, -12, -15, -18, -22, -25],
  LC10: [-4, -4.5, -5, -6, -7, -8, -10, -11, -12, -16, -20, -22, -25],
  LC11: [-5, -6, -7, -8, -10, -12, -14, -16, -18, -22, -28, -30, -35],
};

/** Classes whose shaft is a letter and a grade: [grade of the hole, letter, grade of the shaft]. */
export const INCH_FITS: Readonly<Record<string, readonly [hole: number, letter: string, shaft: number]>> = {
  RC1: [5, 'g', 4],
  RC2: [6, 'g', 5],
  RC3: [7, 'f', 6],
  RC4: [8, 'f', 7],
  RC5: [8, 'e', 7],
  RC6: [9, 'e', 8],
  RC7: [9, 'd', 8],
  RC8: [10, 'c', 9],
  RC9: [11, 'RC9', 10],
  LC1: [6, 'h', 5],
  LC2: [7, 'h', 6],
  LC3: [8, 'h', 7],
  LC4: [10, 'h', 9],
  LC5: [7, 'g', 6],
  LC6: [9, 'f', 8],
  LC7: [10, 'e', 9],
  LC8: [10, 'd', 9],
  LC9: [11, 'c', 10],
  LC10: [12, 'LC10', 12],
  LC11: [13, 'LC11', 13],
  LT3: [7, 'k', 6],
  LT4: [8, 'k', 7],
  LT5: [7, 'n', 6],
  LT6: [7, 'n', 7],
};

/** Classes whose shaft lies to both sides: [grade of the hole, half the shaft's width]. */
export const INCH_EQUAL: Readonly<Record<string, readonly [hole: number, half: readonly number[]]>> = {
  LT1: [7, [0.12, 0.15, 0.2, 0.2, 0.25, 0.3, 0.3, 0.4, 0.5, 0.6, 0.6, 0.7, 0.8]],
  LT2: [8, [0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1, 1.2]],
};

/** Classes with interference: [grade of the hole, lower and upper deviation of the shaft in each range]. */
type Pressed = readonly [hole: number, lower: readonly (number | null)[], upper: readonly (number | null)[]];
export const INCH_PRESSED: Readonly<Record<string, Pressed>> = {
  LN1: [
    6,
    [0.25, 0.3, 0.4, 0.4, 0.5, 0.6, 0.8, 1, 1.2, 1.4, 1.4, 1.6, 1.8],
    [0.45, 0.5, 0.65, 0.8, 1, 1.1, 1.3, 1.6, 1.9, 2.2, 2.3, 2.6, 2.8],
  ],
  LN2: [
    7,
    [0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8],
    [0.65, 0.8, 1, 1.1, 1.3, 1.6, 2.1, 2.5, 2.8, 3.2, 3.4, 3.9, 4.4],
  ],
  LN3: [
    7,
    [0.5, 0.6, 0.8, 1, 1.2, 1.4, 1.6, 2, 2.5, 3, 3.5, 4.5, 5],
    [0.75, 0.9, 1.2, 1.4, 1.7, 2, 2.3, 2.9, 3.5, 4.2, 4.7, 5.9, 6.6],
  ],
};

/** The finer ranges of force fits, in. */
export const FORCE_UP_TO: readonly number[] = [
  0.12, 0.24, 0.4, 0.56, 0.71, 0.95, 1.19, 1.58, 1.97, 2.56, 3.15, 3.94, 4.73, 5.52, 6.3, 7.09, 7.88, 8.86, 9.85, 11.03,
  12.41, 13.98, 15.75, 17.72, 19.69,
];
/** The range from 3.94 to 4.73 in, and of FN2 the last two, are from memory. */
export const INCH_FORCE: Readonly<Record<string, Pressed>> = {
  FN1: [
    6,
    [0.3, 0.4, 0.5, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.3, 1.4, 1.8, 2, 2.2, 2.5, 2.8, 3, 3.5, 3.5, 4, 4, 4.5, 5, 6, 6],
    [
      0.5, 0.6, 0.75, 0.8, 0.9, 1.1, 1.2, 1.3, 1.4, 1.8, 1.9, 2.4, 2.6, 2.9, 3.2, 3.5, 3.8, 4.3, 4.3, 4.9, 4.9, 5.5,
      6.1, 7, 7,
    ],
  ],
  FN2: [
    7,
    [0.6, 0.7, 1, 1.2, 1.2, 1.4, 1.4, 1.8, 1.8, 2, 2.2, 2.8, 3, 3.5, 4, 4.5, 5, 5, 6, 6, 7, 8, 8, 9, 10],
    [
      0.85, 1, 1.4, 1.6, 1.6, 1.9, 1.9, 2.4, 2.4, 2.7, 2.9, 3.7, 3.9, 4.5, 5, 5.5, 6.2, 6.2, 7.2, 7.2, 8.2, 9.4, 9.4,
      10.6, 11.6,
    ],
  ],
  FN3: [
    7,
    [null, null, null, null, null, null, 1.6, 2, 2.2, 2.5, 3, 3.5, 4, 5, 5, 6, 7, 7, 8, 9, 9, 10, 12, 12, 14],
    [
      null,
      null,
      null,
      null,
      null,
      null,
      2.1,
      2.6,
      2.8,
      3.2,
      3.7,
      4.4,
      4.9,
      6,
      6,
      7,
      8.2,
      8.2,
      9.2,
      10.2,
      10.2,
      11.4,
      13.4,
      13.6,
      15.6,
    ],
  ],
  FN4: [
    7,
    [0.7, 0.9, 1.2, 1.4, 1.4, 1.6, 1.8, 2.5, 2.8, 3.5, 4, 5, 6, 7, 7, 8, 9, 10, 12, 12, 14, 16, 18, 20, 22],
    [
      0.95, 1.2, 1.6, 1.8, 1.8, 2.1, 2.3, 3.1, 3.4, 4.2, 4.7, 5.9, 6.9, 8, 8, 9, 10.2, 11.2, 13.2, 13.2, 15.2, 17.4,
      19.4, 21.6, 23.6,
    ],
  ],
  FN5: [
    8,
    [0.9, 1.2, 1.4, 1.6, 1.8, 2.2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 12, 14, 16, 16, 18, 20, 22, 25, 28, 30],
    [
      1.3, 1.7, 2, 2.3, 2.5, 3, 3.3, 4, 5, 6.2, 7.2, 8.4, 9.4, 11.6, 13.6, 13.6, 15.8, 17.8, 17.8, 20, 22, 24.2, 27.2,
      30.5, 32.5,
    ],
  ],
};
