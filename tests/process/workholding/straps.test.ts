/** Strap clamps: where strap and nut stand over the work. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { timelineOf } from '../../../server/src/process/stock';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { make } from '../parts';

const HOLE = '  a: { kind: hole, face: top, at: { x: 50, y: 20 }, diameter: 4, depth: 5 }\n';

function obstacles(clamps: string) {
  const setups = `setups:\n  one: { up: top, hold: { clamps: [${clamps}] }, cuts: [a] }\n`;
  const { part, solid } = make('{ x: 100, y: 40, z: 20 }', HOLE, setups);
  const seating = seatingOf(timelineOf(part, solid).setups[0]!, part, builtinShop());
  assert.ok(seating);
  return seating.obstacles;
}

describe('a strap clamp', () => {
  it('comes in over the nearest side; its nut stands on it, outside the work', () => {
    const all = obstacles('{ x: 6, y: 20 }');
    const strap = all.find((o) => o.what === 'clamp')!.box;
    assert.deepEqual(
      [strap.min, strap.max],
      [
        [-54, 7.5, 20],
        [16, 32.5, 45],
      ],
    );
    const nuts = all.filter((o) => o.what === 'nut').map((o) => o.box);
    // ISO 4032 M12 is 10.8 high, its washer 24 wide and 2.5 thick; 3.5 of the stud show.
    const [low, high] = [Math.min(...nuts.map((b) => b.min[2])), Math.max(...nuts.map((b) => b.max[2]))];
    assert.ok(Math.abs(low - 45) < 1e-9 && Math.abs(high - (45 + 2.5 + 10.8 + 3.5)) < 1e-9);
    const out = Math.max(...nuts.map((b) => b.max[0]));
    // The stud goes down past the side of the work.
    assert.ok(out <= 0, `the nut's edge is at ${out}`);
    for (const b of nuts) assert.ok(Math.abs((b.min[0] + b.max[0]) / 2 - -19) < 1e-9 && b.max[0] - b.min[0] < 24.5);
  });
  it('that presses far in is the longer', () => {
    const all = obstacles('{ x: 30, y: 20 }, { x: 94, y: 20 }');
    const nut = all.find((o) => o.what === 'nut')!.box;
    // Its nearest side is the front: 20 away, so the stud stands 14 beyond that.
    assert.ok(Math.abs((nut.min[1] + nut.max[1]) / 2 - -14) < 1e-9);
  });
});
