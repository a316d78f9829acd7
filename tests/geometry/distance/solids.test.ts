/**
 * Distances of removed volumes of every kind, however they lie, against brute force: both surfaces sampled densely, the
 * nearest two samples. Samples can only be farther apart than the surfaces, by less than the sampling allows.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { pointApart, solidsApart } from '../../../server/src/geometry/distance/solids';
import { holds } from '../../../server/src/geometry/solid/prism';
import type { Frame, Profile, Region, Vec3, Void } from '../../../server/src/geometry/types';
import { cross, distance, length, scale } from '../../../server/src/geometry/vector';
import { circle, cut, polygon, rectangle, region, reversed } from './make';
import { bruteForce, STEP } from './samples';

const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

function looking(origin: Vec3, w: Vec3): Frame {
  const k = scale(w, 1 / length(w));
  const side = cross(k, Math.abs(k[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0]);
  const u = scale(side, 1 / length(side));
  return { origin, u, v: cross(k, u), w: k };
}

const L = region(polygon([0, 0], [8, 0], [8, 3], [3, 3], [3, 9], [0, 9]));
const shapes: readonly Region[] = [
  region(circle(0, 0, 2)),
  region(rectangle(0, 0, 8, 5, 1.5)),
  L,
  region(circle(0, 0, 4), circle(0, 0, 2.5, false)),
  region(rectangle(0, 0, 12, 9, 2), reversed(rectangle(1, 0, 6, 4, 1))),
  region({
    edges: [
      { type: 'arc', a: { u: 4, v: 0 }, b: { u: -4, v: 0 }, centre: { u: 0, v: 0 }, radius: 4, ccw: true },
      { type: 'line', a: { u: -4, v: 0 }, b: { u: -2.5, v: 0 } },
      { type: 'arc', a: { u: -2.5, v: 0 }, b: { u: 2.5, v: 0 }, centre: { u: 0, v: 0 }, radius: 2.5, ccw: false },
      { type: 'line', a: { u: 2.5, v: 0 }, b: { u: 4, v: 0 } },
    ],
  }),
];
const profiles: readonly Profile[] = [
  { type: 'straight' },
  { type: 'taper', insetFrom: 0, insetTo: 0.6 },
  { type: 'taper', insetFrom: -0.8, insetTo: 0 },
  { type: 'floor', radius: 0.7 },
];
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const way = fc.tuple(number(-1, 1), number(-1, 1), number(-1, 1)).filter((d) => length(d) > 0.3);

/** A point of a grid lies in both, a hair inside. */
function common(a: Void, b: Void): boolean {
  const along = [0, 1, 2].map((i) => {
    const k = i as 0 | 1 | 2;
    const [low, high] = [Math.max(a.bounds.min[k], b.bounds.min[k]), Math.min(a.bounds.max[k], b.bounds.max[k])];
    return Array.from({ length: 24 }, (_, n) => low + ((high - low) * (n + 0.5)) / 24);
  });
  return along[0]!.some((x) =>
    along[1]!.some((y) => along[2]!.some((z) => holds(a, [x, y, z]) && holds(b, [x, y, z]))),
  );
}

describe('removed volumes apart', () => {
  it('agree with the nearest of dense samples', () => {
    const volume = fc.record({ outline: fc.constantFrom(...shapes), profile: fc.constantFrom(...profiles), w: way });
    const place = fc.tuple(number(-13, 13), number(-13, 13), number(-13, 13));
    let measured = 0;
    fc.assert(
      fc.property(volume, volume, place, (one, two, at) => {
        const a = cut({ frame: looking([0, 0, 0], one.w), region: one.outline, to: 3, profile: one.profile });
        const b = cut({ frame: looking(at, two.w), region: two.outline, to: 4, profile: two.profile });
        const found = solidsApart(a, b, 50)!;
        const brute = bruteForce(a, b, found.mm + 2 * STEP);
        assert.ok(found.mm <= brute + 1e-6, `${found.mm} > ${brute}`);
        if (found.mm < 1e-9) return;
        measured++;
        // two surfaces sampled at STEP: the nearest samples lie within half a diagonal of the nearest points
        assert.ok(found.mm >= brute - 2 * STEP * Math.SQRT1_2 - 1e-6, `${found.mm} < ${brute}`);
        near(distance(found.p, found.q), found.mm, 1e-7);
        near(solidsApart(b, a, 50)!.mm, found.mm, 1e-3);
      }),
      { seed: 5, numRuns: 36 },
    );
    assert.ok(measured > 8, `only ${measured} apart`);
  });

  it('a bar that goes through both ends of a frame and meets no side of it lies in it', () => {
    // found by tests/proof: a step whose far corners stand outside the contour it cuts into
    const frame = looking([0, 0, 0], [0, 0, 1]);
    const ring = cut({ frame, region: region(rectangle(0, 0, 40, 40), reversed(rectangle(0, 0, 20, 20))), to: 2 });
    const bar = cut({ frame: looking([0, 0, -3], [0, 0, 1]), region: region(rectangle(15, 0, 4, 8)), to: 9 });
    for (const [a, b] of [
      [ring, bar],
      [bar, ring],
    ] as const)
      near(solidsApart(a, b, 4)?.mm ?? Number.NaN, 0);
  });

  it('a ring whose round walls go through an end of a frame and meet no side of it lies in it', () => {
    // found by tests/proof: a groove in the front of a round bar, and what a contour leaves of its underside
    const frame = cut({
      frame: looking([0, 0, 0], [0, 0, 1]),
      region: region(rectangle(0, 0, 66, 56), reversed(rectangle(0, 12, 30, 20, 2))),
      to: 5.34,
    });
    const ring = cut({
      frame: looking([18, -20, 5.7], [0, 1, 0]),
      region: region(circle(0, 0, 11.5), circle(0, 0, 10, false)),
      to: 3.9,
    });
    near(solidsApart(frame, ring, 4)?.mm ?? Number.NaN, 0);
    near(solidsApart(ring, frame, 4)?.mm ?? Number.NaN, 0);
  });

  it('are 0 apart wherever one point lies in both', function () {
    this.timeout(120_000);
    const volume = fc.record({ outline: fc.constantFrom(...shapes), profile: fc.constantFrom(...profiles), w: way });
    const place = fc.tuple(number(-9, 9), number(-9, 9), number(-9, 9));
    let met = 0;
    fc.assert(
      fc.property(volume, volume, place, (one, two, at) => {
        const a = cut({ frame: looking([0, 0, 0], one.w), region: one.outline, to: 3, profile: one.profile });
        const b = cut({ frame: looking(at, two.w), region: two.outline, to: 4, profile: two.profile });
        if (!common(a, b)) return;
        met++;
        near(solidsApart(a, b, 50)?.mm ?? Number.NaN, 0);
        near(solidsApart(b, a, 50)?.mm ?? Number.NaN, 0);
      }),
      { seed: 11, numRuns: 400 },
    );
    assert.ok(met > 100, `only ${met} meet`);
  });

  it('an annulus and a rod in its hole, a rod through its floor, one above it', () => {
    const ring = cut({
      frame: looking([0, 0, 0], [0, 0, 1]),
      region: region(circle(0, 0, 8), circle(0, 0, 5, false)),
      to: 6,
    });
    const rod = (at: Vec3, w: Vec3, r: number, long: number) =>
      cut({ frame: looking(at, w), region: region(circle(0, 0, r)), to: long });
    // a short rod lying in the boss, its ends 3 from the middle, rim corner at hypot(3, 1)
    near(solidsApart(ring, rod([-3, 0, 3], [1, 0, 0], 1, 6), 5)!.mm, 5 - Math.hypot(3, 1), 1e-6);
    near(solidsApart(ring, rod([-20, 6.5, 8], [1, 0, 0], 1, 40), 5)!.mm, 1, 1e-8);
    near(solidsApart(ring, rod([6.5, 0, 7.2], [0, 0.01, 1], 1, 5), 5)!.mm, 1.2 - 0.01, 1e-3);
    assert.equal(solidsApart(ring, rod([6.5, 0, 3], [0, 0.1, 1], 1, 1), 5)!.mm, 0);
    assert.equal(solidsApart(ring, rod([-20, 0, 30], [1, 0, 0], 1, 40), 5), undefined);
  });

  it('a rounded rim stands off a rod by the true quarter circle', () => {
    // material rounded by 3 about a square of 12: the volume is widest at the face and comes in by 3
    const rim = cut({
      frame: looking([0, 0, 0], [0, 0, 1]),
      region: region(rectangle(0, 0, 20, 20)),
      to: 3,
      profile: { type: 'round', radius: 3 },
    });
    const rod = cut({ frame: looking([8, -5, 6], [0, 1, 0]), region: region(circle(0, 0, 0.5)), to: 10 });
    const found = solidsApart(rim, rod, 9)!.mm;
    const brute = bruteForce(rim, rod);
    assert.ok(found <= brute + 1e-6 && found > brute - 0.1, `${found} ${brute}`);
  });

  it('point to volume: inside 0, else to the surface', () => {
    const ring = cut({
      frame: looking([0, 0, 0], [0, 0, 1]),
      region: region(circle(0, 0, 8), circle(0, 0, 5, false)),
      to: 6,
    });
    assert.equal(pointApart([6.5, 0, 3], ring, 9)!.mm, 0);
    near(pointApart([0, 1, 3], ring, 9)!.mm, 4, 1e-6);
    near(pointApart([0, 6.5, 8], ring, 9)!.mm, 2, 1e-9);
    near(pointApart([11, 0, 10], ring, 9)!.mm, 5, 1e-6);
    assert.equal(pointApart([30, 0, 0], ring, 9), undefined);
  });
});
