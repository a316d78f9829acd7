/** Bars of the rack: what would hold the part, what a size made to a bar saves, and how closely bars are made. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { readText } from '../../../server/src/text/read';
import { findingsOf, mended, onlyFinding } from '../tester';

const MATERIAL = 'aluminium-6061-t6';
const bar = (width: number, thickness: number, more = '') =>
  `  - { form: flat-bar, material: ${MATERIAL}, section: { width: ${width}, thickness: ${thickness} }${more} }\n`;
const shopOf = (rack: string) =>
  resolveShop(readText(`shop: bench\nunits: mm\nrates: { currency: EUR }\nrack:\n${rack}`), 'bench.shop.yaml');
const SHOP = shopOf(bar(40, 16, ', lengths: [1000], per-metre: 9.5') + bar(50, 20, ', lengths: [1000], per-metre: 14'));

const part = (
  body: string,
  stock = '{ form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }',
  head = '',
) =>
  `part: p\nunits: mm\n${head.includes('material') ? '' : `material: ${MATERIAL}\n`}${head}body: ${body}\nstock: ${stock}\nfeatures:\n  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }\n`;

describe('stock/not-on-rack', () => {
  const RULE = 'stock/not-on-rack';

  // 50 × 20 against 40 × 16 over 64 mm: 360 mm² · 64 = 23.04 cm³; (14 − 9.5) · 0.064 = 0.288.
  it('tells the nearest that holds it, and what a size made to a bar saves', () => {
    const { facts, message } = onlyFinding(RULE, part('{ x: 60, y: 42, z: 16 }'), SHOP);
    assert.deepEqual(
      [facts.nearest_width_mm, facts.nearest_thickness_mm, facts.more_mm, facts.from_mm, facts.to_mm],
      [50, 20, 8, 42, 40],
    );
    assert.deepEqual([facts.saved_cm3, facts.saved_money, facts.currency], [23.04, 0.288, 'EUR']);
    assert.match(message, /make y 40 mm for 40 × 16 mm, saving 23 cm³ and 0\.29 EUR/);
  });

  it('mends either way', () => {
    const text = part('{ x: 60, y: 42, z: 16 }');
    assert.match(mended(RULE, text, /Make y 40 mm/, SHOP), /y: 40,/);
    assert.match(mended(RULE, text, /Use the 50 × 20 mm bar/, SHOP), /left: 2, right: 2, back: 8, top: 4/);
    const bare = part('{ x: 60, y: 42, z: 16 }', '{ form: flat-bar, sawn: [] }');
    assert.match(mended(RULE, bare, /Use the/, SHOP), /extra: \{ back: 8, top: 4 \}/);
  });

  it('offers no size that is much smaller, and none where two would have to change', () => {
    const far = onlyFinding(RULE, part('{ x: 60, y: 48, z: 16 }'), SHOP);
    assert.equal(far.facts.to_mm, undefined);
    assert.equal(onlyFinding(RULE, part('{ x: 60, y: 42, z: 17 }'), SHOP).facts.to_mm, undefined);
    assert.match(onlyFinding(RULE, part('{ x: 60, y: 52, z: 22 }'), SHOP).message, /None in the shop holds the part/);
  });

  it('counts what is left outside the body as wanted', () => {
    const stock = '{ form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2, top: 1 } }';
    // 16 + 1 is over the bar: the body must be 15.
    const { facts } = onlyFinding(RULE, part('{ x: 60, y: 40, z: 16 }', stock), SHOP);
    assert.deepEqual([facts.from_mm, facts.to_mm], [16, 15]);
    assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40, z: 15 }', stock), SHOP), []);
  });

  it('says when the bar is too short', () => {
    const long = onlyFinding(RULE, part('{ x: 1020, y: 40, z: 16 }'), SHOP);
    assert.deepEqual([long.facts.piece_mm, long.facts.longest_mm], [1024, 1000]);
    assert.deepEqual(findingsOf(RULE, part('{ x: 900, y: 40, z: 16 }'), SHOP), []);
  });

  it('knows plates by their thickness', () => {
    const plate = (thick: number) =>
      `  - { form: plate, material: ${MATERIAL}, section: { width: 500, thickness: ${thick} }, lengths: [500] }\n`;
    const shop = shopOf(plate(8) + plate(12));
    const stock = '{ form: plate, sawn: [left, right, front, back], extra: { left: 2, right: 2, front: 2, back: 2 } }';
    assert.deepEqual(findingsOf(RULE, part('{ x: 120, y: 90, z: 8 }', stock), shop), []);
    const { facts } = onlyFinding(RULE, part('{ x: 120, y: 90, z: 9 }', stock), shop);
    assert.deepEqual([facts.thickness_mm, facts.nearest_thickness_mm, facts.more_mm], [9, 12, 3]);
    assert.match(onlyFinding(RULE, part('{ x: 120, y: 90, z: 20 }', stock), shop).message, /None/);
  });
});

describe('stock/as-supplied', () => {
  const RULE = 'stock/as-supplied';

  // EN 755-5 (from memory): extruded bar 30 to 50 mm wide ±0.4. EN 10278: cold drawn flat 30 to 50 mm wide 0 / −0.16.
  it('holds the bar’s own limits against the tolerance of the size', () => {
    const { facts, severity } = onlyFinding(RULE, part('{ x: 60, y: 40 ±0.05, z: 16 }'), SHOP);
    assert.equal(severity, 'warning');
    assert.deepEqual([facts.bar_lower_mm, facts.bar_upper_mm, facts.allowed_upper_mm], [-0.4, 0.4, 0.05]);
    assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40 ±0.4, z: 16 }'), SHOP), []);
    const steel = 'material: steel-1018\n';
    assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40 +0/-0.16, z: 16 }', undefined, steel)), []);
    assert.equal(onlyFinding(RULE, part('{ x: 60, y: 40 h10, z: 16 }', undefined, steel)).facts.bar_lower_mm, -0.16);
    // Of more carbon: twice as far.
    const c45 = onlyFinding(RULE, part('{ x: 60, y: 40, z: 16 +0/-0.11 }', undefined, 'material: steel-c45\n'));
    assert.equal(c45.facts.bar_lower_mm, -0.22);
  });

  it('leaves faces alone that are cut: sawn, with something outside, or faced in a set-up', () => {
    for (const stock of [
      '{ form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2, back: 1 } }',
      '{ form: flat-bar, sawn: [left, right, front], extra: { left: 2, right: 2, front: 2 } }',
      '{ form: block }',
      '{ form: plate, sawn: [left, right, front, back], extra: { left: 2, right: 2, front: 2, back: 2 } }',
    ])
      assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40 ±0.05, z: 16 }', stock)), [], stock);
    // Along the bar it is sawn to length.
    assert.deepEqual(findingsOf(RULE, part('{ x: 60 ±0.05, y: 40, z: 16 }')), []);
    assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40 ±0.05, z: 16 }').replace(/^stock: .*\n/m, '')), []);
    assert.deepEqual(
      findingsOf(RULE, part('{ x: 60, y: 40 ±0.05, z: 16 }', undefined, 'material: titanium-6al4v\n')),
      [],
    );
  });

  // ISO 2768-1: 30 to 120 mm f ±0.15, m ±0.3; the bar ±0.4.
  it('hints where the general tolerance is much closer than the bar', () => {
    const f = onlyFinding(RULE, part('{ x: 60, y: 40, z: 16 ±1 }', undefined, 'tolerance: ISO 2768-f\n'));
    assert.deepEqual([f.severity, f.facts.allowed_upper_mm], ['hint', 0.15]);
    assert.deepEqual(findingsOf(RULE, part('{ x: 60, y: 40, z: 16 }', undefined, 'tolerance: ISO 2768-m\n')), []);
  });

  it('mends by what bars have, or by a face to mill', () => {
    const text = part('{ x: 60, y: 40 ±0.05, z: 16 }');
    assert.match(mended(RULE, text, /Allow/), /y: 40 ±0\.4,/);
    assert.match(mended(RULE, text, /Leave/), /back: 0\.8/);
    const steel = part('{ x: 60, y: 40 ±0.05, z: 16 }', undefined, 'material: steel-1018\n');
    assert.match(mended(RULE, steel, /Allow/), /y: 40 \+0\/-0\.16,/);
  });
});

describe('stock/extra through a large section', () => {
  // A saw that leans 0.5 mm over 100 mm is 0.75 off over 150.
  it('asks for more', () => {
    const text = (left: number) =>
      part('{ x: 60, y: 150, z: 30 }', `{ form: flat-bar, sawn: [left], extra: { left: ${left} } }`);
    assert.equal(onlyFinding('stock/extra', text(0.6)).facts.limit_mm, 0.75);
    assert.deepEqual(findingsOf('stock/extra', text(0.8)), []);
  });
});
