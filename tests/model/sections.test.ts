/** What of a section cannot be understood is refused in a sentence, never taken as a full bar; and what a mirror makes of it. */
import assert from 'node:assert/strict';
import { resolvePart } from '../../server/src/model/part';
import { resolveShop } from '../../server/src/model/shop';
import { readText } from '../../server/src/text/read';

const part = (stock: string, body = '{ x: 60, y: 40, z: 30 }') =>
  resolvePart(readText(`part: p\nbody: ${body}\nstock: { ${stock} }\n`));
const said = (stock: string, body?: string) => part(stock, body).problems.map((p) => p.message);

describe('stock of a section', () => {
  const REFUSED: readonly (readonly [stock: string, says: RegExp])[] = [
    ['form: angle, open: [back, top]', /An angle needs its `wall`/],
    ['form: angle, wall: 5', /An angle needs `open`: the two faces at its empty corner/],
    ['form: angle, wall: 5, open: [top]', /needs `open`: the two faces/],
    ['form: angle, wall: 5, open: [top, bottom]', /needs `open`: the two faces/],
    ['form: channel, wall: 4', /A channel needs `open`: its open side/],
    ['form: channel, wall: 4, open: [left]', /runs along x, and left is an end of it/],
    ['form: tee, wall: 4, open: [top, back]', /needs `open`: the face its web points to/],
    ['form: tube, wall: 15', /nothing of it is hollow/],
    ['form: tube, wall: 3, root: 13', /nothing of it is hollow/],
    ['form: tube, diameter: 30, wall: 15', /nothing of it is hollow/],
    ['form: tube, wall: 3, open: [top]', /`open` belongs to angle, channel and tee/],
    ['form: angle, wall: 5, open: [back, top], flange: 4', /`flange` belongs to channel and tee; an angle/],
    ['form: flat-bar, wall: 5', /`wall` belongs to tube/],
  ];
  for (const [stock, says] of REFUSED)
    it(`${stock} is refused`, () => {
      const problems = said(stock);
      assert.equal(problems.length, 1, problems.join(' | '));
      assert.match(problems[0]!, says);
    });

  it('runs where it is sawn, else along its longest side; a round tube as its body', () => {
    assert.equal(part('form: tube, wall: 3').stock.axis, 'x');
    assert.equal(part('form: tube, wall: 3, sawn: [front, back]').stock.axis, 'y');
    assert.equal(part('form: tube, wall: 3', '{ diameter: 40, length: 20, axis: y }').stock.axis, 'y');
  });
});

describe('a section on the rack', () => {
  const rack = (item: string) =>
    resolveShop(readText(`shop: s\nrack:\n  - { ${item}, material: aluminium-6061-t6 }\n`)).problems.map(
      (p) => p.message,
    );
  it('has its wall, and only what it has', () => {
    assert.deepEqual(rack('form: tube, diameter: 40, wall: 3'), []);
    assert.deepEqual(rack('form: channel, section: { width: 50, thickness: 30 }, wall: 4, flange: 5'), []);
    assert.match(rack('form: angle, section: { width: 40, thickness: 40 }').join(), /needs its `wall`/);
    assert.match(rack('form: flat-bar, section: { width: 40, thickness: 20 }, wall: 4').join(), /it has no wall/);
    assert.match(rack('form: tube, diameter: 40, wall: 3, flange: 2').join(), /it has no flanges/);
  });
});
