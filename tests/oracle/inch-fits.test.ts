/**
 * ANSI B4.1 against what Machinery's Handbook, 31st edition, prints beside the limits: the clearance or interference of each
 * class (columns of Tables 8a, 8b, 10, 12), and its worked example on p. 651. 27th edition p. 663 for force fits. A public
 * table for LC6 to LC11.
 */
import assert from 'node:assert/strict';
import { fitLimits } from '../../server/src/tables/fits';
import { INCH_FAMILIES, inchLimits } from '../../server/src/tables/inch-fits';
import { near } from './near';

/** Upper and lower limit, thousandths of an inch. */
function thou(inches: number, letter: string, grade: number): readonly [number, number] {
  const found = fitLimits(inches * 25.4, letter, grade);
  assert.ok(found, `${inches} in ${letter}${grade}`);
  return [(found.upperMm / 25.4) * 1000, (found.lowerMm / 25.4) * 1000];
}

/** A size in each range, in. */
const SIZES = [0.1, 0.2, 0.3, 0.5, 1, 1.5, 2, 4, 6, 8, 11, 14, 18];

/** Least and most clearance of a class at a size; negative is interference. */
function play(inches: number, letter: string, grade: number): readonly [number, number] {
  const [holeUpper, holeLower] = thou(inches, letter, grade);
  const [shaftUpper, shaftLower] = thou(inches, letter.toLowerCase(), grade);
  return [holeLower - shaftUpper, holeUpper - shaftLower];
}

describe('oracle: ANSI B4.1', () => {
  it('the handbook’s example: 2 in RC1', () => {
    const [hole, shaft] = [thou(2, 'RC', 1), thou(2, 'rc', 1)];
    near(hole[0], 0.5, 1e-3);
    near(hole[1], 0, 1e-3);
    near(shaft[0], -0.4, 1e-3);
    near(shaft[1], -0.7, 1e-3);
  });

  // Most clearance as printed, by range; ranges that the page at hand was cut off at are left out.
  const MOST: Readonly<Record<string, readonly number[]>> = {
    RC1: [0.45, 0.5, 0.6, 0.75, 0.95, 1.1, 1.2, 1.5, 1.8, 2, 2.3, 2.7, 3],
    RC3: [0.95, 1.2, 1.5, 1.7, 2.1, 2.6, 3.1, 3.7, 4.2, 5, 5.7, 6.6, 8.1],
    RC4: [1.3, 1.6, 2, 2.3, 2.8, 3.6, 4.2, 5, 5.7, 6.6, 7.5, 8.7],
    RC5: [1.6, 2, 2.5, 2.9, 3.6, 4.6, 5.5, 6.6, 7.6, 8.6],
    RC6: [2.2, 2.7, 3.3, 3.8, 4.8, 6.1, 7.3, 8.7],
    RC7: [2.6, 3.1, 3.9, 4.6, 5.7, 7.1, 8.8],
    RC8: [5.1, 5.8, 6.6, 7.9],
    RC9: [8.1, 9, 10.7, 12.8, 15.5, 18, 20.5, 24, 28, 34, 38, 45, 51],
    LC6: [1.9, 2.3, 2.8, 3.2, 4, 5.1],
    LC7: [3.2, 3.8, 4.6, 5.6, 7.1, 8.5],
    LC9: [6.6, 7.6, 8.7, 10.3, 13],
    LC10: [12, 14.5, 17, 20, 23],
    LC11: [17, 20, 25, 28, 34],
    LT2: [0.8, 0.95, 1.2, 1.35, 1.6, 2.1, 2.4, 2.9, 3.3, 3.7, 4, 4.5, 5.2],
    LT5: [0.15, 0.2, 0.2, 0.2, 0.2, 0.3, 0.4, 0.4, 0.4, 0.4, 0.6, 0.6, 0.7],
  };
  it('the most clearance of each class is as printed', () => {
    for (const [name, row] of Object.entries(MOST))
      row.forEach((most, i) => {
        near(play(SIZES[i]!, name.slice(0, 2), Number(name.slice(2)))[1], most, 0.011, `${name} ${SIZES[i]}`);
      });
  });

  // Most interference as printed.
  const TIGHT: Readonly<Record<string, readonly number[]>> = {
    LT2: [0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1, 1.2],
    LT5: [0.5, 0.6, 0.8, 0.9, 1.1, 1.3, 1.5, 1.9, 2.2, 2.6, 2.6, 3, 3.4],
    LT6: [0.65, 0.8, 1, 1.2, 1.4, 1.7, 2],
    LN1: [0.45, 0.5, 0.65, 0.8, 1, 1.1, 1.3, 1.6, 1.9, 2.2, 2.3, 2.6, 2.8],
    LN2: [0.65, 0.8, 1, 1.1, 1.3, 1.6, 2.1, 2.5, 2.8, 3.2, 3.4, 3.9, 4.4],
    LN3: [0.75, 0.9, 1.2, 1.4, 1.7, 2, 2.3, 2.9, 3.5, 4.2, 4.7, 5.9, 6.6],
  };
  it('the most interference of each class is as printed', () => {
    for (const [name, row] of Object.entries(TIGHT))
      row.forEach((most, i) => {
        near(-play(SIZES[i]!, name.slice(0, 2), Number(name.slice(2)))[0], most, 0.011, `${name} ${SIZES[i]}`);
      });
  });

  // Least and most interference of force fits, 27th edition p. 663, 31st p. 659.
  it('force fits, least and most interference', () => {
    const rows: readonly (readonly [number, number, number, number])[] = [
      [0.1, 1, 0.05, 0.5],
      [0.3, 2, 0.4, 1.4],
      [0.8, 2, 0.6, 1.9],
      [1, 3, 0.8, 2.1],
      [1, 4, 1, 2.3],
      [1, 5, 1.3, 3.3],
      [2, 2, 0.8, 2.7],
      [2.2, 4, 2.3, 4.2],
      [3.5, 5, 4.8, 8.4],
      [5, 1, 1.2, 2.9],
      [5.2, 2, 1.9, 4.5],
      [6, 3, 3.4, 6],
      [7, 4, 6.4, 9],
      [8, 5, 13.2, 17.8],
    ];
    for (const [inches, grade, least, most] of rows) {
      const [loose, tight] = play(inches, 'FN', grade);
      near(-tight, least, 0.011, `FN${grade} ${inches}`);
      near(-loose, most, 0.011, `FN${grade} ${inches}`);
    }
  });

  it('clearance fits have clearance, interference fits none, over every class and size that there is', () => {
    let counted = 0;
    for (const [letter, last] of INCH_FAMILIES)
      for (let grade = 1; grade <= last; grade++)
        for (const inches of SIZES) {
          if (!inchLimits(inches * 25.4, letter, grade)) continue;
          counted++;
          const [least, most] = play(inches, letter, grade);
          assert.ok(most > least);
          if (letter === 'RC' || letter === 'LC') assert.ok(least >= 0, `${letter}${grade} ${inches}`);
          // LN1 of the smaller sizes, and it alone, may come to nothing at all.
          if (letter === 'FN' || letter === 'LN') assert.ok(most <= 1e-9, `${letter}${grade} ${inches}`);
        }
    // 34 classes of 13 ranges; LT3 and LT4 begin over 0.24 in, FN3 over 0.95 in.
    assert.equal(counted, 34 * 13 - 2 * 2 - 4);
  });

  it('none outside the tables', () => {
    for (const [mm, letter, grade] of [
      [25.4, 'RC', 10],
      [25.4, 'FN', 6],
      [5, 'LT', 3],
      [20, 'FN', 3],
      [501, 'RC', 4],
      [0, 'RC', 4],
    ] as const)
      assert.equal(fitLimits(mm, letter, grade), undefined, `${mm} ${letter}${grade}`);
  });
});
