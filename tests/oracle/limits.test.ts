/**
 * ISO 286 row by row: fundamental deviations, Δ, the rules for holes, and bands where sources disagree; ISO 2768 row by
 * row. Sources: `data/README.md` and in the rows.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fitLimits, itGrade } from '../../server/src/tables/fits';
import {
  type GeometricClass,
  generalAngle,
  generalGeometric,
  generalLinear,
  generalRadius,
  type LinearRule,
} from '../../server/src/tables/general-tolerances';
import { num, rowsOf } from './csv';
import { near } from './near';

const um = (mm: number, letter: string, grade: number) => {
  const found = fitLimits(mm, letter, grade);
  assert.ok(found, `${mm} ${letter}${grade}`);
  return { upper: found.upperMm * 1000, lower: found.lowerMm * 1000 };
};
/** Just over the lower end of a range, and at its upper end. */
const ends = (row: Record<string, string>) => [num(row, 'over_mm') + 0.001, num(row, 'incl_mm')];
const GRADES = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14];

describe('oracle: ISO 286 row by row', () => {
  const deviations = rowsOf('iso286-fundamental-deviations.csv');
  const deltas = rowsOf('iso286-delta.csv');

  it('Tables 4 and 5: d to h by their upper, m to s by their lower deviation, in every grade', () => {
    assert.equal(deviations.length, 25);
    for (const row of deviations) {
      for (const mm of ends(row)) {
        for (const grade of GRADES) {
          const width = itGrade(mm, grade)! * 1000;
          for (const letter of ['d', 'e', 'f', 'g', 'h']) {
            const { upper, lower } = um(mm, letter, grade);
            near(upper, num(row, `${letter}_es`), 1e-6, `${mm} ${letter}${grade}`);
            near(upper - lower, width, 0.06, `${mm} ${letter}${grade} width`);
          }
          for (const letter of ['m', 'n', 'p', 'r', 's']) {
            const { upper, lower } = um(mm, letter, grade);
            near(lower, num(row, `${letter}_ei`), 1e-6, `${mm} ${letter}${grade}`);
            near(upper - lower, width, 0.06, `${mm} ${letter}${grade} width`);
          }
          const k = um(mm, 'k', grade);
          near(k.lower, grade <= 7 ? num(row, 'k_ei(IT4..IT7; 0 otherwise)') : 0, 1e-6, `${mm} k${grade}`);
          const js = um(mm, 'js', grade);
          near(js.upper, width / 2, 0.06);
          near(js.lower, -width / 2, 0.06);
        }
      }
    }
  });

  it('Table 3 and its rule: holes K, M, N to IT8 and P, R, S to IT7 are the shaft turned over and shifted by Δ', () => {
    for (const row of deviations) {
      const of = (mm: number) => deltas.find((d) => mm > num(d, 'over_mm') && mm <= num(d, 'incl_mm'))!;
      for (const mm of ends(row)) {
        for (const grade of [5, 6, 7, 8]) {
          const delta = num(of(mm), `delta_IT${grade}_um`);
          for (const letter of ['K', 'M', 'N', 'P', 'R', 'S']) {
            const toEight = 'KMN'.includes(letter);
            if (!toEight && grade === 8) continue;
            const column = letter === 'K' ? 'k_ei(IT4..IT7; 0 otherwise)' : `${letter.toLowerCase()}_ei`;
            const special = letter === 'M' && grade === 6 && mm > 250 && mm <= 315;
            near(
              um(mm, letter, grade).upper,
              special ? -9 : -num(row, column) + delta,
              1e-6,
              `${mm} ${letter}${grade}`,
            );
          }
        }
      }
    }
  });

  it('Δ is the step between a grade and the next finer one, rounded (ISO 286-1, annex)', () => {
    for (const row of deltas.slice(1)) {
      for (const grade of [6, 7, 8]) {
        const mm = num(row, 'incl_mm');
        const step = (itGrade(mm, grade)! - itGrade(mm, grade - 1)!) * 1000;
        near(num(row, `delta_IT${grade}_um`), step, 0.51, `IT${grade} to ${mm}`);
      }
    }
  });

  // Each of these was seen wrong in a table or a first printing; the right one keeps the width of its grade.
  it('where tables go wrong: an open table, and ISO 286-2:1988 before its corrigendum of 2006', () => {
    assert.equal(um(350, 'E', 7).upper, 182, 'an open table has 185');
    assert.equal(um(150, 'f', 6).lower, -68, 'an open table has −48');
    assert.equal(um(8, 'K', 6).lower, -7, 'an open table has −6');
    assert.equal(um(100, 'E', 8).upper, 126, 'ISO 286-2 Cor. 1:2006');
    assert.equal(um(300, 'f', 9).lower, -186, 'ISO 286-2 Cor. 1:2006');
    for (const [mm, letter, grade] of [
      [350, 'E', 7],
      [150, 'f', 6],
      [8, 'K', 6],
    ] as const) {
      const { upper, lower } = um(mm, letter, grade);
      near(upper - lower, itGrade(mm, grade)! * 1000, 1e-6);
    }
  });
});

interface Range {
  readonly source: string;
  readonly ranges_over_incl: readonly (readonly [number, number | null])[];
  readonly [of: string]: unknown;
}
const ISO_2768 = JSON.parse(readFileSync(new URL('./data/iso2768.json', import.meta.url), 'utf8')) as Record<
  string,
  Range
>;

/** Every cell of a table, just over the lower end of its range and at its upper end. */
function each(table: string, classes: string, check: (mm: number, of: string, value: number | null) => void): number {
  const { ranges_over_incl, ...rows } = ISO_2768[table]!;
  let cells = 0;
  for (const of of classes) {
    const values = rows[of] as readonly (number | null)[];
    assert.equal(values.length, ranges_over_incl.length);
    values.forEach((value, i) => {
      const [over, incl] = ranges_over_incl[i]!;
      for (const mm of [over + 0.001, incl ?? over * 3 + 10]) check(mm, of, value);
      cells++;
    });
  }
  return cells;
}

describe('oracle: ISO 2768 row by row', () => {
  it('part 1: sizes, broken edges, angles', () => {
    const cells =
      each('iso2768_1_linear_pm_mm', 'fmcv', (mm, of, value) =>
        assert.equal(generalLinear(mm, of as LinearRule)?.value, value ?? undefined, `${of} ${mm}`),
      ) +
      each('iso2768_1_external_radii_and_chamfers_pm_mm', 'fmcv', (mm, of, value) =>
        assert.equal(generalRadius(mm, of as LinearRule)?.value, value, `${of} ${mm}`),
      ) +
      each('iso2768_1_angular_pm_minutes_by_shorter_leg_mm', 'fmcv', (mm, of, value) =>
        near(generalAngle(mm, of as LinearRule)!.value * 60, value!, 1e-9, `${of} ${mm}`),
      );
    assert.equal(cells, 4 * (8 + 3 + 5));
  });

  it('part 2: straightness and flatness, perpendicularity, symmetry, run-out', () => {
    const of = (what: Parameters<typeof generalGeometric>[0], table: string) =>
      each(table, 'HKL', (mm, c, value) =>
        assert.equal(generalGeometric(what, mm, c as GeometricClass)?.value, value, `${what} ${c} ${mm}`),
      );
    const cells =
      of('flatness', 'iso2768_2_straightness_flatness_mm') +
      of('straightness', 'iso2768_2_straightness_flatness_mm') +
      of('perpendicularity', 'iso2768_2_perpendicularity_mm_by_shorter_leg') +
      of('symmetry', 'iso2768_2_symmetry_mm');
    assert.equal(cells, 3 * (6 + 6 + 4 + 4));
    const runout = ISO_2768.iso2768_2_circular_runout_mm as unknown as Record<GeometricClass, number>;
    for (const c of ['H', 'K', 'L'] as const) assert.equal(generalGeometric('runout', 50, c)?.value, runout[c]);
  });
});
