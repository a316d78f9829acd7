/** What lies on the rack and what a bar costs, as a shop says it. */
import assert from 'node:assert/strict';
import { barsNeeded } from '../../server/src/planning/bars';
import { isPricedBar, priceOfBars, USUAL_SAW } from '../../server/src/planning/cost';
import { checkPart, checkShop } from '../../server/src/rules/check';

const SHOP = (fields: string) =>
  checkShop(
    `shop: campus\nrack:\n  - { form: square-bar, material: aluminium-6061-t6, section: { width: 21 }, ${fields} }\n`,
  );
const rail = (shop: ReturnType<typeof SHOP>['shop'], mm: number, quantity: number) => ({
  part: checkPart(
    `part: rail\nmaterial: aluminium-6061-t6\nbody: { x: ${mm}, y: 21, z: 21 }\nstock: { form: square-bar, sawn: [left, right] }\n`,
    shop,
  ).part,
  shop,
  quantity,
});

describe('the rack', () => {
  it('has offcuts: they are used before a bar is bought, the shortest that serves', () => {
    const { shop, findings } = SHOP('lengths: [1000], prices: [14], offcuts: [320, 410, 320]');
    assert.deepEqual(findings, []);
    const [need] = barsNeeded([rail(shop, 300, 2)], USUAL_SAW);
    assert.deepEqual(need!.offcuts, [{ lengthMm: 320, count: 2 }]);
    assert.deepEqual([need!.bought, priceOfBars(need!)], [[], [0, 0]]);
    const [more] = barsNeeded([rail(shop, 300, 4)], USUAL_SAW);
    assert.deepEqual(more!.offcuts, [
      { lengthMm: 410, count: 1 },
      { lengthMm: 320, count: 2 },
    ]);
    assert.deepEqual(more!.bought, [{ lengthMm: 1000, count: 1, price: 14 }]);
    assert.ok(isPricedBar(more!));
    assert.deepEqual(priceOfBars(more!), [14, 14]);
  });

  it('an offcut that nothing can be bought beside is still there', () => {
    const { shop } = SHOP('lengths: [], offcuts: [320]');
    const [need] = barsNeeded([rail(shop, 300, 1)], USUAL_SAW);
    assert.deepEqual(need!.offcuts, [{ lengthMm: 320, count: 1 }]);
  });

  it('dear short bars lose to cheap long ones, and the other way round', () => {
    const cheapLong = SHOP('lengths: [1000, 3000], prices: [14, 20]').shop;
    assert.equal(barsNeeded([rail(cheapLong, 480, 4)], USUAL_SAW)[0]!.bought[0]!.lengthMm, 3000);
    const dearLong = SHOP('lengths: [1000, 3000], prices: [14, 60]').shop;
    assert.deepEqual(barsNeeded([rail(dearLong, 480, 4)], USUAL_SAW)[0]!.bought, [
      { lengthMm: 1000, count: 2, price: 14 },
    ]);
  });

  it('prices that do not match the lengths are told', () => {
    const { findings } = SHOP('lengths: [1000, 3000], prices: [14]');
    assert.match(findings[0]!.message, /`prices` has 1 for 2 `lengths`/);
  });
});
