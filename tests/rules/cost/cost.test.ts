/** cost/flat-part and cost/flat-blank: what a flat cutting process could do, and what the mill has left. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { compared, flatBlankOf } from '../../../server/src/rules/cost/flat';
import { flatBlank } from '../../../server/src/rules/cost/flat-blank';
import { flatCutHoldsMm } from '../../../server/src/tables/flat-cutting';
import { block, hole, pocket } from '../parts';
import { findingsOf, onlyFinding } from '../tester';

const opening = pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 'through', radius: 5 });

describe('cost/flat-part', () => {
  const text = block(
    [100, 60, 6],
    `${opening}${hole('dowel', 'x: 10, y: 10', '6 H7', 'through')}${hole('mount', 'x: 90, y: 10', 5.5, 'through')}`,
  );

  it('counts what must be finished afterwards, and says why', () => {
    const finding = onlyFinding('cost/flat-part', text);
    assert.equal(finding.severity, 'hint');
    const { features, thickness_mm, limit_mm, finish } = finding.facts;
    assert.deepEqual(
      { features, thickness_mm, limit_mm, finish },
      { features: 3, thickness_mm: 6, limit_mm: 12, finish: 2 },
    );
    assert.match(finding.message, /finish dowel and mount afterwards/);
    assert.match(finding.message, /finish dowel and mount afterwards/);
  });

  it('the cut is the outlines: 2 (30 + 20) − 8 · 5 + 10 π, 6 π, 5.5 π and the body’s 320', () => {
    const { facts } = onlyFinding('cost/flat-part', text);
    assert.ok(Math.abs(Number(facts.cut_mm) - (60 + 10 * Math.PI + 6 * Math.PI + 5.5 * Math.PI + 320)) < 1e-2);
    assert.equal(facts.starts, 4);
    // 106 × 66 × 6 mm with a web of 6 mm, and 100 × 60 × 6, of aluminium at 2.70 g/cm³
    assert.ok(Math.abs(Number(facts.plate_g) - (106 * 66 * 6 * 2.7) / 1000) < 1e-2);
    assert.ok(Math.abs(Number(facts.stock_g) - (100 * 60 * 6 * 2.7) / 1000) < 1e-2);
  });

  it('milled is what is left and what is saved, both ends', () => {
    const { facts } = onlyFinding('cost/flat-part', text);
    for (const end of ['low', 'high'])
      assert.ok(
        Math.abs(
          Number(facts[`milled_${end}_min`]) - Number(facts[`left_${end}_min`]) - Number(facts[`saved_${end}_min`]),
        ) < 2e-3,
      );
    assert.ok(Number(facts.left_low_min) > 0 && Number(facts.saved_low_min) > 0);
  });

  it('a tolerance is held where ISO 9013 class 1 says so: ±0.25 at 10 to 35 mm in 6 mm', () => {
    const sized = (tolerance: string) =>
      block([100, 60, 6], `${opening}${hole('seat', 'x: 80, y: 40', `12 ±${tolerance}`, 'through')}`);
    assert.equal(onlyFinding('cost/flat-part', sized('0.25')).facts.finish, 0);
    assert.equal(onlyFinding('cost/flat-part', sized('0.24')).facts.finish, 1);
    // The table as public pages reproduce it.
    assert.deepEqual(
      [
        [1, 2],
        [3, 5],
        [6, 20],
        [8, 50],
        [12, 400],
      ].map(([thick, size]) => flatCutHoldsMm(thick!, size!)),
      [0.075, 0.15, 0.25, 0.3, 0.55],
    );
    assert.equal(flatCutHoldsMm(8, 2), undefined);
    assert.equal(flatCutHoldsMm(40, 20), undefined);
  });

  const not: Readonly<Record<string, string>> = {
    'only holes': block([100, 60, 6], hole('mount', 'x: 90, y: 10', 5.5, 'through')),
    'a thick block': block([100, 60, 20], opening),
    'a blind pocket': block([100, 60, 6], opening + pocket('well', { at: 'x: 12, y: 12', size: [12, 12], depth: 3 })),
    'a side hole': block([100, 60, 6], opening + hole('side', 'x: 10, z: 3', 2.5, 8, 'face: front')),
    'a feature that is not understood': block(
      [100, 60, 6],
      opening + opening.replace('window', 'other').replace('depth', 'dept'),
    ),
  };
  for (const [what, of] of Object.entries(not)) {
    it(`is quiet about ${what}`, () => assert.deepEqual(findingsOf('cost/flat-part', of), []));
  }
});

describe('cost/flat-blank', () => {
  const of = (text: string) => {
    const { part, solid } = checkPart(text, builtinShop());
    const blank = flatBlankOf(part, solid)!;
    return { blank, numbers: compared(blank, { part, solid, shop: builtinShop() }) };
  };

  it('leaves to the mill what has a floor, and nothing that goes through', () => {
    const { blank, numbers } = of(flatBlank.bad);
    assert.deepEqual(
      blank.flat.map((f) => f.name),
      ['outline', 'window'],
    );
    assert.deepEqual(
      blank.rest.map((f) => f.name),
      ['seat'],
    );
    // The seat alone, milled as a part of its own, takes as long.
    const alone = flatBlank.bad.replace(/ {2}outline:[\s\S]*?\n {2}window:.*\n/, '');
    const only = checkPart(alone, builtinShop());
    const seat = compared(
      { ...blank, flat: [], finish: [] },
      { part: only.part, solid: only.solid, shop: builtinShop() },
    )!;
    assert.ok(Math.abs(seat.milled[0] - numbers!.flat[0]) < 1e-6);
  });

  it('of an outline that is to be finished the finishing pass is left', () => {
    const closer = flatBlank.bad.replace(
      'corner-radius: 6, depth: through',
      'corner-radius: 6, depth: through, finish: 1.6',
    );
    const [plain, finished] = [of(flatBlank.bad), of(closer)];
    assert.equal(finished.blank.finish[0]?.why, 'a surface that is asked for');
    assert.ok(finished.numbers!.flat[0] > plain.numbers!.flat[0]);
    assert.ok(Math.abs(finished.numbers!.milled[0] - plain.numbers!.milled[0]) < 1e-6);
  });

  it('compares nothing where a cut has no tool or the material is not known', () => {
    assert.equal(of(flatBlank.bad.replace('steel-s235jr', 'unobtainium')).numbers, undefined);
    assert.equal(of(flatBlank.bad.replace('corner-radius: 6', 'corner-radius: 0.3')).numbers, undefined);
    assert.deepEqual(findingsOf('cost/flat-blank', flatBlank.bad.replace('steel-s235jr', 'unobtainium')), []);
  });
});
