/** A shop's own material: weight, strength, force, speeds and caution by what the shop says, the rest by what it is like. */
import assert from 'node:assert/strict';
import { inShop, materialOf } from '../../server/src/model/material-of';
import { resolveShop } from '../../server/src/model/shop';
import { checkPart } from '../../server/src/rules/check';
import { cuttingOf, kienzleOf } from '../../server/src/tables/cutting';
import { findMaterial } from '../../server/src/tables/materials';
import { readText } from '../../server/src/text/read';

const shopOf = (materials: string, more = '') => resolveShop(readText(`shop: own\nmaterials:\n${materials}${more}`));
const OWN =
  '  alloy-x: { like: aluminium-7075-t6, title: Alloy X, density: 3.1, yield: 460, strength: 540, kc1.1: 900, mc: 0.2, speed-carbide: [90, 120], caution: Its dust itches., source: certificate 12 }\n';
const PART = 'part: p\nmaterial: alloy-x\nbody: { x: 60, y: 40, z: 20 }\n';

describe('a material of the shop’s own', () => {
  const shop = shopOf(OWN);
  const own = shop.materials!.get('alloy-x')!;

  it('has what it says, and for the rest what it is like', () => {
    assert.deepEqual(shop.problems, []);
    const like = findMaterial('aluminium-7075-t6')!;
    assert.deepEqual(
      [own.title, own.densityGPerCm3, own.youngMPa, own.yieldMPa, own.ultimateMPa, own.family],
      ['Alloy X', 3.1, like.youngMPa, 460, 540, 'aluminium'],
    );
    assert.match(own.source, /^the shop file: certificate 12; the rest as aluminium-7075-t6/);
    assert.deepEqual([kienzleOf(own).kc11, kienzleOf(own).mc], [900, 0.2]);
    assert.deepEqual(cuttingOf(own).speed, { ...cuttingOf(like).speed, carbide: [90, 120] });
    assert.deepEqual(cuttingOf(own).chip, cuttingOf(like).chip);
  });

  it('is what a part of this shop is made of, and of no other', () => {
    const { part, findings } = checkPart(PART, shop);
    assert.equal(materialOf(part), own);
    assert.ok(!findings.some((f) => f.rule === 'stock/unknown-material'));
    assert.match(findings.find((f) => f.rule === 'safety/material')?.message ?? '', /^Its dust itches\./);
    const other = checkPart(PART, shopOf('  alloy-y: { like: steel-c45 }\n'));
    assert.equal(materialOf(other.part), undefined);
    assert.ok(other.findings.some((f) => f.rule === 'stock/unknown-material'));
    // The same part in the same shop is the same object, whoever asks.
    assert.equal(inShop(other.part, shop), inShop(other.part, shop));
  });

  it('goes before the tables, and the rack may have it', () => {
    const steel = shopOf(
      '  steel-c45: { like: steel-c45, density: 7.9 }\n',
      'rack:\n  - { form: flat-bar, material: steel-c45, section: { width: 40, thickness: 20 } }\n',
    );
    const { part } = checkPart(PART.replace('alloy-x', 'steel-c45'), steel);
    assert.equal(materialOf(part)?.densityGPerCm3, 7.9);
    const racked = shopOf(
      OWN,
      'rack:\n  - { form: flat-bar, material: alloy-x, section: { width: 40, thickness: 20 } }\n',
    );
    assert.deepEqual(racked.problems, []);
    assert.equal(racked.rack[0]?.material, 'alloy-x');
  });

  it('what is wrong is told where it stands, and the rest of the shop stays', () => {
    const told = (fields: string) =>
      shopOf(`  odd: ${fields}\n`)
        .problems.map((p) => p.message)
        .join('\n');
    assert.match(told('{ like: alumnium-6061-t6 }'), /Did you mean `aluminium-6061-t6`\?/);
    assert.match(told('{ density: 3 }'), /Material `odd` needs `like`/);
    assert.match(told('{ like: steel-c45, foo: 3 }'), /no field `foo`/);
    assert.match(told('{ like: steel-c45, speed-hss: [30, 20] }'), /slow speed first: `\[20, 30\]`/);
    assert.match(told('{ like: steel-c45, speed-hss: [10, 20, 30] }'), /a slow speed and a fast one/);
    assert.match(told('{ like: steel-c45, density: -1 }'), /Make it/);
    assert.match(told('heavy'), /has no entries/);
    const shop = shopOf('  odd: { like: nothing-like-it }\n  fine: { like: pom-c }\n');
    assert.deepEqual([...shop.materials!.keys()], ['fine']);
  });
});
