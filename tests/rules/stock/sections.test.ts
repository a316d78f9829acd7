/** Tube, angle, channel and tee on the rack: which is the part's, what is nearest, what is ordered and paid. */
import assert from 'node:assert/strict';
import { barOf, rackSizes } from '../../../server/src/model/bar';
import { resolvePart } from '../../../server/src/model/part';
import { resolveShop } from '../../../server/src/model/shop';
import { barsNeeded } from '../../../server/src/planning/bars';
import { USUAL_SAW } from '../../../server/src/planning/cost';
import { readText } from '../../../server/src/text/read';
import { findingsOf, onlyFinding } from '../tester';

const MATERIAL = 'aluminium-6061-t6';
const RACK = [
  'form: tube, diameter: 40, wall: 5',
  'form: tube, section: { width: 40, thickness: 30 }, wall: 3',
  'form: angle, section: { width: 40, thickness: 30 }, wall: 4',
  'form: channel, section: { width: 30, thickness: 50 }, wall: 4, flange: 5',
  'form: tee, section: { width: 50, thickness: 40 }, wall: 5',
  'form: flat-bar, section: { width: 60, thickness: 60 }',
].map((item) => `  - { ${item}, material: ${MATERIAL}, lengths: [1000], per-metre: 10 }\n`);
const SHOP = resolveShop(readText(`shop: bench\nrack:\n${RACK.join('')}`), 'bench.shop.yaml');
const text = (body: string, stock: string) =>
  `part: p\nmaterial: ${MATERIAL}\nbody: ${body}\nstock: { ${stock} }\nfeatures:\n  h: { kind: hole, face: front, at: { x: center, z: 12 }, diameter: 4, depth: through }\n`;
const RULE = 'stock/not-on-rack';

const THERE: readonly (readonly [body: string, stock: string, what: string])[] = [
  ['{ diameter: 40, length: 30 }', 'form: tube, wall: 5', 'tube 40 × 5 mm'],
  ['{ x: 60, y: 30, z: 40 }', 'form: tube, wall: 3', 'tube 40 × 30 × 3 mm'],
  ['{ x: 60, y: 30, z: 40 }', 'form: angle, wall: 4, open: [back, top]', 'angle 40 × 30 × 4 mm'],
  // Its web is 30 wide and lies across y; its flanges stand up 50.
  ['{ x: 60, y: 30, z: 50 }', 'form: channel, wall: 4, flange: 5, open: [top]', 'channel 30 × 50 × 4 × 5 mm'],
  ['{ x: 60, y: 50, z: 40 }', 'form: tee, wall: 5, open: [top]', 'tee 50 × 40 × 5 mm'],
];

describe('sections on the rack', () => {
  for (const [body, stock, what] of THERE)
    it(`${what} is found, and so many are sawn from a metre`, () => {
      const written = text(body, stock);
      assert.deepEqual(findingsOf(RULE, written, SHOP), []);
      const part = resolvePart(readText(written));
      const [need] = barsNeeded([{ part, shop: SHOP, quantity: 3 }], USUAL_SAW);
      assert.equal(need!.what, `${what} ${MATERIAL}`);
      assert.ok(Math.abs(need!.usedMm - 3 * (barOf(part)!.pieceMm + USUAL_SAW.kerfMm)) < 1e-9, `${need!.usedMm}`);
      assert.equal(need!.perMetre, 10);
    });

  it('another wall is another bar, and no solid bar stands in for it', () => {
    const { message, facts } = onlyFinding(RULE, text('{ diameter: 40, length: 30 }', 'form: tube, wall: 4'), SHOP);
    assert.match(message, /no tube of 40 × 4 mm in .*Draw the part from tube 40 × 5 mm, which is there/);
    assert.equal(facts.wall_mm, 4);
  });

  it('a channel that lies the other way is another: its web is where its flanges were', () => {
    const other = text('{ x: 60, y: 50, z: 30 }', 'form: channel, wall: 4, flange: 5, open: [top]');
    assert.match(onlyFinding(RULE, other, SHOP).message, /no channel of 50 × 30 × 4 × 5 mm/);
  });

  it('a hollow bar is none that a full one could be cut from', () => {
    const flat = text('{ x: 60, y: 40, z: 29 }', 'form: flat-bar');
    assert.match(onlyFinding(RULE, flat, SHOP).message, /Use flat-bar 60 × 60 mm/);
  });

  it('sizes are told as they are ordered', () => {
    assert.deepEqual(SHOP.rack.map(rackSizes), [
      [40, 5],
      [40, 30, 3],
      [40, 30, 4],
      [30, 50, 4, 5],
      [50, 40, 5],
      [60, 60],
    ]);
  });
});
