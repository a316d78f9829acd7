/** A mill that hangs down too many of its diameters: what is told is what it is priced with. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'access/long-cutter';
const comb = (width: number, depth: number, material = 'steel-c45') => `part: cable-comb
units: mm
material: ${material}
body: { x: 60, y: 40, z: 30 }
features:
  gap: { kind: slot, face: top, ends: [{ x: 15, y: 20 }, { x: 45, y: 20 }], width: ${width}, depth: ${depth} }
`;

describe(RULE, () => {
  it('3 mm wide and 20 deep in steel: 6.7 diameters, by its own layer, feed and bending', () => {
    const text = comb(3, 20);
    const { facts } = onlyFinding(RULE, text);
    assert.equal(facts.tool, 'em-3-long');
    assert.ok(Math.abs(Number(facts.ratio) - 20 / 3) < 1e-3);
    const { part, solid } = checkPart(text, builtinShop());
    const cuts = operationsOf(part.featureByName.get('gap')!, { part, solid, shop: builtinShop() });
    const priced = cuts.map((o) => priceOf(o, findMaterial('steel-c45')!, builtinShop().machines[0]!).milling!);
    const same = priced.find((m) => Math.abs(m.feedMmPerMin - Number(facts.feed_mm_per_min)) < 0.01);
    assert.ok(same && Math.abs(same.apMm - Number(facts.deep_mm)) < 1e-3);
    // Taken down by its bending: a stub of the same thickness is fed faster.
    assert.ok(same.deflectionMm <= 0.05 + 1e-9 && same.limitedBy === 'deflection');
  });

  it('less in aluminium, none where a thicker one goes in or it is less deep; what it proposes does', () => {
    assert.deepEqual(findingsOf(RULE, comb(3, 20, 'aluminium-6061-t6')), []);
    assert.deepEqual(findingsOf(RULE, comb(6, 20)), []);
    assert.deepEqual(findingsOf(RULE, comb(3, 15)), []);
    assert.match(mended(RULE, comb(3, 20)), /depth: 15 /);
  });
});

describe('access/asked-tool', () => {
  const asked = (tool: string, width = '8 P9') =>
    `${comb(8, 4).replace('width: 8', `width: ${width}`)}setups:\n  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }, cuts: [gap], tools: { gap: ${tool} } }\n`;

  it('one that is too wide, fills what is to be finished, or has another corner is told; one that does is not', () => {
    for (const [tool, why] of [
      ['em-16', /wider than the narrowest place, 8 mm/],
      ['em-8', /fills 8 mm: no stock is left/],
      ['ball-6', /its corner of 3 mm does not make a sharp floor/],
    ] as const)
      assert.match(onlyFinding('access/asked-tool', asked(tool)).message, why);
    assert.deepEqual(findingsOf('access/asked-tool', asked('em-5')), []);
    assert.deepEqual(findingsOf('access/asked-tool', asked('em-8', '8')), []);
    assert.match(mended('access/asked-tool', asked('em-16')), /gap: em-6 /);
  });
});
