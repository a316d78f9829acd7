/** Where the work lies: in the vise of the built-in shop, on parallels chosen for the grip. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { timelineOf } from '../../../server/src/process/stock';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { make } from '../parts';

const shop = builtinShop();
const vise = shop.vises[0]!;

function seat(features: string, setups: string, n = 0, stock = '') {
  const { part, solid } = make('{ x: 60, y: 40, z: 16 }', features, `${stock}setups:\n${setups}`);
  const seating = seatingOf(timelineOf(part, solid).setups[n]!, part, shop);
  assert.ok(seating);
  return seating;
}
const HOLE = '  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: 5 }\n';

describe('the seat of the work', () => {
  it('jaws touch the farthest surfaces, their tops stand as high as the grip, centred along the work', () => {
    const s = seat(
      HOLE,
      `  one: { up: top, hold: { vise: ${vise.name}, jaws: [back, front], grip: 6, stop: left }, cuts: [a] }\n`,
    );
    const h = s.held!;
    assert.deepEqual([h.fixedAtMm, h.movingAtMm, h.openingMm], [40, 0, 40]);
    assert.equal(h.parallelsWantedMm, vise.jawHeightMm - 6);
    assert.equal((h.jawFromMm + h.jawToMm) / 2, 30);
    assert.deepEqual([s.lowestMm, s.highestMm, h.gripMm], [0, 16, 6]);
    const fixed = s.obstacles.find((o) => o.what === 'fixed jaw')!;
    assert.deepEqual([fixed.box.min[1], fixed.box.max[2], fixed.box.min[2]], [40, 6, 6 - vise.jawHeightMm]);
    const stop = s.obstacles.find((o) => o.what === 'stop')!;
    assert.deepEqual([stop.box.max[0], stop.box.max[1], stop.box.max[2]], [0, 40, 6]);
  });

  it('turned over it lies on what is lowest then, and the jaws touch what lies between them', () => {
    const features = `  ledge: { kind: step, face: top, along: front, width: 10, depth: 9 }\n${HOLE.replace('top', 'bottom')}`;
    const s = seat(
      features,
      `  one: { up: top, hold: { vise: ${vise.name}, jaws: [back, front], grip: 6 }, cuts: [top, ledge] }
  two: { up: bottom, hold: { vise: ${vise.name}, jaws: [back, front], grip: 6 }, cuts: [a] }\n`,
      1,
      'stock: { form: block, extra: { top: 2, bottom: 1 } }\n',
    );
    assert.deepEqual([s.lowestMm, s.highestMm, s.heightMm], [16, -1, 17]);
    assert.deepEqual([s.held!.fixedAtMm, s.held!.movingAtMm], [40, 10]);
    const moving = s.obstacles.find((o) => o.what === 'moving jaw')!;
    assert.deepEqual([moving.box.max[1], moving.box.min[2], moving.box.max[2]], [10, 10, 10 + vise.jawHeightMm]);
  });

  it('an end that is milled is pushed out of the jaws', () => {
    const stock = 'stock: { form: block, extra: { right: 2 } }\n';
    const s = seat(
      HOLE,
      `  one: { up: top, hold: { vise: ${vise.name}, jaws: [back, front], grip: 6, stop: left }, cuts: [right, a] }\n`,
      0,
      stock,
    );
    assert.equal(s.held!.jawToMm, 57);
  });

  it('without a grip the deepest that leaves the side cuts clear', () => {
    const features = '  ledge: { kind: step, face: top, along: front, width: 10, depth: 4 }\n';
    const s = seat(
      features,
      '  one: { up: top, hold: { soft-jaws: true, jaws: [back, front], parallels: 22 }, cuts: [ledge] }\n',
    );
    assert.equal(s.held!.gripMm, s.held!.vise.jawHeightMm - 22);
  });
});

describe('the work along the jaws', () => {
  const ledge = (along: string) => `  ledge: { kind: step, face: top, along: ${along}, width: 12, depth: 12 }\n`;
  const at = (features: string, stop = 'left') =>
    seat(
      features,
      `  one: { up: top, hold: { vise: ${vise.name}, jaws: [back, front], grip: 8, stop: ${stop} }, cuts: [${features.trim().split(':')[0]}] }\n`,
    ).held!;
  const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-3, `${a} is not ${b}`);

  it('an end that a step takes below their tops is pushed out of them', () => {
    near(at(ledge('right')).jawToMm, 60 - 12 - 3);
    near(at(ledge('left'), 'right').jawFromMm, 12 + 3);
    // The stop is there: it stays.
    near(at(ledge('left')).jawFromMm, 30 - vise.jawWidthMm / 2);
  });
  it('a step that stays above them, or along a whole side, moves nothing', () => {
    near(at(ledge('right').replace('depth: 12', 'depth: 6')).jawToMm, 30 + vise.jawWidthMm / 2);
    near(at(ledge('front')).jawToMm, 30 + vise.jawWidthMm / 2);
  });
  it('where more than half of the work would stand out it stays', () => {
    near(at(ledge('right').replace('width: 12', 'width: 40')).jawToMm, 30 + vise.jawWidthMm / 2);
  });
});
