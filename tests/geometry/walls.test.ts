/** Walls worked out by hand: two cuts, a cut and a face, arms of one outline, and third cuts that pierce or remove them. */
import assert from 'node:assert/strict';
import type { Void, Wall } from '../../server/src/geometry/types';
import { wallsOf } from '../../server/src/geometry/walls';
import { block, circle, cut, faceFrame, materialOf, polygon, rectangle, region } from './distance/make';

const body = block(60, 40, 16);
const top = faceFrame('top', [60, 40, 16]);

function walls(voids: readonly Void[], below = 2): readonly Wall[] {
  return wallsOf(body, voids, below, materialOf(body, voids));
}
const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

describe('walls between cuts from one face', () => {
  it('two pockets 0.4 mm apart', () => {
    const a = cut({ feature: 'a', frame: top, region: region(rectangle(15, 20, 10, 20, 3)), to: 9 });
    const b = cut({ feature: 'b', frame: top, region: region(rectangle(25.4, 20, 10, 16, 3)), to: 6 });
    const found = walls([a, b]);
    assert.equal(found.length, 1);
    near(found[0]!.thicknessMm, 0.4);
    near(found[0]!.heightMm, 6);
    assert.equal(found[0]!.type, 'wall');
    assert.ok(found[0]!.lengthMm >= 10);
    near(found[0]!.at[0][0], 20);
    near(found[0]!.at[1][0], 20.4);
  });

  it('a hole 0.7 mm from the left face', () => {
    const hole = cut({ role: 'bore', frame: top, region: region(circle(3.2, 20, 2.5)), to: 10 });
    const [wall, ...more] = walls([hole]);
    assert.equal(more.length, 0);
    assert.equal(wall!.b, 'left');
    near(wall!.thicknessMm, 0.7);
    near(wall!.heightMm, 10);
  });

  it('a thin floor, and none under a through cut', () => {
    const pocket = { frame: top, region: region(rectangle(30, 20, 20, 12)), to: 15.5 };
    const [wall, ...more] = walls([cut(pocket)]);
    assert.equal(more.length, 0);
    assert.equal(wall!.type, 'floor');
    near(wall!.thicknessMm, 0.5);
    near(wall!.lengthMm, 12, 1e-5);
    assert.equal(wall!.b, 'bottom');
    assert.deepEqual(walls([cut({ ...pocket, to: 16, through: true })]), []);
  });

  it('the rib between the arms of a U', () => {
    const u = polygon([10, 10], [30, 10], [30, 30], [20.6, 30], [20.6, 14], [20, 14], [20, 30], [10, 30]);
    const [wall, ...more] = walls([cut({ frame: top, region: region(u), to: 8 })]);
    assert.equal(more.length, 0);
    near(wall!.thicknessMm, 0.6);
    near(wall!.heightMm, 8);
    near(wall!.lengthMm, 16);
    assert.equal(wall!.a, wall!.b);
  });
});
