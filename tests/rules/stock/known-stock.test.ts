/**
 * Stock whose limits are known: ground plate and flat bar, tool plate. The part says them, else the rack, else the
 * standard of such bars. EN 485-3: plate of 12 mm ±0.5 (`tests/oracle/bars.test.ts`); ISO 286: h9 of 20 mm 0 / −0.052.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { barOff } from '../../../server/src/process/supplied';
import { checkPart } from '../../../server/src/rules/check';
import { readText } from '../../../server/src/text/read';
import { findingsOf, mended, onlyFinding } from '../tester';

const plate = (z: string, stock: string, more = '') => `part: sensor-plate
units: mm
material: aluminium-5083-h111
body: { x: 80, y: 60, z: ${z} }
stock: { form: plate${stock} }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
${more}`;

const shopOf = (section: string) =>
  resolveShop(
    readText(`shop: bench
units: mm
tools: { dr: { kind: drill, diameter: 5.5, flute-length: 57 } }
rack:
  - { form: plate, material: aluminium-5083-h111, section: { width: 500, thickness: ${section} }, lengths: [1000] }
`),
    'bench.shop.yaml',
  );

const SUPPLIED = 'stock/as-supplied';

describe('stock of known limits', () => {
  it('holds a size between two faces as supplied that its standard does not', () => {
    assert.equal(onlyFinding(SUPPLIED, plate('12 ±0.1', '')).facts.bar_upper_mm, 0.5);
    assert.deepEqual(findingsOf(SUPPLIED, plate('12 ±0.1', ', thickness: 12 ±0.1')), []);
    const found = onlyFinding(SUPPLIED, plate('12 ±0.05', ', thickness: 12 ±0.1'));
    assert.deepEqual([found.facts.bar_lower_mm, found.facts.bar_upper_mm], [-0.1, 0.1]);
    assert.match(found.message, /The plate has ±0\.1 \(by `stock`\)/);
  });

  it('is not told to be milled more closely than a mill holds where nothing mills it', () => {
    const ground = plate('12 ±0.005', ', thickness: 12 ±0.004');
    assert.deepEqual(findingsOf('tol/process', ground), []);
    assert.equal(findingsOf('tol/process', plate('12 ±0.005', '')).length, 1);
    assert.deepEqual(findingsOf(SUPPLIED, ground), []);
  });

  it('knows them of the rack, and the part goes before it', () => {
    const [tool, rolled] = [shopOf('12 ±0.1'), shopOf('12')];
    assert.deepEqual(findingsOf(SUPPLIED, plate('12 ±0.1', ''), tool), []);
    assert.equal(findingsOf(SUPPLIED, plate('12 ±0.1', ''), rolled).length, 1);
    assert.match(onlyFinding(SUPPLIED, plate('12 ±0.02', ''), tool).message, /by the rack of bench/);
    assert.deepEqual(findingsOf(SUPPLIED, plate('12 ±0.02', ', thickness: 12 ±0.01'), tool), []);
  });

  it('asks for a bar as close as the part writes it', () => {
    const RULE = 'stock/not-on-rack';
    const text = plate('12 ±0.1', ', thickness: 12 ±0.1');
    const found = onlyFinding(RULE, text, shopOf('12'));
    assert.deepEqual([found.facts.written_mm, found.facts.rack_mm], [0.2, 1]);
    assert.deepEqual(findingsOf(RULE, text, shopOf('12 ±0.1')), []);
    assert.deepEqual(findingsOf(RULE, text), [], 'the built-in rack is nobody’s');
  });

  it('is counted in flat and square bar by side, with its class', () => {
    const bar = (y: string) => `part: guide
units: mm
material: steel-1018
body: { x: 60, y: ${y}, z: 6 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 }, width: 20 h9, thickness: 6 h9 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 4.5, depth: through }
`;
    assert.deepEqual(findingsOf(SUPPLIED, bar('20 h9')), []);
    assert.equal(onlyFinding(SUPPLIED, bar('20 ±0.03')).facts.bar_lower_mm, -0.052);
    const { part, shop } = checkPart(bar('20'), shopOf('12'));
    assert.ok(part);
    const off = (['y', 'z', 'x'] as const).map((axis) => barOff(part, axis, shop)?.lowerMm);
    assert.deepEqual(off.slice(0, 2), [-0.052, -0.03]);
  });

  it('is known of ground round bar by its diameter', () => {
    const post = (stock: string) => `part: post
units: mm
material: steel-1018
body: { axis: x, diameter: 12 h7, length: 40 }
stock: { form: round-bar, sawn: [left, right]${stock} }
features:
  h: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 4, depth: through }
`;
    assert.equal(findingsOf(SUPPLIED, post('')).length, 1);
    assert.deepEqual(findingsOf(SUPPLIED, post(', diameter: 12 h6')), []);
  });

  it('says what does not go together with the body, and mends it', () => {
    const thicker = plate('10', ', thickness: 12 ±0.1');
    const after = mended('form/schema', thicker, /Leave 2 on the top/);
    assert.match(after, /extra: \{ top: 2 \}/);
    assert.deepEqual(findingsOf('form/schema', after), []);
    assert.match(onlyFinding('form/schema', plate('12', ', thickness: 11')).message, /80 × 60 × 12/);
    assert.match(
      onlyFinding('form/schema', plate('12', ', width: 80')).message,
      /`width` belongs to flat and square bar/,
    );
  });

  it('goes into a chain over the plate', () => {
    const setup = (stock: string) =>
      plate(
        '12',
        stock,
        `tolerances:
  - { distance: 4 ±0.06, of: [pocket, bottom], axis: z }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }
    zero: { x: left, y: back, z: top }
    cuts: [pocket, mount]
`,
      ).replace(
        '  mount:',
        '  pocket: { kind: pocket, face: top, at: { x: 20, y: 20 }, diameter: 16, depth: 8 }\n  mount:',
      );
    const RULE = 'tol/as-set-up';
    assert.equal(findingsOf(RULE, setup('')).length, 1);
    assert.deepEqual(findingsOf(RULE, setup(', thickness: 12 ±0.03')), []);
  });
});

describe('stock/flatness', () => {
  const RULE = 'stock/flatness';
  const flat = (wanted: string, stock: string, more = '') =>
    plate('10', `, flatness: 0.1${stock}`, `tolerances:\n  - { flatness: ${wanted}, of: top }\n${more}`);

  it('is told of a face as supplied that is to be flatter', () => {
    assert.equal(onlyFinding(RULE, flat('0.05', '')).facts.stock_flat_mm, 0.1);
    assert.deepEqual(findingsOf(RULE, flat('0.1', '')), []);
    assert.deepEqual(findingsOf(RULE, mended(RULE, flat('0.05', ''))), []);
  });

  it('is quiet of a face that is cut, or sawn from the plate', () => {
    assert.deepEqual(findingsOf(RULE, flat('0.05', ', extra: { top: 1 }')), []);
    assert.deepEqual(findingsOf(RULE, flat('0.05', '').replace('of: top', 'of: left')), []);
  });
});
