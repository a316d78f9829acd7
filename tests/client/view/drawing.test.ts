/** What is worked out on the screen: where the part is cut, dimension lines, labels that keep out of each other's way. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { dimensionPath } from '../../../client/view/dimension';
import { axesOf, type Eye, type Point } from '../../../client/view/orbit';
import { isKept, keptSide, planeAt } from '../../../client/view/section';
import { type Label, spread } from '../../../client/view/spread';

const SEED = { seed: 20261125, numRuns: 200 };
const pixel = fc.integer({ min: 0, max: 900 });

describe('a part cut open', () => {
  it('at a share of its length', () => {
    const box = { min: [-5, 0, 10], max: [15, 40, 50] } as const;
    assert.deepEqual(planeAt(0, 0.5, box), { axis: 0, atMm: 5 });
    assert.deepEqual(planeAt(2, 0.25, box), { axis: 2, atMm: 20 });
  });

  it('always loses the side towards the eye', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.constantFrom(0 as const, 1 as const, 2 as const),
        (aroundDeg, aboveDeg, axis) => {
          const eye: Eye = { aroundDeg, aboveDeg, reachMm: 10, at: [0, 0, 0] };
          const plane = { axis, atMm: 7 };
          const { back } = axesOf(eye);
          const last = 1;
          const side = keptSide(plane, eye, last);
          if (Math.abs(back[axis]) < 0.02)
            return assert.equal(side, last, 'nothing jumps while one looks along the cut');
          const towards: Point = [7, 7, 7].map((c, i) => c + back[i]! * 10) as unknown as Point;
          const away: Point = [7, 7, 7].map((c, i) => c - back[i]! * 10) as unknown as Point;
          assert.equal(isKept(plane, side, towards), false);
          assert.equal(isKept(plane, side, away), true);
        },
      ),
      SEED,
    );
  });
});

describe('dimension lines', () => {
  const numbers = (path: string) => (path.match(/-?\d+\.?\d*/g) ?? []).map(Number);
  const points = (path: string) => {
    const n = numbers(path);
    return Array.from({ length: n.length / 2 }, (_, i) => ({ x: n[2 * i]!, y: n[2 * i + 1]! }));
  };

  it('run across a wide gap, from end to end and no further', () => {
    const path = dimensionPath({ x: 100, y: 50 }, { x: 200, y: 50 });
    assert.ok(path.startsWith('M100.0 50.0L200.0 50.0'));
    for (const p of points(path)) assert.ok(p.x >= 100 && p.x <= 200);
  });

  it('point at a narrow gap from outside and leave it free', () => {
    const path = dimensionPath({ x: 100, y: 50 }, { x: 108, y: 50 });
    for (const p of points(path)) assert.ok(p.x <= 100 || p.x >= 108, `${p.x} is in the gap`);
    assert.ok(points(path).some((p) => p.x < 90) && points(path).some((p) => p.x > 118));
  });

  it('have both ends in them, and never a number that is none', () => {
    fc.assert(
      fc.property(pixel, pixel, pixel, pixel, (x1, y1, x2, y2) => {
        const path = dimensionPath({ x: x1, y: y1 }, { x: x2, y: y2 });
        assert.doesNotMatch(path, /NaN|Infinity/);
        if (x1 === x2 && y1 === y2) return;
        const all = points(path);
        assert.ok(all.some((p) => p.x === x1 && p.y === y1));
        assert.ok(all.some((p) => p.x === x2 && p.y === y2));
      }),
      SEED,
    );
  });
});

describe('labels in the picture', () => {
  const covers = (a: Label, b: Label) =>
    a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

  it('stand right of a lone place', () => {
    assert.deepEqual(spread([{ x: 100, y: 50, width: 40, height: 16 }], 900), [{ x: 109, y: 42 }]);
  });

  it('go left where the picture ends on the right', () => {
    assert.deepEqual(spread([{ x: 880, y: 50, width: 40, height: 16 }], 900), [{ x: 831, y: 42 }]);
  });

  it('do not cover one another while there is room, and the weightiest has the first choice', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ x: pixel, y: pixel }), { minLength: 1, maxLength: 6 }), (places) => {
        const labels = places.map((p) => ({ ...p, width: 60, height: 16 }));
        const spots = spread(labels).map((s, i) => ({ ...labels[i]!, ...s! }));
        for (let i = 0; i < spots.length; i++)
          for (let k = 0; k < i; k++) assert.ok(!covers(spots[i]!, spots[k]!), `${k} and ${i}`);
        assert.deepEqual(spread(labels.slice(0, 1))[0], spread(labels)[0]);
      }),
      SEED,
    );
  });

  it('of many at one place those have one that fit, inside the picture and apart', () => {
    const labels = Array.from({ length: 40 }, () => ({ x: 10, y: 10, width: 30, height: 10 }));
    const spots = spread(labels, 200, 100).flatMap((s) => (s ? [{ ...s, width: 30, height: 10 }] : []));
    assert.ok(spots.length > 5 && spots.length < 40, `${spots.length}`);
    spots.forEach((a, i) => {
      assert.ok(a.x >= 0 && a.y >= 0 && a.x + 30 <= 200 && a.y + 10 <= 100);
      for (const b of spots.slice(0, i)) assert.ok(!covers(a, b));
    });
  });
});
