/** A helix pulls its cutter out of the collet: fed no faster than the friction on the shank bears. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Mill } from '../../../server/src/model/shop-model';
import { type MillingTask, millingConditions } from '../../../server/src/process/cutting/conditions';
import { shankForceN, slipsAtN } from '../../../server/src/process/cutting/grip';
import { formulaeOf } from '../../../server/src/report/cut-formulae';
import { cutLine } from '../../../server/src/report/cuts';
import { findMaterial } from '../../../server/src/tables/materials';
import { readText } from '../../../server/src/text/read';

const STEEL = findMaterial('steel-c45')!;
const TEXT = `shop: s
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [10, 100000], power: 50 kW } } }
holders:
  plain: { diameter: 40, length: 50 }
  tight: { diameter: 40, length: 50, slips-at: 9 kN }
  screwed: { diameter: 40, length: 50, grips: set-screw }
tools:
  em: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 32, shank: 16, material: carbide, stickout: 34, helix: 45 }
  necked: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 32, shank: 12, material: carbide, stickout: 34, helix: 45 }
`;
const shop = resolveShop(readText(TEXT), 's.shop.yaml');
const tool = (name: string) => shop.tools.find((t) => t.name === name) as Mill;
const holder = (name: string) => shop.holders.find((h) => h.name === name)!;
/** In the full, and bending as it likes: only the shank stands against it. */
const SLOT: MillingTask = { aeMm: 16, apMm: 16, mostBendMm: 5 };
const cut = (name: string, held?: string) =>
  millingConditions(STEEL, tool(name), shop.machines[0]!, { ...SLOT, ...(held && { holder: holder(held) }) });

describe('a cutter in its holder', () => {
  it('is read', () => {
    assert.deepEqual(shop.problems, []);
    assert.deepEqual(
      shop.holders.map((h) => h.slipsAtN),
      [undefined, 9000, Number.POSITIVE_INFINITY],
    );
  });

  it('slips where the least of the published pull-out tests did: 600 lbf on a shank of 0.75 in', () => {
    const bears = slipsAtN({ kind: 'end-mill', shankMm: 19.05 });
    assert.ok(Math.abs(bears / (600 * 4.4482216) - 1) < 0.002, String(bears));
    assert.equal(slipsAtN({ kind: 'face-mill', shankMm: 22 }), Number.POSITIVE_INFINITY);
  });

  it('is fed so that turning and drawing together stay below what the collet bears', () => {
    const { load, limitedBy } = cut('em', 'plain');
    assert.equal(limitedBy, 'holder');
    // On a shank as thick as the cutter the force around is that of the teeth.
    const together = Math.sqrt(load.tangentialN ** 2 + load.axialN ** 2);
    assert.ok(Math.abs(together / (140 * 16) - 1) < 1e-6, String(together));
    assert.ok(Math.abs(shankForceN(load, tool('em')) - together) < 1e-9);
  });

  it('a thinner shank has more to bear on less of it', () => {
    const { load } = cut('necked', 'plain');
    assert.ok(Math.abs(Math.hypot((load.tangentialN * 16) / 12, load.axialN) / (140 * 12) - 1) < 1e-6);
    assert.ok(load.tangentialN < cut('em', 'plain').load.tangentialN);
  });

  it('drawn up well or held by a screw it is fed as it was', () => {
    const [plain, tight, screwed] = ['plain', 'tight', 'screwed'].map((h) => cut('em', h));
    assert.notEqual(tight!.limitedBy, 'holder');
    assert.notEqual(screwed!.limitedBy, 'holder');
    assert.equal(tight!.feedPerToothMm, screwed!.feedPerToothMm);
    assert.ok(plain!.feedPerToothMm < screwed!.feedPerToothMm);
  });

  it('is told with its sum, which can be worked out again', () => {
    const milling = cut('em', 'plain');
    const operation = {
      feature: { name: 'f' },
      does: 'finish',
      times: 1,
      tool: tool('em'),
      holder: holder('plain'),
      wayMm: 10,
      depthMm: 16,
      wideMm: 16,
    };
    const priced = { operation, conditions: milling, milling, minutes: [1, 1] } as unknown as Parameters<
      typeof formulaeOf
    >[0];
    const told = formulaeOf(priced, STEEL, shop.machines[0]!).find((f) => f.what === 'holder');
    const [, ft, d, shank, fa, sum, bears] =
      /\((\d+) · ([\d.]+) \/ ([\d.]+)\)² \+ (\d+)²\) = (\d+) N on the shank; it slips at (\d+) N/
        .exec(told!.how)!
        .map(Number);
    assert.ok(Math.abs(Math.hypot((ft! * d!) / shank!, fa!) - sum!) <= 1);
    assert.equal(bears, 2240);
    assert.match(cutLine(priced, 'mm'), /limited by what its holder keeps from slipping/);
  });
});
