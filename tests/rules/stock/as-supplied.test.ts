/** stock/as-supplied by alloy group, form and metal. Limits: `tests/oracle/bars.test.ts` has their sources. */
import assert from 'node:assert/strict';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'stock/as-supplied';

const clamp = (alloy: string, z = '20 ±0.3', distance = '40 ±0.42') => `part: sonde-clamp
units: mm
material: aluminium-${alloy}
body: { x: 80, y: 40, z: ${z} }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  h: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }
tolerances:
  - { distance: ${distance}, of: [front, back], axis: y }
`;

describe('stock/as-supplied by what is bought', () => {
  it('holds bar of 7075, 2017A and 5083 to the wider limits of alloy group II', () => {
    for (const alloy of ['7075-t6', '2017a-t4', '5083-h111']) {
      const found = findingsOf(RULE, clamp(alloy));
      assert.deepEqual(
        found.map((f) => f.facts.bar_upper_mm),
        [0.4, 0.5],
        alloy,
      );
      assert.match(found[0]!.message, /±0\.4 .*alloy group II/);
    }
  });

  it('is quiet of the same in 6061 and 6082, and of what group II holds', () => {
    for (const alloy of ['6061-t6', '6082-t6']) assert.deepEqual(findingsOf(RULE, clamp(alloy)), [], alloy);
    assert.deepEqual(findingsOf(RULE, clamp('7075-t6', '20 ±0.4', '40 ±0.5')), []);
  });

  it('knows bar below 10 mm', () => {
    assert.equal(onlyFinding(RULE, clamp('6061-t6', '6 ±0.1')).facts.bar_upper_mm, 0.2);
    assert.equal(onlyFinding(RULE, clamp('6061-t6', '8 ±0.1')).facts.bar_upper_mm, 0.25);
    assert.deepEqual(findingsOf(RULE, clamp('6061-t6', '8 ±0.25')), []);
  });

  it('knows the thickness of plate, and nothing of the sides sawn from it', () => {
    const plate = (z: string) =>
      clamp('6061-t6', z).replace('flat-bar, sawn: [left, right], extra: { left: 2, right: 2 }', 'plate');
    const found = onlyFinding(RULE, plate('12 ±0.3'));
    assert.deepEqual([found.facts.bar_upper_mm, found.of], [0.5, ['bottom', 'top']]);
    assert.match(found.message, /as supplied\. The plate has ±0\.5 \(EN 485-3/);
    assert.deepEqual(findingsOf(RULE, plate('12 ±0.5')), []);
  });

  const post = (material: string, diameter: string, stock = '{ form: round-bar, sawn: [left, right] }') => `part: post
units: mm
material: ${material}
body: { form: round, axis: x, diameter: ${diameter}, length: 40 }
stock: ${stock}
features:
  h: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 4, depth: through }
`;

  it('knows round bar by alloy group and metal', () => {
    const off = (material: string) => onlyFinding(RULE, post(material, '20 ±0.01')).facts.bar_lower_mm;
    assert.equal(off('aluminium-6061-t6'), -0.25);
    assert.equal(off('aluminium-7075-t6'), -0.35);
    assert.equal(off('steel-1018'), -0.13);
    assert.equal(off('brass-cw614n'), -0.13);
    assert.deepEqual(findingsOf(RULE, post('brass-cw614n', '20 h11')), []);
    assert.deepEqual(findingsOf(RULE, post('pom-c', '20 ±0.01')), []);
    const thicker = '{ form: round-bar, diameter: 25, sawn: [left, right] }';
    assert.deepEqual(findingsOf(RULE, post('steel-1018', '20 ±0.01', thicker)), []);
  });

  it('mends a diameter, a thickness and a distance by what is bought', () => {
    for (const text of [post('aluminium-7075-t6', '20 ±0.1'), clamp('7075-t6', '20 ±0.4'), clamp('2017a-t4', '20')]) {
      const after = mended(RULE, text, /Allow/);
      assert.deepEqual(findingsOf(RULE, after), []);
    }
  });
});
