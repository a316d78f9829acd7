/** Times of first and further pieces, work by hand, bars, plates and cost, by numbers worked beside them. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { barsNeeded } from '../../server/src/planning/bars';
import { costOf, priceOfBars, USUAL_SAW } from '../../server/src/planning/cost';
import { handWork } from '../../server/src/planning/hand-work';
import { pieceTime, spentOn } from '../../server/src/planning/piece-time';
import { planFor } from '../../server/src/planning/plan-cache';
import { operationsOf } from '../../server/src/process/operations';
import { priceOf } from '../../server/src/process/operations/priced';
import { axesTouched } from '../../server/src/process/workholding/zero-anew';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { findMaterial } from '../../server/src/tables/materials';

const HANDS =
  'times: { set-up: [10, 20], load: [2, 3], zero: [1, 1.5], touch-off: [1, 2], measure: [1, 2], deburr: [2, 4], saw: [3, 5] }\n';

/** The built-in shop with hands in round numbers, a tool change of 60 s, other rates and a rack of our own. */
function shopWith(rates: string, rack = ''): Shop {
  const text = BUILTIN_SHOP_TEXT.replace('tool-change: 90 s', 'tool-change: 60 s')
    .replace(/^rates:.*$/m, rates)
    .replace(/^rack:\n/m, `rack:\n${rack}`);
  const { shop, findings } = checkShop(`${text.trimEnd()}\n${HANDS}`);
  assert.deepEqual(findings, []);
  assert.equal(shop.machines[0]!.toolChangeS, 60);
  return shop;
}
const FREE = shopWith('rates: { machine-hour: 0, person-hour: 0 }');
const PAID = shopWith(
  'rates: { machine-hour: 30, person-hour: 12, currency: EUR }',
  `  - { form: plate, material: aluminium-6061-t6, section: { width: 250, thickness: 6 }, lengths: [500, 1000], per-metre: 42 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 21 }, lengths: [1000, 3000], per-metre: 6 }
`,
);

const near = (actual: number, expected: number, what = '') =>
  assert.ok(Math.abs(actual - expected) < 1e-6, `${what} ${actual}, expected ${expected}`);

const PLATE = (quantity: number, setup = '') => `part: plate
material: aluminium-6061-t6
quantity: ${quantity}
body: { x: 100, y: 60, z: 6 }
stock: { form: plate }
features:
  vent: { kind: hole, face: top, at: { x: 90, y: 30 }, diameter: 5.5, depth: through }
${setup}`;
const SETUP = (hold: string, zero: string) => `setups:
  only: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 3, parallels: 22${hold} }, zero: { ${zero} }, cuts: [vent] }
`;

describe('times of a piece', () => {
  it('first: 10 to 20 to set up, two tools touched off 1 to 2 each, put in 1 to 1.5 each, and cutting', () => {
    const checked = checkPart(PLATE(3, SETUP(', stop: left', 'x: left, y: back, z: parallels')), FREE);
    const { order, machine } = pieceTime(checked)!;
    assert.equal(order, 'written');
    const [s] = machine.setups;
    assert.deepEqual(
      s!.tools.map((t) => t.kind),
      ['spot-drill', 'drill'],
    );
    near(machine.firstPiece[0], 10 + 2 * 1 + 2 * 1 + s!.cutting[0]);
    near(machine.firstPiece[1], 20 + 2 * 2 + 2 * 1.5 + s!.cutting[1]);
    // Further: loaded, both tools changed again, cut; zero is where it was.
    assert.deepEqual(s!.zeroAnew, []);
    near(machine.eachFurther[0], 2 + 2 * 1 + s!.cutting[0]);
    near(machine.eachFurther[1], 3 + 2 * 1.5 + s!.cutting[1]);
    const spent = spentOn(pieceTime(checked)!, 3);
    near(spent.machine[0], machine.firstPiece[0] + 2 * machine.eachFurther[0]);
    // A person saws 3, breaks 4 (100 + 60 + 6) + 2 · 5.5 π mm of edges at 2 a metre; nothing is measured.
    near(spent.person[0] - spent.machine[0], 3 * (3 + 2 * 0.001 * (664 + 11 * Math.PI)));
  });

  it('the drilling itself by the textbook: depth and point over the feed, and 0.05 min from hole to hole', () => {
    const checked = checkPart(PLATE(1), FREE);
    const { part, solid, shop } = checked;
    const feature = part.features[0]!;
    let byHand = 0;
    for (const o of operationsOf(feature, { part, solid, shop })) {
      if (o.does !== 'spot' && o.does !== 'drill') continue;
      const { conditions } = priceOf(o, findMaterial('aluminium-6061-t6')!, shop.machines[0]!);
      const point = 'pointDeg' in o.tool ? o.tool.pointDeg : 118;
      const half = (point / 2) * (Math.PI / 180);
      byHand += (o.depthMm + o.diameterMm / 2 / Math.tan(half)) / conditions!.feedMmPerMin + 0.05;
    }
    const [low, high] = pieceTime(checked)!.machine.setups[0]!.cutting;
    assert.ok(byHand > 0.1);
    near(low, byHand);
    assert.ok(high > low);
  });

  it('zero that is on the work is found anew for each further piece: 1 to 1.5 an axis', () => {
    const at = (hold: string, zero: string) => pieceTime(checkPart(PLATE(3, SETUP(hold, zero)), FREE))!.machine;
    const one = at(', stop: left', 'x: left, y: back, z: parallels');
    const two = at('', 'x: left, y: back, z: top');
    assert.deepEqual(two.setups[0]!.zeroAnew, ['x', 'z']);
    near(two.eachFurther[0] - one.eachFurther[0], 2 * 1);
    near(two.eachFurther[1] - one.eachFurther[1], 2 * 1.5);
    near(two.firstPiece[0], one.firstPiece[0]);
    const setup = (method: string) =>
      checkPart(PLATE(3, SETUP(', stop: left', `x: left, y: back, z: parallels, method: ${method}`)), FREE).part
        .setups![0]!;
    assert.deepEqual(axesTouched(setup('stop')), []);
    assert.deepEqual(axesTouched(setup('edge-finder')), ['x', 'y']);
  });

  it('one tool alone stays in from piece to piece', () => {
    const text = PLATE(2, SETUP(', stop: left', 'x: left, y: back, z: parallels')).replace(
      /vent: \{.*\}/,
      'vent: { kind: pocket, face: top, at: { x: center, y: center }, diameter: 30, depth: 2 }',
    );
    const { setups, eachFurther } = pieceTime(checkPart(text, FREE))!.machine;
    assert.equal(setups[0]!.tools.length, 1);
    near(eachFurther[0], 2 + setups[0]!.cutting[0]);
  });

  it('without set-ups: a rough order, and the plan once there is one', () => {
    const checked = checkPart(PLATE(1), FREE);
    assert.equal(pieceTime(checked)!.order, 'rough');
    assert.equal(pieceTime(checked), pieceTime(checked));
    assert.ok(planFor(checked));
    assert.equal(pieceTime(checked)!.order, 'planned');
    assert.equal(pieceTime(checkPart('part: a\n', FREE)), undefined);
    assert.equal(pieceTime(checkPart(PLATE(1), checkShop('shop: bare\n').shop)), undefined);
  });

  it('stock on a face is milled off: thicker stock in more passes', () => {
    const faced = (mm: number) =>
      pieceTime(checkPart(PLATE(1).replace('form: plate', `form: plate, extra: { top: ${mm} }`), FREE))!
        .machine.setups.flatMap((s) => s.cuts)
        .find((c) => c.name === 'top')!.minutes;
    const [one, two] = [faced(1), faced(2)];
    assert.ok(one[0] > 0 && two[0] > 1.5 * one[0], `${one[0]}, ${two[0]}`);
  });
});

describe('work by hand', () => {
  it('counts edges less those a cutter breaks, and toleranced sizes once each', () => {
    const text = `part: lug
material: aluminium-6061-t6
body: { x: 100, y: 60, z: 20 }
features:
  dowel: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 40, count: 2 } }, diameter: 10 H7, depth: through }
  edges: { kind: chamfer, edges: top, size: 0.5 }
`;
    const work = handWork(checkPart(text, FREE));
    // 4 (100 + 60 + 20) + 2 holes · 2 ends · 10 π, less the 2 (100 + 60) of the top, to what its own outline says
    const whole = 720 + 40 * Math.PI;
    assert.ok(Math.abs(work.edgeMm - (whole - 320)) < 5, String(work.edgeMm));
    assert.equal(work.sizes, 2);
    near(work.measuring[0], 2);
    near(work.deburring[1], (4 * work.edgeMm) / 1000);
    // Stock that nobody wrote is a block: bought to size.
    assert.equal(work.sawCuts, 0);
  });
});

describe('bars and plates', () => {
  const of = (text: string, quantity: number) => {
    const { part } = checkPart(text, PAID);
    return barsNeeded([{ part, shop: PAID, quantity }], USUAL_SAW);
  };

  it('plates are sawn in rows: four of 60 abreast in 250, two rows of 100 and a kerf', () => {
    const [need] = of(PLATE(7), 7);
    near(need!.usedMm, 2 * (100 + 2));
    assert.deepEqual([need!.bought[0]!.lengthMm, need!.bought[0]!.count, need!.pieces], [500, 1, 7]);
    // four rows of 100 with kerfs are 406 mm
    assert.equal(need!.toBar, 4 * 4);
    assert.equal(of(PLATE(1), 1)[0]!.toBar, 4 * 4);
    assert.deepEqual(need!.remnants, [{ mm: 500 - 204, bars: 1 }]);
    assert.deepEqual(
      priceOfBars(need!).map((x) => Number(x.toFixed(3))),
      [8.568, 21],
    );
  });

  const rail = (mm: number) => `part: rail
material: aluminium-6061-t6
body: { x: ${mm}, y: 21, z: 21 }
stock: { form: square-bar, sawn: [left, right] }
`;
  it('a thousand of 83: 35 come out of 3 m, 11 of 1 m; the last 20 out of two short bars, not of a long one', () => {
    const [need] = of(rail(83), 1000);
    assert.deepEqual(
      need!.bought.map((b) => [b.lengthMm, b.count]),
      [
        [3000, 28],
        [1000, 2],
      ],
    );
    near(need!.usedMm, 1000 * 85);
    assert.deepEqual(need!.remnants, [
      { mm: 1000 - 9 * 85, bars: 1 },
      { mm: 1000 - 11 * 85, bars: 1 },
      { mm: 3000 - 35 * 85, bars: 28 },
    ]);
  });

  it('a piece as long as the bar needs no cut; a longer one comes out of none', () => {
    assert.deepEqual(
      of(rail(3000), 1).map((n) => [n.bought[0]!.lengthMm, n.bought[0]!.count, n.remnants[0]!.mm]),
      [[3000, 1, 0]],
    );
    assert.deepEqual(of(rail(3001), 1), []);
    // beside it the others are sawn all the same
    const both = [83, 3001].map((mm) => ({ part: checkPart(rail(mm), PAID).part, shop: PAID, quantity: 2 }));
    assert.deepEqual(
      barsNeeded(both, USUAL_SAW).map((n) => [n.pieces, n.usedMm]),
      [[2, 170]],
    );
  });

  it('takes no more bars than one would piece by piece, the longest first into the first bar with room', () => {
    const rack = '  - { form: square-bar, material: aluminium-6061-t6, section: { width: 21 }, lengths: [1000] }\n';
    const shop = shopWith('rates: { machine-hour: 1, person-hour: 1 }', rack);
    const drawn = fc.array(fc.tuple(fc.integer({ min: 40, max: 990 }), fc.integer({ min: 1, max: 9 })), {
      minLength: 1,
      maxLength: 4,
    });
    fc.assert(
      fc.property(drawn, (lots) => {
        const sawn = lots.map(([mm, quantity]) => ({ part: checkPart(rail(mm), shop).part, shop, quantity }));
        const [need] = barsNeeded(sawn, USUAL_SAW);
        const left: number[] = [];
        const sizes = lots.flatMap(([mm, n]) => Array.from({ length: n }, () => mm)).sort((a, b) => b - a);
        for (const mm of sizes) {
          const i = left.findIndex((l) => l >= mm);
          if (i < 0) left.push(1000 - mm - 2);
          else left[i] = left[i]! - mm - 2;
        }
        assert.ok(need!.bought[0]!.count <= left.length);
        assert.equal(
          need!.list.bars.reduce((n, b) => n + b.times * b.cutsMm.length, 0),
          sizes.length,
        );
      }),
      { seed: 20261125, numRuns: 12 },
    );
  });

  it('a billion pieces take no longer', () => {
    const [need] = of(rail(83), 1e9);
    assert.equal(need!.bought[0]!.count, Math.floor(1e9 / 35));
  });

  it('parts in mm and in inches share a bar', () => {
    const inches = rail(83)
      .replace('part: rail', 'part: rail\nunits: in')
      .replace('x: 83, y: 21, z: 21', 'x: 83 mm, y: 21 mm, z: 21 mm');
    const [a, b] = [checkPart(rail(83), PAID).part, checkPart(inches, PAID).part];
    const needs = barsNeeded(
      [
        { part: a, shop: PAID, quantity: 2 },
        { part: b, shop: PAID, quantity: 3 },
      ],
      USUAL_SAW,
    );
    assert.deepEqual(
      needs.map((n) => [n.pieces, n.bought[0]!.count]),
      [[5, 1]],
    );
  });
});

describe('cost', () => {
  const checked = checkPart(PLATE(7, SETUP(', stop: left', 'x: left, y: back, z: parallels')), PAID);

  it('is hours by their rates and material by the metre or in whole bars', () => {
    const spent = spentOn(pieceTime(checked)!, 7);
    const cost = costOf([{ checked, quantity: 7 }])!;
    near(cost.machine[0], spent.machine[0] * (30 / 60));
    near(cost.person[1], spent.person[1] * (12 / 60));
    near(cost.material[0], 0.204 * 42);
    near(cost.material[1], 0.5 * 42);
    near(cost.total[0], cost.material[0] + cost.machine[0] + cost.person[0]);
    assert.deepEqual([cost.currency, cost.unpriced], ['EUR', []]);
  });

  it('says whose material has no price', () => {
    const block = checkPart(PLATE(1).replace('form: plate', 'form: block'), PAID);
    const cost = costOf([{ checked: block, quantity: 1 }])!;
    assert.deepEqual(cost.unpriced, ['plate']);
    assert.deepEqual(cost.material, [0, 0]);
  });

  it('is not told without rates, nor summed over two currencies', () => {
    assert.equal(costOf([{ checked: checkPart(PLATE(1), FREE), quantity: 1 }]), undefined);
    const pounds = checkPart(PLATE(1), { ...PAID, rates: { ...PAID.rates, currency: 'GBP' } });
    assert.ok(costOf([{ checked: pounds, quantity: 1 }]));
    assert.equal(
      costOf([
        { checked, quantity: 1 },
        { checked: pounds, quantity: 1 },
      ]),
      undefined,
    );
  });
});
