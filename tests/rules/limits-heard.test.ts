/** A limit that a shop changes is heard by every rule that begins or ends there, and by what chooses the cuts. */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { resolveShop } from '../../server/src/model/shop';
import type { Mill } from '../../server/src/model/shop-model';
import { millingConditions } from '../../server/src/process/cutting/conditions';
import { checkPart } from '../../server/src/rules/check';
import { squeeze } from '../../server/src/rules/hold/squeeze';
import { findMaterial } from '../../server/src/tables/materials';
import { readText } from '../../server/src/text/read';

const shopWith = (limits: string, text = BUILTIN_SHOP_TEXT) => resolveShop(readText(`${text}\nlimits:\n  ${limits}\n`));
const rulesOf = (text: string, limits: string) => checkPart(text, shopWith(limits)).findings.map((f) => f.rule);

describe('a shop’s own limit', function () {
  this.timeout(60_000);

  // M6 x 1: D − d = 1.299 · share; 5.68 leaves 25 % of the thread, 4.6 108 %.
  const tapped = (mm: number) => `part: foot
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 16 }
features:
  fix: { kind: hole, face: top, at: { x: center, y: center }, thread: M6, diameter: ${mm}, depth: through }
`;
  for (const [mm, limit] of [
    [5.68, 'least: 20'],
    [4.6, 'most: 120'],
  ] as const)
    it(`of thread/hole-conflict (${limit}) is where thread/percent begins`, () => {
      const thread = (limits: string) =>
        rulesOf(tapped(mm), limits).filter((r) => /^thread.(hole-conflict|percent)$/.test(r));
      assert.deepEqual(thread('wall/floor: { ratio: 41 }'), ['thread/hole-conflict']);
      assert.deepEqual(thread(`thread/hole-conflict: { ${limit} }`), ['thread/percent']);
    });

  it('of machine/power is what cuts are chosen within', () => {
    const watts = (limits: string) => {
      const { machines, tools } = shopWith(limits);
      const tool = tools.find((t): t is Mill => t.kind === 'end-mill' && t.diameterMm >= 12)!;
      const machine = { ...machines[0]!, powerW: 300 };
      const { load } = millingConditions(findMaterial('steel-c45')!, tool, machine, {
        aeMm: tool.diameterMm / 2,
        apMm: 10,
      });
      return load.powerW;
    };
    assert.ok(watts('machine/power: { efficiency: 0.8 }') <= 240 + 1e-6);
    assert.ok(watts('machine/power: { efficiency: 0.4 }') <= 120 + 1e-6);
    assert.ok(watts('machine/power: { efficiency: 0.8 }') > 120);
  });

  it('of hold/slips is what hold/squeeze asks of the vise', () => {
    const needed = (limits: string) => {
      const shop = shopWith(limits, squeeze.shop ?? BUILTIN_SHOP_TEXT);
      return Number(checkPart(squeeze.bad, shop).findings.find((f) => f.rule === squeeze.name)?.facts.needed_n);
    };
    const usual = needed('hold/slips: { safety: 2 }');
    assert.ok(usual > 0);
    assert.ok(needed('hold/slips: { safety: 2.2 }') > usual);
  });
});
