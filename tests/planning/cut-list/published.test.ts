/** Cut lists against published examples of the cutting-stock problem. */
import assert from 'node:assert/strict';
import { solverWithin } from '../../../server/src/node/solver';
import { cutList, provenCutList } from '../../../server/src/planning/cut-list/cut-list';
import type { CutListAsk, Demand } from '../../../server/src/planning/cut-list/types';

const NOTHING_LOST = { kerfMm: 0, clampMm: 0, trimMm: 0 };
const demands = (...all: readonly (readonly [number, number])[]): Demand[] => all.map(([mm, times]) => ({ mm, times }));

describe('published cut lists', function () {
  this.timeout(120_000);
  // its time counts from here, not from when the file is read
  let solver: ReturnType<typeof solverWithin>;
  before(() => {
    solver = solverWithin(100_000);
  });
  after(() => solver.end());

  it('453 raws: V. Chvátal, Linear Programming (Freeman 1983), chapter 13, from memory', async () => {
    const pieces = demands([45, 97], [36, 610], [31, 395], [14, 211]);
    const found = await provenCutList({ pieces, bars: [{ mm: 100, cost: 1 }], saw: NOTHING_LOST }, solver.solve);
    assert.deepEqual([found.cost, found.proven], [453, true]);
  });

  it('73 rolls of 5600: the paper mill of the encyclopaedia article “Cutting stock problem”, from memory', async () => {
    const pieces = demands(
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    );
    const found = await provenCutList({ pieces, bars: [{ mm: 5600, cost: 1 }], saw: NOTHING_LOST }, solver.solve);
    assert.deepEqual([found.cost, found.proven], [73, true]);
    // The article's waste: 0.401 % of the metal.
    const used = pieces.reduce((mm, p) => mm + p.mm * p.times, 0);
    assert.ok(Math.abs(100 * (1 - used / (73 * 5600)) - 0.401) < 0.001);
  });

  it('triplets: bars that are exactly full by their making (E. Falkenauer, Journal of Heuristics 2, 1996)', () => {
    // Each bar of 1000 is cut in three between a quarter and a half; the least is a third of the pieces, with nothing left.
    let seed = 20_261_130;
    const random = () => {
      seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
      return seed / 2_147_483_648;
    };
    for (let round = 0; round < 12; round++) {
      const lengths = Array.from({ length: 8 }, () => {
        const a = 380 + Math.floor(random() * 100);
        const b = 251 + Math.floor(random() * ((1000 - a) / 2 - 251));
        return [a, b, 1000 - a - b];
      }).flat();
      const pieces = lengths.map((mm) => ({ mm, times: 1 }));
      const found = cutList({ pieces, bars: [{ mm: 1000, cost: 1 }], saw: NOTHING_LOST });
      assert.equal(found.cost, 8);
      assert.ok(found.bars.every((b) => b.leftMm === 0));
    }
  });

  it('the workshop’s own: five bars of 1000, exactly full with a kerf of 2', () => {
    const ask: CutListAsk = {
      pieces: demands([442, 5], [302, 5], [252, 5]),
      bars: [{ mm: 1000, cost: 1 }],
      saw: { kerfMm: 2, clampMm: 0, trimMm: 0 },
    };
    const found = cutList(ask);
    assert.ok(found.proven);
    assert.deepEqual(found.bars, [{ times: 5, lengthMm: 1000, cutsMm: [442, 302, 252], leftMm: 0 }]);
    // A hundredth of a millimetre more, and they are six.
    const longer = { ...ask, pieces: demands([442.01, 5], [302, 5], [252, 5]) };
    assert.equal(cutList(longer).cost, 6);
    // What the saw holds, and a first end that is trimmed, are missing as well.
    for (const saw of [
      { ...ask.saw, clampMm: 1 },
      { ...ask.saw, trimMm: 1 },
    ])
      assert.equal(cutList({ ...ask, saw }).cost, 6, JSON.stringify(saw));
  });
});
