/** The narrowest neck of an outline, against what rectangles, slots, circles, paths and triangles are by definition. */
import assert from 'node:assert/strict';
import { narrowestNeckMm } from '../../../server/src/geometry/distance/neck';
import { circle, polygon, rectangle, region, reversed } from './make';

const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

describe('narrowest neck', () => {
  it('of a rectangle is its shorter side, round corners or not', () => {
    near(narrowestNeckMm(region(rectangle(3, 4, 14, 24))), 14);
    near(narrowestNeckMm(region(rectangle(3, 4, 14, 9, 3.5))), 9);
  });
  it('of a slot with round ends is its width', () => {
    near(narrowestNeckMm(region(rectangle(0, 0, 30, 6, 3))), 6);
    near(narrowestNeckMm(region(rectangle(0, 0, 6, 30, 3))), 6);
  });
  it('of a circle is its diameter, in one arc or in two', () => {
    near(narrowestNeckMm(region(circle(5, 5, 4))), 8);
    const half = (from: number, to: number) => ({
      type: 'arc' as const,
      a: { u: from, v: 0 },
      b: { u: to, v: 0 },
      centre: { u: 0, v: 0 },
      radius: 4,
      ccw: true,
    });
    near(narrowestNeckMm(region({ edges: [half(4, -4), half(-4, 4)] })), 8);
  });
  it('of a bottle is its neck', () => {
    const bottle = polygon([0, 0], [20, 0], [20, 10], [12, 10], [12, 18], [9.5, 18], [9.5, 10], [0, 10]);
    near(narrowestNeckMm(region(bottle)), 2.5);
  });
  it('of an L with arms of 5 and 3 is 3', () => {
    near(narrowestNeckMm(region(polygon([0, 0], [20, 0], [20, 3], [5, 3], [5, 15], [0, 15]))), 3);
  });
  it('of a pocket with an island is the passage beside it', () => {
    near(narrowestNeckMm(region(rectangle(0, 0, 40, 30), reversed(rectangle(10, 0, 12, 10)))), 4);
    near(narrowestNeckMm(region(circle(0, 0, 10), circle(2, 0, 5, false))), 3);
  });
  it('between two points of a corner that leans in: vertex against side', () => {
    near(narrowestNeckMm(region(polygon([0, 0], [20, 0], [20, 12], [10, 4], [0, 12]))), 4);
  });
  it('of a triangle is the diameter of its inscribed circle', () => {
    // 3-4-5 triangle: inradius (a + b − c) / 2 = 1
    near(narrowestNeckMm(region(polygon([0, 0], [4, 0], [0, 3]))), 2, 1e-5);
  });
  it('of a tall trapezoid is that of the largest circle, not its height', () => {
    const mm = narrowestNeckMm(region(polygon([-3, 0], [3, 0], [2, 30], [-2, 30])));
    // circle touching base and both sides: half-angle of the sides a = atan(1/30); r = 3 · tan((90° − a)/2)
    near(mm, 2 * 3 * Math.tan((Math.PI / 2 - Math.atan(1 / 30)) / 2), 1e-5);
  });
  it('leaves out stretches that are free', () => {
    const pocket = region(rectangle(0, 0, 40, 30), reversed(rectangle(10, 0, 12, 10)));
    near(
      narrowestNeckMm(pocket, (p) => p.u > 19.9),
      10,
    );
    assert.equal(
      narrowestNeckMm(pocket, () => true),
      Number.POSITIVE_INFINITY,
    );
  });
});
