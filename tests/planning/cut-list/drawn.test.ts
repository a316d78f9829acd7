/** Drawn cut lists: every piece once, nothing longer than its bar, and never dearer or cheaper than every way there is. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { solverWithin } from '../../../server/src/node/solver';
import { cutList, provenCutList } from '../../../server/src/planning/cut-list/cut-list';
import type { CutList, CutListAsk } from '../../../server/src/planning/cut-list/types';

const RUNS = Number(process.env.SCRIBELINE_CUT_LISTS ?? 60);

const asks: fc.Arbitrary<CutListAsk> = fc.record({
  pieces: fc.array(fc.record({ mm: fc.integer({ min: 90, max: 620 }), times: fc.integer({ min: 1, max: 2 }) }), {
    minLength: 1,
    maxLength: 4,
  }),
  bars: fc
    .tuple(
      fc.array(
        fc.record({
          mm: fc.integer({ min: 150, max: 700 }),
          cost: fc.constant(0.01),
          count: fc.integer({ min: 0, max: 2 }),
        }),
        {
          maxLength: 2,
        },
      ),
      fc.array(fc.record({ mm: fc.integer({ min: 640, max: 1200 }), cost: fc.integer({ min: 2, max: 9 }) }), {
        minLength: 1,
        maxLength: 2,
      }),
    )
    .map(([offcuts, bought]) => [...offcuts, ...bought]),
  saw: fc.record({
    kerfMm: fc.constantFrom(0, 2, 2.5),
    clampMm: fc.constantFrom(0, 15),
    trimMm: fc.constantFrom(0, 4),
  }),
});

/** What a bar holds, worked out anew: pieces, a cut between two, what is lost at its ends. */
function holds(cutsMm: readonly number[], lengthMm: number, { kerfMm, clampMm, trimMm }: CutListAsk['saw']): boolean {
  const used = cutsMm.reduce((mm, c) => mm + c, 0) + kerfMm * (cutsMm.length - 1);
  return used <= lengthMm - clampMm - trimMm + 1e-6;
}

/** The least that any way costs: every piece into every bar, bar kind by bar kind. Only for a handful of pieces. */
function leastCost(ask: CutListAsk): number {
  const pieces = ask.pieces.flatMap((p) => Array.from({ length: p.times }, () => p.mm)).sort((a, b) => b - a);
  const longest = Math.max(...ask.bars.filter((b) => b.count !== 0).map((b) => b.mm));
  const fit = pieces.filter((mm) => holds([mm], longest, ask.saw));
  let least = Number.POSITIVE_INFINITY;
  const open: number[][] = [];
  const kinds: number[] = [];
  const price = () => kinds.reduce((sum, k) => sum + ask.bars[k]!.cost, 0);
  const go = (i: number): void => {
    if (price() >= least) return;
    if (i === fit.length) {
      least = price();
      return;
    }
    open.forEach((bar, b) => {
      if (!holds([...bar, fit[i]!], ask.bars[kinds[b]!]!.mm, ask.saw)) return;
      bar.push(fit[i]!);
      go(i + 1);
      bar.pop();
    });
    ask.bars.forEach(({ mm, count }, k) => {
      if (count !== undefined && kinds.filter((used) => used === k).length >= count) return;
      if (!holds([fit[i]!], mm, ask.saw)) return;
      open.push([fit[i]!]);
      kinds.push(k);
      go(i + 1);
      open.pop();
      kinds.pop();
    });
  };
  go(0);
  return least;
}

function mustBeWhole(ask: CutListAsk, list: CutList): void {
  const counted = new Map<number, number>();
  const count = (mm: number, n: number) => counted.set(mm, (counted.get(mm) ?? 0) + n);
  for (const { mm, times } of ask.pieces) count(mm, times);
  for (const { cutsMm, times } of list.bars) for (const mm of cutsMm) count(mm, -times);
  for (const { mm, times } of list.unplaced) count(mm, -times);
  for (const [mm, n] of counted) assert.equal(n, 0, `${mm} mm`);
  for (const bar of list.bars) {
    assert.ok(holds(bar.cutsMm, bar.lengthMm, ask.saw), JSON.stringify(bar));
    const used = bar.cutsMm.reduce((sum, mm) => sum + mm + ask.saw.kerfMm, ask.saw.trimMm);
    assert.ok(Math.abs(bar.leftMm - Math.max(0, bar.lengthMm - used)) < 1e-3);
  }
  for (const [k, { mm, count: most }] of ask.bars.entries()) {
    const alike = ask.bars.filter((b) => b.mm === mm);
    if (most === undefined || alike.length > 1) continue;
    assert.ok(list.bars.reduce((n, b) => n + (b.lengthMm === mm ? b.times : 0), 0) <= most, `kind ${k}`);
  }
  assert.ok(list.bound <= list.cost + 1e-9);
}

describe('drawn cut lists', function () {
  this.timeout(600_000);
  // its time counts from here, not from when the file is read
  let solver: ReturnType<typeof solverWithin>;
  before(() => {
    solver = solverWithin(600_000);
  });
  after(() => solver.end());

  it('hold every piece once, and cost what the best of all ways costs', async () => {
    await fc.assert(
      fc.asyncProperty(asks, async (ask) => {
        const quick = cutList(ask);
        mustBeWhole(ask, quick);
        const list = await provenCutList(ask, solver.solve);
        mustBeWhole(ask, list);
        assert.ok(list.proven, 'so few pieces are proven');
        const least = leastCost(ask);
        if (list.unplaced.length === 0) assert.ok(Math.abs(list.cost - least) < 1e-6, `${list.cost}, not ${least}`);
        assert.ok(quick.bound <= least + 1e-6 && quick.cost >= least - 1e-6);
      }),
      { numRuns: RUNS, seed: 15 },
    );
  });

  it('without time for a solver tell what they found, and a bound', async () => {
    const pieces = Array.from({ length: 40 }, (_, i) => ({ mm: 83 + 7 * i, times: 7 }));
    const ask: CutListAsk = { pieces, bars: [{ mm: 1000, cost: 3 }], saw: { kerfMm: 2, clampMm: 0, trimMm: 0 } };
    const never = await provenCutList(ask, () => Promise.reject(new Error('no time')));
    mustBeWhole(ask, never);
    assert.ok(never.proven || never.bound < never.cost);
  });
});
