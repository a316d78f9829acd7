/** The eye: plain linear algebra, proved by its own laws over many ways to look. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  axesOf,
  type Bounds,
  type Eye,
  extentOf,
  faceOf,
  fitted,
  holding,
  moved,
  otherWays,
  type Point,
  refitted,
  squareTo,
  together,
  turned,
  wholeView,
  zoomed,
} from '../../../client/view/orbit';
import { FACE_AXIS, FACES } from '../../../server/src/model/faces';

const SEED = { seed: 20261125, numRuns: 200 };
const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const near = (a: number, b: number, by = 1e-9) => assert.ok(Math.abs(a - b) <= by, `${a} is not ${b}`);

const length = fc.double({ min: 1, max: 400, noNaN: true });
const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
const point = fc.tuple(coordinate, coordinate, coordinate);
const bounds = fc.tuple(point, fc.tuple(length, length, length)).map(
  ([min, size]): Bounds => ({
    min,
    max: [min[0] + size[0], min[1] + size[1], min[2] + size[2]],
  }),
);
const eye: fc.Arbitrary<Eye> = fc.record({
  aroundDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  aboveDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  reachMm: length,
  at: point,
});
const aspect = fc.double({ min: 0.2, max: 5, noNaN: true });

const corners = ({ min, max }: Bounds): readonly Point[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k) => [0, 1, 2].map((i) => (k & (1 << i) ? max[i]! : min[i]!)) as unknown as Point);

describe('the eye of the part view', () => {
  it('has three unit axes, square to each other, right-handed: right × up points at the eye', () => {
    fc.assert(
      fc.property(eye, (e) => {
        const { back, right, up } = axesOf(e);
        for (const a of [back, right, up]) near(dot(a, a), 1);
        near(dot(back, right), 0);
        near(dot(back, up), 0);
        near(dot(right, up), 0);
        cross(right, up).forEach((c, i) => {
          near(c, back[i]!);
        });
      }),
      SEED,
    );
  });

  for (const face of FACES)
    it(`square to ${face}, the eye stands outside that face and z stays up where it can`, () => {
      const looked = squareTo(face, { aroundDeg: 32, aboveDeg: 28, reachMm: 50, at: [0, 0, 0] });
      const { back, up } = axesOf(looked);
      const { axis, sign } = FACE_AXIS[face];
      near(back[['x', 'y', 'z'].indexOf(axis)]!, sign);
      if (axis !== 'z') near(up[2], 1);
      assert.equal(faceOf(looked), face);
      assert.equal(faceOf(turned(looked, 5, 5)), undefined);
    });

  it('seen whole: every corner of the box is in the picture, and no nearer way would do', () => {
    fc.assert(
      fc.property(eye, bounds, aspect, (e, box, a) => {
        const whole = fitted(e, box, a);
        const { right, up } = axesOf(whole);
        const { across, high } = extentOf(whole, a);
        const shares = corners(box).map((c) => {
          const d = minus(c, whole.at);
          return Math.max(Math.abs(dot(d, right)) / across, Math.abs(dot(d, up)) / high);
        });
        const most = Math.max(...shares);
        assert.ok(most < 1, `a corner is ${most} of the way out`);
        // The 14 % of room that is left round it, unless the part is smaller than a millimetre.
        if (whole.reachMm > 1) near(most, 1 / 1.14, 1e-6);
        assert.equal(whole.aroundDeg, e.aroundDeg);
        assert.equal(whole.aboveDeg, e.aboveDeg);
      }),
      SEED,
    );
  });

  it('moving shifts what is seen by that share of the shorter side, and turns nothing', () => {
    fc.assert(
      fc.property(
        eye,
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (e, x, y) => {
          const then = moved(e, x, y);
          const { back, right, up } = axesOf(e);
          const d = minus(then.at, e.at);
          near(dot(d, right), 2 * e.reachMm * x, 1e-7);
          near(dot(d, up), 2 * e.reachMm * y, 1e-7);
          near(dot(d, back), 0, 1e-7);
        },
      ),
      SEED,
    );
  });

  it('turning goes all round but not over the poles; near and far have an end', () => {
    const e: Eye = { aroundDeg: 170, aboveDeg: 80, reachMm: 40, at: [1, 2, 3] };
    near(turned(e, 20, 0).aroundDeg, -170);
    assert.equal(turned(e, 0, 30).aboveDeg, 90);
    assert.equal(turned(e, 0, -300).aboveDeg, -90);
    near(zoomed(e, 2).reachMm, 20);
    assert.equal(zoomed(e, 1e9).reachMm, 0.5);
    assert.equal(zoomed(e, 1e-9).reachMm, 5000);
  });

  it('a place out of the picture is brought into its middle, one in sight moves nothing', () => {
    fc.assert(
      fc.property(eye, point, aspect, (e, p, a) => {
        const held = holding(e, p, a);
        const { right, up } = axesOf(held);
        const { across, high } = extentOf(held, a);
        const d = minus(p, held.at);
        assert.ok(Math.abs(dot(d, right)) < across && Math.abs(dot(d, up)) < high);
        assert.equal(holding(held, p, a), held);
      }),
      SEED,
    );
  });

  it('other ways to look begin with the nearest and look from all sides', () => {
    const from = wholeView({ min: [0, 0, 0], max: [10, 20, 30] }, 1);
    const ways = otherWays(from);
    near(dot(axesOf(ways[0]!).back, axesOf(from).back), 1);
    for (const { axis, sign } of Object.values(FACE_AXIS))
      assert.ok(ways.some((w) => axesOf(w).back[['x', 'y', 'z'].indexOf(axis)]! * sign > 0.99));
  });

  it('boxes together', () => {
    assert.equal(together([]), undefined);
    assert.deepEqual(
      together([
        { min: [0, 0, 0], max: [1, 2, 3] },
        { min: [-1, 1, 1], max: [0, 5, 2] },
      ]),
      { min: [-1, 0, 0], max: [1, 5, 3] },
    );
  });

  it('a picture that gets another shape is fitted anew where nobody moved it, and stays where somebody did', () => {
    const aspect = fc.double({ min: 0.3, max: 3, noNaN: true });
    fc.assert(
      fc.property(bounds, aspect, aspect, fc.double({ min: -80, max: 80, noNaN: true }), (box, was, now, by) => {
        const eye = turned(wholeView(box, was), by, 0);
        const fit = fitted(eye, box, was);
        assert.deepEqual(refitted(fit, [box], was, now), fitted(eye, box, now));
        const near = zoomed(fit, 1.5);
        assert.equal(refitted(near, [box], was, now), near);
        const aside = moved(fit, 0.1, 0);
        assert.equal(refitted(aside, [box], was, now), aside);
      }),
      SEED,
    );
  });
});
