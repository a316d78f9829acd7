/** Distances of round and cornered bodies against closed forms, and the same wherever the two are turned. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { convexApart } from '../../../server/src/geometry/distance/gjk';
import { piecesOf } from '../../../server/src/geometry/distance/pieces';
import type { Frame, Profile, Region, Vec3, Void } from '../../../server/src/geometry/types';
import { cross, dot, length, scale } from '../../../server/src/geometry/vector';
import { circle, cut, rectangle, region } from './make';

const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

const piece = (v: Void) => piecesOf(v).list[0]!;
const apart = (a: Void, b: Void) => convexApart(piece(a), piece(b)).mm;

/** A frame at a place whose w looks along a direction. */
function looking(origin: Vec3, w: Vec3): Frame {
  const k = scale(w, 1 / length(w));
  const other: Vec3 = Math.abs(k[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const side = cross(k, other);
  const u = scale(side, 1 / length(side));
  return { origin, u, v: cross(k, u), w: k };
}
const rod = (origin: Vec3, w: Vec3, radius: number, long: number, profile?: Profile) =>
  cut({ frame: looking(origin, w), region: region(circle(0, 0, radius)), to: long, ...(profile && { profile }) });
const prism = (origin: Vec3, w: Vec3, outline: Region, long: number) =>
  cut({ frame: looking(origin, w), region: outline, to: long });

describe('convex bodies apart', () => {
  it('skew cylinders: distance of the axes less the radii', () => {
    near(apart(rod([0, 0, -20], [0, 0, 1], 3, 40), rod([-20, 6, 0], [1, 0, 0], 2, 40)), 1);
    near(apart(rod([0, 0, -20], [0, 0, 1], 3, 40), rod([-20, 5.2, -20], [1, 0, 1], 2, 57)), 0.2);
  });
  it('a cylinder’s end over a slab, flat and leaning', () => {
    const slab = prism([0, 0, -5], [0, 0, 1], region(rectangle(0, 0, 60, 60)), 5);
    near(apart(slab, rod([0, 0, 1.5], [0, 0, 1], 3, 10)), 1.5);
    // leaning by 30°: the rim's lowest point is r·sin 30° below the end's middle
    near(apart(slab, rod([0, 0, 4], [Math.sin(Math.PI / 6), 0, Math.cos(Math.PI / 6)], 3, 10)), 4 - 1.5);
  });
  it('a cone’s tip and its flank', () => {
    const cone = rod([0, 0, 0], [0, 0, 1], 3, 3, { type: 'taper', insetFrom: 0, insetTo: 3 });
    const slab = prism([0, 0, 3.25], [0, 0, 1], region(rectangle(0, 0, 60, 60)), 5);
    near(apart(cone, slab), 0.25);
    // a 45° flank x + z = 3 and a rod along y about (4, ·, 4): (4 + 4 − 3) / √2 − 1
    near(apart(cone, rod([4, -20, 4], [0, 1, 0], 1, 40)), 5 / Math.SQRT2 - 1);
  });
  it('a countersink is as wide as it says at its mouth', () => {
    const sink = rod([0, 0, 0], [0, 0, 1], 2, 3, { type: 'taper', insetFrom: -3, insetTo: 0 });
    near(apart(sink, rod([7, -20, 0], [0, 1, 0], 1, 40)), 1);
  });
  it('a ball end is a sphere below', () => {
    const ball = rod([0, 0, 0], [0, 0, 1], 3, 10, { type: 'floor', radius: 3 });
    // ball about (0, 0, 7); rods along y about (4, ·, 10) and (0, ·, 12)
    near(apart(ball, rod([4, -20, 10], [0, 1, 0], 1, 40)), 1);
    near(apart(ball, rod([0, -20, 12], [0, 1, 0], 1, 40)), 1);
  });
  it('round corners of a prism against a rod on the diagonal', () => {
    const p = prism([0, 0, 0], [0, 0, 1], region(rectangle(0, 0, 20, 20, 4)), 10);
    near(apart(p, rod([12, 12, 5], [1, -1, 0.2], 1, 0.01)) > 0 ? 1 : 0, 1);
    // an upright rod at (12, 12): corner centre (6, 6)
    near(apart(p, rod([12, 12, -5], [0, 0, 1], 1, 20)), 6 * Math.SQRT2 - 5);
  });
  it('touching and overlapping bodies are 0 apart', () => {
    assert.equal(apart(rod([0, 0, -20], [0, 0, 1], 3, 40), rod([-20, 4, 0], [1, 0, 0], 2, 40)), 0);
    assert.equal(apart(rod([0, 0, 0], [0, 0, 1], 3, 40), rod([1, 0, 5], [0, 0, 1], 1, 4)), 0);
  });
  it('stops early where the bodies are certainly farther apart than asked', () => {
    const far = convexApart(piece(rod([0, 0, 0], [0, 0, 1], 3, 10)), piece(rod([90, 0, 0], [1, 1, 0], 3, 10)), 2);
    assert.ok(far.mm >= 2);
  });
});

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const way = fc.tuple(number(-1, 1), number(-1, 1), number(-1, 1)).filter((d) => length(d) > 0.2);

describe('convex bodies apart, generated', () => {
  it('skew cylinders in any direction: axis distance less radii, to 5e-9', () => {
    fc.assert(
      fc.property(way, way, number(0.5, 4), number(0.5, 4), number(0.02, 4), (w1, w2, r1, r2, gap) => {
        const n = cross(scale(w1, 1 / length(w1)), scale(w2, 1 / length(w2)));
        fc.pre(length(n) > 0.2);
        const off = scale(n, (r1 + r2 + gap) / length(n));
        const start = (w: Vec3, at: Vec3): Vec3 =>
          at.map((x, i) => x - (20 * w[i as 0]) / length(w)) as unknown as Vec3;
        const found = apart(rod(start(w1, [0, 0, 0]), w1, r1, 40), rod(start(w2, off), w2, r2, 40));
        near(found, gap, 5e-9);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it('turning both leaves the distance, and its ends lie that far apart', () => {
    const shape = fc.constantFrom<Region>(
      region(circle(0, 0, 3)),
      region(rectangle(0, 0, 8, 5)),
      region(rectangle(1, 0, 9, 6, 2)),
      region(rectangle(0, 1, 10, 4, 2)),
    );
    const place = fc.tuple(number(-15, 15), number(-15, 15), number(-15, 15));
    fc.assert(
      fc.property(shape, shape, place, way, way, way, (s1, s2, at, w1, w2, axis) => {
        const turnBy = turn(axis, 1.234);
        const turned = (v: Void): Void =>
          cut({
            frame: {
              origin: turnBy(v.frame.origin),
              u: turnBy(v.frame.u),
              v: turnBy(v.frame.v),
              w: turnBy(v.frame.w),
            },
            region: v.region,
            to: v.to,
          });
        const [a, b] = [prism([0, 0, 0], w1, s1, 7), prism(at, w2, s2, 9)];
        const one = convexApart(piece(a), piece(b));
        near(convexApart(piece(turned(a)), piece(turned(b))).mm, one.mm, 2e-8);
        near(convexApart(piece(b), piece(a)).mm, one.mm, 2e-8);
        if (one.mm > 0) near(Math.hypot(...one.p.map((x, i) => x - one.q[i as 0])), one.mm, 1e-9);
      }),
      { seed: 11, numRuns: 200 },
    );
  });
});

/** Rotation about an axis (Rodrigues). */
function turn(axis: Vec3, angle: number): (p: Vec3) => Vec3 {
  const k = scale(axis, 1 / length(axis));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return (p) => {
    const x = cross(k, p);
    const d = dot(k, p) * (1 - c);
    return [p[0] * c + x[0] * s + k[0] * d, p[1] * c + x[1] * s + k[1] * d, p[2] * c + x[2] * s + k[2] * d];
  };
}
