/** Round work in a V, against plane trigonometry done another way: the bar as a circle that touches two lines. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { VBlock } from '../../../server/src/model/shop-model';
import { timelineOf } from '../../../server/src/process/stock';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { diametersIn, underBarMm } from '../../../server/src/process/workholding/v-block';
import { readText } from '../../../server/src/text/read';
import { make } from '../parts';

const shopWith = (more: string) => resolveShop(readText(`shop: s\nunits: mm\n${more}`));
const block = (width: number, angle: number): VBlock => {
  const [v] = shopWith(`v-blocks:\n  v: { width: ${width}, height: 40, length: 50, angle: ${angle} }\n`).vBlocks;
  return v!;
};

/** The lowest that a circle gets over two lines that rise from the origin at this half angle from the upright, found by halving. */
function axisHeight(radius: number, halfDeg: number): number {
  const a = (halfDeg * Math.PI) / 180;
  // From a place at height h on the upright to the line through the origin along (sin a, cos a).
  const off = (h: number) => Math.abs(h * Math.sin(a));
  let [low, high] = [0, 1000];
  while (high - low > 1e-9) {
    const mid = (low + high) / 2;
    if (off(mid) < radius) low = mid;
    else high = mid;
  }
  return low;
}

describe('round work in a V', () => {
  it('goes in from the diameter that stands out to the one that still touches the sides', () => {
    for (const [width, angle] of [
      [32, 90],
      [20, 60],
      [50, 120],
    ] as const) {
      const [least, most] = diametersIn(block(width, angle));
      const half = (angle / 2) * (Math.PI / 180);
      const deep = width / 2 / Math.tan(half);
      // Of the thickest the touch is at the V's edge: the foot of the square from the axis is as far along the side as that is long.
      const h = axisHeight(most / 2, angle / 2);
      assert.ok(Math.abs(h * Math.cos(half) - Math.hypot(width / 2, deep)) < 1e-6);
      // Of the thinnest the crown is level with the V's top.
      assert.ok(Math.abs(axisHeight(least / 2, angle / 2) + least / 2 - deep) < 1e-6);
    }
  });

  it('of 90° the thickest is √2 times as wide as the V', () => {
    assert.ok(Math.abs(diametersIn(block(32, 90))[1] - 32 * Math.SQRT2) < 1e-9);
  });

  it('stands over its blocks, under the outermost clamps; their edges are in the way, their middle is not', () => {
    const shop = shopWith('v-blocks:\n  v: { width: 32, height: 40, length: 30 }\n');
    const { part, solid } = make(
      '{ diameter: 20, length: 120, axis: x }',
      '  a: { kind: hole, face: top, at: { x: 60, y: center }, diameter: 4, depth: 5 }\n',
      `stock: { form: round-bar, diameter: 20, axis: x }
setups:
  one: { up: top, hold: { v-block: v, clamps: [{ x: 20, y: center }, { x: 60, y: center }, { x: 100, y: center }] }, cuts: [a] }
`,
    );
    const seating = seatingOf(timelineOf(part, solid).setups[0]!, part, shop);
    const boxes = seating!.obstacles.filter((o) => o.what === 'V-block').map((o) => o.box);
    const spans = new Set(boxes.map((b) => `${b.min[0]} ${b.max[0]}`));
    assert.deepEqual([...spans], ['5 35', '85 115']);
    const top = Math.max(...boxes.map((b) => b.max[2]));
    // The axis lies 10 up; the sides would meet 10 √2 below it, and the V is 16 deep.
    assert.ok(Math.abs(top - (10 - 10 * Math.SQRT2 + 16)) < 1e-9);
    assert.ok(
      Math.abs(
        underBarMm(shop.vBlocks[0]!, { axis: 0, radiusMm: 10, middle: [0, 10, 10] }) - (40 - 16 + 10 * Math.SQRT2 - 10),
      ) < 1e-9,
    );
    const bottom = Math.min(...boxes.map((b) => b.min[2]));
    assert.ok(Math.abs(bottom + (40 - 16 + 10 * Math.SQRT2 - 10)) < 1e-9);
    // Straight below the axis the V is open.
    const inWay = (z: number) =>
      boxes.some(
        (b) => b.min[0] < 20 && b.max[0] > 20 && b.min[1] < 10 && b.max[1] > 10 && b.min[2] < z && b.max[2] > z,
      );
    assert.equal(inWay(-3), false);
    assert.equal(inWay(-6), true);
  });

  it('upright in a vise the block stands between it and the moving jaw, which is so much farther off', () => {
    const shop = shopWith(
      'vises:\n  m: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN }\nv-blocks:\n  v: { width: 32, height: 40, length: 45 }\n',
    );
    const { part, solid } = make(
      '{ diameter: 20, length: 60, axis: z }',
      '  a: { kind: hole, face: top, at: { x: center, y: center }, diameter: 4, depth: 5 }\n',
      `stock: { form: round-bar, diameter: 20, axis: z }
setups:
  one: { up: top, hold: { vise: m, jaws: [back, front], grip: 20, v-block: v }, cuts: [a] }
`,
    );
    const seating = seatingOf(timelineOf(part, solid).setups[0]!, part, shop)!;
    const add = 40 - 16 + 10 * Math.SQRT2 - 10;
    assert.ok(Math.abs(seating.held!.blockMm - add) < 1e-9);
    const moving = seating.obstacles.find((o) => o.what === 'moving jaw')!.box;
    assert.ok(Math.abs(moving.max[1] + add) < 1e-9);
    const boxes = seating.obstacles.filter((o) => o.what === 'V-block').map((o) => o.box);
    assert.deepEqual([Math.min(...boxes.map((b) => b.min[2])), Math.max(...boxes.map((b) => b.max[2]))], [0, 45]);
    assert.ok(Math.abs(Math.min(...boxes.map((b) => b.min[1])) + add) < 1e-9);
  });
});
