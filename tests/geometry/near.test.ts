/** Volumes near a box, from the grid: none is missing that each by itself would find, in the order of the list. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { nearIn, nearTo } from '../../server/src/geometry/solid/near';
import type { Box, Vec3, Void } from '../../server/src/geometry/types';
import { boxesNear } from '../../server/src/geometry/vector';

const at = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
const box = (size: number): fc.Arbitrary<Box> =>
  fc.tuple(at(200), at(90), at(20), at(size), at(size), at(size)).map(([x, y, z, a, b, c]) => ({
    min: [x, y, z] as Vec3,
    max: [x + a, y + b, z + c] as Vec3,
  }));
const volume = fc.oneof({ weight: 19, arbitrary: box(12) }, { weight: 1, arbitrary: box(200) });
const volumes = fc
  .array(volume, { minLength: 20, maxLength: 90 })
  .map((boxes) => boxes.map((bounds) => ({ bounds }) as Void));
const endless: Box = { min: [50, 20, Number.NEGATIVE_INFINITY], max: [60, 30, Number.POSITIVE_INFINITY] };
const asked = fc.oneof({ weight: 9, arbitrary: box(30) }, { weight: 1, arbitrary: fc.constant(endless) });

describe('volumes near a box', () => {
  it('are those that come that near, and never less', () => {
    let left = 0;
    fc.assert(
      fc.property(volumes, asked, fc.constantFrom(0, 0.1, 5), (list, where, mm) => {
        const found = nearIn(list, where, mm);
        const near = (v: Void) => boxesNear(v.bounds, where, mm);
        assert.deepEqual(
          found.filter((i) => near(list[i]!)),
          list.flatMap((v, i) => (near(v) ? [i] : [])),
        );
        assert.deepEqual(nearTo(list, where, mm).filter(near), list.filter(near));
        left += list.length - found.length;
      }),
      { seed: 1, numRuns: 400 },
    );
    assert.ok(left > 1000, 'the grid leaves out what is far off');
  });

  it('are found among volumes in one place, and of no size', () => {
    const point: Box = { min: [1, 2, 3], max: [1, 2, 3] };
    const list = Array.from({ length: 40 }, () => ({ bounds: point }) as Void);
    assert.equal(nearIn(list, point).length, 40);
    assert.deepEqual(nearIn([], point), []);
  });
});
