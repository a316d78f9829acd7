/** `times:` of a shop: ranges in minutes, each with its usual value, wrong ones told. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { TIME_NAMES, USUAL_TIMES } from '../../server/src/model/shop-times';
import { checkShop } from '../../server/src/rules/check';

const read = (times: string) => checkShop(`shop: here\ntimes: ${times}\n`);

describe('times of a shop', () => {
  it('are the usual ones where nothing is said', () => {
    const { shop, findings } = checkShop('shop: here\n');
    assert.deepEqual(findings, []);
    for (const name of TIME_NAMES) assert.deepEqual(shop.times[name], USUAL_TIMES[name].usual);
    assert.deepEqual(shop.times.given, []);
    assert.deepEqual(builtinShop().times, shop.times);
  });

  it('are read in minutes, seconds and hours', () => {
    const { shop, findings } = read('{ set-up: [10, 0.5 h], load: [45 s, 2 min], saw: [3] }');
    assert.deepEqual(findings, []);
    assert.deepEqual(shop.times['set-up'], [10, 30]);
    assert.deepEqual(shop.times.load, [0.75, 2]);
    assert.deepEqual(shop.times.saw, [3, 3]);
    assert.deepEqual(shop.times.given, ['set-up', 'load', 'saw']);
  });

  const wrong: Readonly<Record<string, RegExp>> = {
    '{ load: [3, 1] }': /quick one first/,
    '{ load: [1, 2, 3] }': /a quick time and a slow one/,
    '{ load: [1 mm, 2] }': /not a unit of time/,
    '{ load: [-1, 2] }': /is negative/,
    '{ load: 3 }': /list/,
    '{ tea: [3, 4] }': /tea/,
  };
  for (const [text, message] of Object.entries(wrong)) {
    it(`says what is wrong with ${text}`, () => {
      const { shop, findings } = read(text);
      assert.ok(findings.length > 0);
      assert.match(findings.map((f) => f.message).join(' '), message);
      assert.deepEqual(shop.times.load, USUAL_TIMES.load.usual);
    });
  }
});
