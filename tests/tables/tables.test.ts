import assert from 'node:assert/strict';
import fc from 'fast-check';
import { drillsBetween, isStandardDrill, METRIC_DRILLS, nearestDrill } from '../../server/src/tables/drills';
import { fitLimits, gradeOf, itGrade, parseFit } from '../../server/src/tables/fits';
import { parseGeneralTolerance } from '../../server/src/tables/general-tolerances';
import { editDistance, nearest } from '../../server/src/tables/nearest';
import { PROCESSES, processAbility } from '../../server/src/tables/process';
import { THREADS } from '../../server/src/tables/threads';
import { endMillFluteMm, jobberFluteMm, usualShankMm } from '../../server/src/tables/tool-lengths';

const INCH_DRILLS = drillsBetween(0, 100, 'inch');
const drillNamed = (name: string) => INCH_DRILLS.find((d) => d.name === name);

describe('reference: drills', () => {
  it('the metric series has every tap drill of metric threads to 32 mm, the inch series every unified one to 1 in', () => {
    for (const thread of THREADS) {
      // Of 3.15 ISO 235 has none, nor tenths over 14 mm (trapezoidal); of a fine UN pitch no drill may be within the limits, and the hole is bored.
      if (thread.tapDrillMm > (thread.tapDrillName ? 25.4 : 32) || thread.tapDrillMm === 3.15 || thread.series === 'Tr')
        continue;
      const system = thread.tapDrillName === undefined ? 'metric' : 'inch';
      assert.ok(isStandardDrill(thread.tapDrillMm, system), `${thread.designation}: ${thread.tapDrillMm}`);
      if (thread.tapDrillName) assert.equal(drillNamed(thread.tapDrillName)?.diameterMm, thread.tapDrillMm);
    }
  });

  it('steps of 0.05 to 3 mm, of 0.1 with quarters to 14', () => {
    for (const mm of [0.5, 1, 1.05, 2.95, 3, 3.1, 3.25, 4.2, 6.75, 12.9, 13, 14, 14.25, 20]) {
      assert.equal(nearestDrill(mm).diameterMm, mm, String(mm));
    }
    assert.equal(isStandardDrill(3.05), false);
    assert.equal(isStandardDrill(4.22), false);
  });

  it('the nearest drill is none farther than any other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 25, noNaN: true }), (mm) => {
        const got = Math.abs(nearestDrill(mm).diameterMm - mm);
        return METRIC_DRILLS.every((d) => Math.abs(d.diameterMm - mm) >= got - 1e-6);
      }),
      { seed: 3, numRuns: 200 },
    );
    assert.equal(nearestDrill(3.15).diameterMm, 3.1, 'the smaller of two equally near');
  });

  it('sorted, without doubles; names find their drill', () => {
    for (const series of [METRIC_DRILLS, INCH_DRILLS]) {
      for (let i = 1; i < series.length; i++) assert.ok(series[i]!.diameterMm >= series[i - 1]!.diameterMm);
    }
    for (const [name, inches] of [
      ['#1', 0.228],
      ['#80', 0.0135],
      ['A', 0.234],
      ['Z', 0.413],
      ['1/2', 0.5],
      ['27/64', 0.421875],
    ] as const) {
      assert.ok(Math.abs(drillNamed(name)!.diameterMm - inches * 25.4) < 1e-3, name);
    }
    assert.deepEqual(
      drillsBetween(4.1, 4.3).map((d) => d.name),
      ['4.1', '4.2', '4.25', '4.3'],
    );
  });
});

describe('reference: usual lengths of cutters', () => {
  it('grow with the diameter', () => {
    for (let d = 0.5; d < 30; d += 0.5) {
      assert.ok(jobberFluteMm(d) <= jobberFluteMm(d + 0.5) + 1e-9, `drill ${d}`);
      assert.ok(endMillFluteMm(d) <= endMillFluteMm(d + 0.5) + 1e-9, `end mill ${d}`);
      assert.ok(usualShankMm(d, 'metric', 6) >= Math.min(d, 32));
    }
  });
  it('as in DIN 338 and ISO 1641-1 (from memory)', () => {
    assert.deepEqual([1, 3, 4.2, 6.8, 10.2, 13].map(jobberFluteMm), [12, 33, 43, 69, 87, 101]);
    assert.deepEqual([2, 3, 6, 10, 12, 20].map(endMillFluteMm), [7, 8, 13, 22, 26, 38]);
    assert.equal(usualShankMm(3, 'metric', 6), 6);
    assert.equal(usualShankMm(6.35, 'inch'), 6.35);
    assert.equal(usualShankMm(60, 'metric'), 60);
  });
});

describe('reference: fits at the edges', () => {
  it('undefined outside the tables, never a throw', () => {
    for (const mm of [0, -1, 500.01, Number.NaN]) {
      assert.equal(itGrade(mm, 7), undefined);
      assert.equal(fitLimits(mm, 'H', 7), undefined);
      assert.equal(gradeOf(mm, 0.1), undefined);
    }
    for (const grade of [0, 19, 7.5]) assert.equal(itGrade(25, grade), undefined);
    for (const letter of ['', 'I', 'zd', 'cd', 'Hh', '1', 'H7'])
      assert.equal(fitLimits(25, letter, 7), undefined, letter);
    assert.equal(fitLimits(1, 'a', 11), undefined, 'a and b are not used to 1 mm');
    assert.equal(fitLimits(20, 't', 6), undefined, 't begins over 24 mm');
    assert.equal(gradeOf(25, Number.NaN), undefined);
  });

  it('upper is over lower by the width of the grade', () => {
    const letter = fc.constantFrom(...'abcdefghjkmnprstuxABCDEFGHJKMNPRSTUX'.split(''), 'js', 'JS');
    fc.assert(
      fc.property(
        letter,
        fc.integer({ min: 1, max: 16 }),
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        (l, grade, mm) => {
          const limits = fitLimits(mm, l, grade);
          return limits === undefined || Math.abs(limits.upperMm - limits.lowerMm - itGrade(mm, grade)!) < 1.1e-4;
        },
      ),
      { seed: 7, numRuns: 600 },
    );
  });

  it('reads a class', () => {
    assert.deepEqual(parseFit(' H7 '), { letter: 'H', grade: 7 });
    assert.deepEqual(parseFit('js6'), { letter: 'js', grade: 6 });
    for (const text of ['H', '7', 'H7/g6', 'Hx7', 'H 7', '']) assert.equal(parseFit(text), undefined, text);
  });
});

describe('reference: general tolerances as drawings cite them', () => {
  it('reads the usual spellings', () => {
    assert.deepEqual(parseGeneralTolerance('ISO 2768-m'), { linear: 'm' });
    assert.deepEqual(parseGeneralTolerance('ISO 2768-mK'), { linear: 'm', geometric: 'K' });
    assert.deepEqual(parseGeneralTolerance('iso 2768 - f-H'), { linear: 'f', geometric: 'H' });
    assert.deepEqual(parseGeneralTolerance('DIN ISO 2768 cL'), { linear: 'c', geometric: 'L' });
    for (const text of ['', 'ISO 2768', 'ISO 2768-x', 'm', 'ISO 286-m']) {
      assert.equal(parseGeneralTolerance(text), undefined, text);
    }
  });
});

describe('reference: processes', () => {
  it('ranges run from fine to coarse, each with a source', () => {
    for (const p of PROCESSES) {
      if (p.grades) assert.ok(p.grades[0] <= p.grades[1], p.name);
      if (p.raUm) assert.ok(p.raUm[0] < p.raUm[1], p.name);
      assert.ok(p.source);
    }
    assert.equal(processAbility('reaming')?.grades?.[0], 6);
    assert.equal(processAbility('wishing'), undefined);
  });
});

describe('reference: the nearest name', () => {
  it('counts letters put in, taken out, changed, swapped', () => {
    assert.equal(editDistance('', 'abc'), 3);
    assert.equal(editDistance('reach', 'reach'), 0);
    assert.equal(editDistance('raech', 'reach'), 1);
    assert.equal(editDistance('kitten', 'sitting'), 3);
  });
  it('is symmetric and no longer than the longer word', () => {
    const word = fc.string({ maxLength: 12 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        const d = editDistance(a, b);
        return d === editDistance(b, a) && d <= Math.max(a.length, b.length) && (d === 0) === (a === b);
      }),
      { seed: 11, numRuns: 300 },
    );
  });
  it('guesses a slip, not a stranger', () => {
    assert.equal(nearest('diametre', ['depth', 'diameter']), 'diameter');
    assert.equal(nearest('Flutes', ['flutes']), 'flutes');
    assert.equal(nearest('colour', ['depth', 'diameter']), undefined);
    assert.equal(nearest('x', []), undefined);
  });
});

describe('flutes of end mills', () => {
  it('go by the ranges of ISO 1641-1, standard series (from memory): 11 over 3.75 up to 4.75, 13 up to 6', () => {
    for (const [diameterMm, fluteMm] of [
      [3.75, 10],
      [4, 11],
      [4.5, 11],
      [4.75, 11],
      [5, 13],
      [6, 13],
      [6.5, 16],
    ] as const)
      assert.equal(endMillFluteMm(diameterMm), fluteMm, `${diameterMm}`);
  });
});
