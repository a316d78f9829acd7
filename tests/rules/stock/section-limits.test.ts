/**
 * What tube, angle, channel and tee are off as bought. Limits: EN 755-9 (2001), alloy group I, outside sizes, walls and
 * convexity, a dealer's extract (read in 2026-12); EN 755-8, EN 10056-2, EN 10219-2 and straightness over 300 mm from memory.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { readText } from '../../../server/src/text/read';
import { findingsOf, mended, onlyFinding } from '../tester';

const bracket = (y: string, stock = 'form: angle, wall: 5, open: [back, top]', tail = '') => `part: sonde-bracket
units: mm
material: aluminium-6061-t6
body: { x: 60, y: ${y}, z: 40 }
stock: { ${stock}, axis: x, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  h: { kind: hole, face: bottom, at: { x: center, y: 20 }, diameter: 5, depth: through }
${tail}`;

describe('stock/as-supplied of sections', () => {
  const RULE = 'stock/as-supplied';

  it('an angle of 40 × 40 (circle of 56.6) is made to ±0.5', () => {
    const found = onlyFinding(RULE, bracket('40 ±0.2'));
    assert.deepEqual([found.facts.bar_upper_mm, found.of], [0.5, ['front', 'back']]);
    assert.match(found.message, /The angle has ±0\.5 \(EN 755-9/);
    assert.deepEqual(findingsOf(RULE, bracket('40 ±0.5')), []);
  });

  it('one of 80 × 40 fits no circle of 100 better than ±0.7; over 100 it has ±0.9', () => {
    assert.equal(onlyFinding(RULE, bracket('80 ±0.2')).facts.bar_upper_mm, 0.7);
    assert.equal(onlyFinding(RULE, bracket('95 ±0.2')).facts.bar_upper_mm, 0.9);
  });

  it('steel angle ±1, steel tube 1 % and never below 0.5; group II of aluminium has no row', () => {
    const of = (material: string, stock?: string) =>
      findingsOf(RULE, bracket('40 ±0.2', stock).replace('aluminium-6061-t6', material)).map(
        (f) => f.facts.bar_upper_mm,
      );
    assert.deepEqual(of('steel-s235jr'), [1]);
    assert.deepEqual(of('steel-s235jr', 'form: tube, wall: 3'), [0.5]);
    assert.deepEqual(of('aluminium-7075-t6'), []);
  });

  it('round tube that stays as it came: EN 755-8', () => {
    const tube = (d: string) => `part: spacer
units: mm
material: aluminium-6061-t6
body: { diameter: ${d}, length: 30 }
stock: { form: tube, wall: 4, sawn: [top, bottom], extra: { top: 1, bottom: 1 } }
`;
    assert.equal(onlyFinding(RULE, tube('40 ±0.1')).facts.bar_upper_mm, 0.35);
    assert.deepEqual(findingsOf(RULE, tube('40 ±0.4')), []);
  });
});

describe('stock/flatness of sections', () => {
  const RULE = 'stock/flatness';
  const flat = (of: string, mm: number) => `tolerances:\n  - { flatness: ${mm}, of: ${of} }\n`;

  it('a leg 40 wide is bowed by up to 0.3, a thin tube’s side by 0.4', () => {
    const text = bracket('40', undefined, flat('front', 0.1));
    const found = onlyFinding(RULE, text);
    assert.equal(found.facts.stock_flat_mm, 0.3);
    assert.match(mended(RULE, text), /flatness: 0\.3/);
    assert.equal(onlyFinding(RULE, bracket('40', 'form: tube, wall: 3', flat('front', 0.1))).facts.stock_flat_mm, 0.4);
    assert.equal(onlyFinding(RULE, bracket('40', 'form: tube, wall: 6', flat('front', 0.1))).facts.stock_flat_mm, 0.3);
  });

  it('is quiet of what the standard holds, of sawn ends and of milled faces', () => {
    assert.deepEqual(findingsOf(RULE, bracket('40', undefined, flat('front', 0.3))), []);
    assert.deepEqual(findingsOf(RULE, bracket('40', undefined, flat('left', 0.1))), []);
    const milled = bracket('40', undefined, flat('front', 0.1)).replace('right: 2', 'right: 2, front: 1');
    assert.deepEqual(findingsOf(RULE, milled), []);
  });

  it('long ones are bowed along: 0.6 in 300 is 2.4 in 600', () => {
    const long = bracket('40', undefined, flat('front', 0.5)).replace('x: 60', 'x: 596');
    assert.equal(onlyFinding(RULE, long).facts.stock_flat_mm, 2.4);
  });
});

describe('stock/not-on-rack of a wall', () => {
  const RULE = 'stock/not-on-rack';
  const rack = (wall: string) =>
    resolveShop(
      readText(`shop: hall
rack:
  - { form: tube, material: aluminium-6061-t6, section: { width: 40, thickness: 40 }, wall: ${wall}, lengths: [1000] }
`),
    );
  const tube = (wall: string) => bracket('40', `form: tube, wall: ${wall}`);

  it('3 ±0.1 is closer than the ±0.25 that tube is made to', () => {
    const found = onlyFinding(RULE, tube('3 ±0.1'), rack('3'));
    assert.match(found.message, /The wall of the stock is 3 ±0\.1\. .* 0\.5 mm wide \(EN 755-9/);
    for (const wall of ['3', '3 ±0.25']) assert.deepEqual(findingsOf(RULE, tube(wall), rack('3')), [], wall);
  });

  it('the rack’s own limits count before the standard’s', () => {
    assert.deepEqual(findingsOf(RULE, tube('3 ±0.1'), rack('3 ±0.1')), []);
    assert.match(onlyFinding(RULE, tube('3 ±0.05'), rack('3 ±0.1')).message, /by the rack of hall/);
  });
});
