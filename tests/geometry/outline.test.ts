import assert from 'node:assert/strict';
import fc from 'fast-check';
import { subtractRegions, uniteRegions } from '../../server/src/geometry/2d/assemble-loops';
import {
  arc,
  circleEdge,
  edgeRect,
  lengthOf,
  line,
  paramOf,
  pointAt,
  reachOf,
  reversedEdge,
  sweepOf,
} from '../../server/src/geometry/2d/edge';
import { depthInside, isInside, windingOf } from '../../server/src/geometry/2d/inside';
import { meetings } from '../../server/src/geometry/2d/intersect';
import {
  centroidOf,
  loopArea,
  momentsOf,
  perimeterOf,
  regionEdges,
  regionMoments,
} from '../../server/src/geometry/2d/moments';
import { insetRegion } from '../../server/src/geometry/2d/offset';
import { pathLine, pathLoop } from '../../server/src/geometry/2d/path-outline';
import { mapLoop, shift, turn } from '../../server/src/geometry/2d/plane-map';
import { outlineOf, polygonLoop, rectangleLoop, rectLoop } from '../../server/src/geometry/2d/shape-outline';
import { thickLine } from '../../server/src/geometry/2d/slot-outline';
import type { Edge, Loop, Point2, Region } from '../../server/src/geometry/types';
import { circle, corner, path, rectangle } from './parts';

const { PI } = Math;
const SEED = { seed: 20260101, numRuns: 60 };

function near(actual: number, expected: number, allowed = 1e-9): void {
  assert.ok(Math.abs(actual - expected) <= allowed * Math.max(1, Math.abs(expected)), `${actual} ≠ ${expected}`);
}
const p = (u: number, v: number): Point2 => ({ u, v });
const region = (outer: Loop, ...holes: Loop[]): Region => ({ outer, holes });
const areaOf = (rs: readonly Region[] | undefined) => rs!.reduce((sum, r) => sum + regionMoments(r).area, 0);

/** Area of fine chords, by the shoelace formula: knows nothing of arcs. */
function shoelace(edges: readonly Edge[], per = 4000): number {
  let twice = 0;
  for (const e of edges) {
    const n = e.type === 'line' ? 1 : per;
    for (let i = 0; i < n; i++) {
      const a = pointAt(e, i / n);
      const b = pointAt(e, (i + 1) / n);
      twice += a.u * b.v - b.u * a.v;
    }
  }
  return twice / 2;
}

describe('edges', () => {
  const quarter = arc(p(5, 0), p(0, 5), p(0, 0), true);
  const rest = arc(p(5, 0), p(0, 5), p(0, 0), false);

  it('know length, direction and turn', () => {
    near(lengthOf(quarter), (PI / 2) * 5);
    near(sweepOf(rest), (-3 * PI) / 2);
    near(lengthOf(circleEdge(p(1, 1), 2)), 4 * PI);
    near(lengthOf(line(p(0, 0), p(3, 4))), 5);
    near(sweepOf(reversedEdge(quarter) as typeof quarter), -PI / 2);
  });

  it('know how far they reach', () => {
    assert.deepEqual(edgeRect(quarter), { u0: 0, v0: 0, u1: 5, v1: 5 });
    assert.deepEqual(edgeRect(rest), { u0: -5, v0: -5, u1: 5, v1: 5 });
    const [low, high] = reachOf(quarter, Math.SQRT1_2, Math.SQRT1_2);
    near(high, 5);
    near(low, 5 * Math.SQRT1_2);
  });

  it('find a point’s parameter again', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), fc.boolean(), (t, ccw) => {
        const e = arc(p(3, 1), p(-1, 4), p(1, 1.5 + 0.25), ccw);
        const q = pointAt({ ...e, b: pointAt(e, 1) }, t);
        near(paramOf(e, q.u, q.v), t, 1e-9);
      }),
      SEED,
    );
  });
});

describe('where edges meet', () => {
  it('crossing, touching, at ends, along each other', () => {
    assert.deepEqual(meetings(line(p(0, 0), p(4, 4)), line(p(0, 4), p(4, 0))), [p(2, 2)]);
    assert.equal(meetings(line(p(0, 0), p(4, 0)), line(p(0, 1), p(4, 1))).length, 0);
    assert.equal(meetings(line(p(0, 0), p(4, 0)), line(p(1, 0), p(6, 0))).length, 2);
    assert.equal(meetings(line(p(-9, 5), p(9, 5)), circleEdge(p(0, 0), 5)).length, 1);
    assert.equal(meetings(line(p(-9, 3), p(9, 3)), circleEdge(p(0, 0), 5)).length, 2);
    assert.equal(meetings(line(p(0, 3), p(9, 3)), circleEdge(p(0, 0), 5)).length, 1);
    assert.equal(meetings(circleEdge(p(0, 0), 5), circleEdge(p(8, 0), 3)).length, 1);
    assert.equal(meetings(circleEdge(p(0, 0), 5), circleEdge(p(2, 0), 3)).length, 1);
    assert.equal(meetings(circleEdge(p(0, 0), 5), circleEdge(p(6, 0), 5)).length, 2);
    assert.equal(meetings(circleEdge(p(0, 0), 5), circleEdge(p(0, 0), 3)).length, 0);
  });
});

describe('outlines of shapes', () => {
  it('rectangle with round corners: area, perimeter, direction', () => {
    const loop = rectangleLoop(30, 20, 4)!;
    near(loopArea(loop), 600 - (4 - PI) * 16);
    near(perimeterOf(loop), 2 * (22 + 12) + 8 * PI);
    near(shoelace(loop.edges), loopArea(loop), 1e-6);
    assert.equal(rectangleLoop(0, 5, 1), undefined);
    // a corner radius of half the width makes round ends; of both halves, a circle
    near(loopArea(rectangleLoop(30, 20, 99)!), 10 * 20 + PI * 100);
    assert.equal(rectangleLoop(20, 20, 10)!.edges.length, 1);
  });

  it('turned rectangles and circles keep their area and place', () => {
    const m = momentsOf(outlineOf(rectangle(30, 20, 4, 33))!.edges);
    near(m.area, 600 - (4 - PI) * 16);
    near(m.mu, 0, 1e-9);
    near(loopArea(outlineOf(circle(9))!), (PI * 81) / 4);
    assert.equal(outlineOf(circle(0)), undefined);
  });

  it('a path drawn clockwise is turned; corners are rounded, bevelled, arced', () => {
    const loop = outlineOf(
      path(corner(0, 0), corner(0, 30), corner(40, 30, { round: 6 }), corner(40, 0, { bevel: 5 })),
    )!;
    near(loopArea(loop), 1200 - 36 * (1 - PI / 4) - 12.5);
    // a bulge through a point: half a disc more
    const bulge = outlineOf(path(corner(0, 0), corner(10, 0, { arc: [15, 5] }), corner(10, 10), corner(0, 10)))!;
    near(loopArea(bulge), 100 + (PI * 25) / 2);
    // every corner rounded, between arc and line too
    const smooth = pathLoop([
      corner(0, 0, { round: 1 }),
      corner(10, 0, { arc: [15, 5], round: 1 }),
      corner(10, 10, { round: 1 }),
      corner(0, 10, { round: 1 }),
    ])!;
    assert.equal(smooth.edges.filter((e) => e.type === 'arc').length, 3);
    near(shoelace(smooth.edges), loopArea(smooth), 1e-6);
  });

  it('roundings that want the same stretch are left sharp, too large ones too', () => {
    const both = pathLoop([corner(0, 0, { round: 3 }), corner(5, 0, { round: 3 }), corner(5, 20), corner(0, 20)])!;
    near(loopArea(both), 100);
    const large = pathLoop([corner(0, 0, { round: 30 }), corner(5, 0), corner(5, 20), corner(0, 20)])!;
    near(loopArea(large), 100);
  });

  it('nothing to enclose: undefined', () => {
    assert.equal(outlineOf(path(corner(0, 0), corner(10, 0))), undefined);
    assert.equal(outlineOf(path(corner(1, 1), corner(1, 1), corner(1, 1))), undefined);
  });

  it('edges remember the corner they leave', () => {
    const loop = outlineOf(path(corner(0, 0), corner(40, 0), corner(40, 30), corner(0, 30)))!;
    assert.deepEqual(
      loop.edges.map((e) => e.corner),
      [0, 1, 2, 3],
    );
  });

  it('area and moments of lines and arcs agree with fine chords', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (deg, du) => {
          const loop = mapLoop(shift(du, 3), mapLoop(turn(deg), rectangleLoop(12, 9, 3)!));
          const m = momentsOf(loop.edges);
          near(shoelace(loop.edges, 600), m.area, 1e-5);
          near(centroidOf(m).u, du, 1e-8);
          near(centroidOf(m).v, 3, 1e-8);
        },
      ),
      SEED,
    );
  });
});

describe('point and outline', () => {
  it('inside, outside, and how far', () => {
    const ring = region(outlineOf(circle(20))!, { edges: [circleEdge(p(0, 0), 4, false)] });
    assert.ok(isInside(ring, 7, 0));
    assert.ok(!isInside(ring, 1, 1));
    assert.ok(!isInside(ring, 10.5, 0));
    near(depthInside(regionEdges(ring), 7, 0), 3);
    near(depthInside(regionEdges(ring), 0, 12), -2);
  });

  it('agrees with the distance from the centre for arcs of every size', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.integer({ min: 2, max: 5 }),
        (u, v, n) => {
          fc.pre(Math.abs(Math.hypot(u, v) - 5) > 1e-6);
          const at = (k: number) => p(5 * Math.cos((2 * PI * k) / n), 5 * Math.sin((2 * PI * k) / n));
          const edges = Array.from({ length: n }, (_, k) => arc(at(k), at((k + 1) % n), p(0, 0), true));
          const closed = edges.map((e, k) => ({ ...e, b: edges[(k + 1) % n]!.a }));
          assert.equal(windingOf(closed, u, v), Math.hypot(u, v) < 5 ? 1 : 0);
        },
      ),
      SEED,
    );
  });
});

describe('set operations', () => {
  const square = region(rectLoop(0, 0, 10, 10));

  it('union and difference of overlapping, touching, nested outlines', () => {
    const beside = region(rectLoop(10, 0, 20, 10));
    const joined = uniteRegions([square, beside])!;
    assert.equal(joined.length, 1);
    near(areaOf(joined), 200);
    const far = region(rectLoop(30, 0, 40, 10));
    assert.equal(uniteRegions([square, far])!.length, 2);
    const disc = region(outlineOf(circle(4))!);
    const inside = region(mapLoop(shift(5, 5), disc.outer));
    near(areaOf(uniteRegions([square, inside])), 100);
    const holed = subtractRegions(square, [inside])!;
    assert.equal(holed[0]!.holes.length, 1);
    near(areaOf(holed), 100 - 4 * PI);
    near(areaOf(subtractRegions(square, [square])), 0);
    assert.equal(subtractRegions(square, [region(rectLoop(4, -1, 6, 11))])!.length, 2);
  });

  it('circle tangent to sides from inside: what is left is what the formula says', () => {
    const disc = region(mapLoop(shift(5, 5), outlineOf(circle(10))!));
    near(areaOf(subtractRegions(square, [disc])), 100 - 25 * PI);
    near(areaOf(uniteRegions([square, disc])), 100);
  });

  it('inclusion and exclusion hold for random rounded rectangles', () => {
    const one = fc.record({
      w: fc.integer({ min: 4, max: 20 }),
      h: fc.integer({ min: 4, max: 20 }),
      r: fc.integer({ min: 0, max: 4 }),
      u: fc.integer({ min: -8, max: 8 }),
      v: fc.integer({ min: -8, max: 8 }),
      deg: fc.constantFrom(0, 0, 0, 30, 45, 90),
    });
    const make = (o: { w: number; h: number; r: number; u: number; v: number; deg: number }) =>
      region(mapLoop(shift(o.u, o.v), mapLoop(turn(o.deg), rectangleLoop(o.w, o.h, o.r)!)));
    fc.assert(
      fc.property(one, one, one, (a, b, c) => {
        const [x, y, z] = [make(a), make(b), make(c)];
        const both = areaOf([x]) - areaOf(subtractRegions(x, [y]));
        const back = areaOf([y]) - areaOf(subtractRegions(y, [x]));
        near(both, back, 1e-7);
        near(areaOf(uniteRegions([x, y])), areaOf([x]) + areaOf([y]) - both, 1e-7);
        const three = areaOf(uniteRegions([x, y, z]));
        near(three, areaOf([x]) + areaOf(subtractRegions(y, [x])) + areaOf(subtractRegions(z, [x, y])), 1e-7);
      }),
      { ...SEED, numRuns: 120 },
    );
  });
});

describe('insets', () => {
  it('circle, rectangle, and growth with round corners (Steiner: A + P d + π d²)', () => {
    near(areaOf(insetRegion(region(outlineOf(circle(20))!), 3)), 49 * PI);
    assert.equal(insetRegion(region(outlineOf(circle(20))!), 10.1)!.length, 0);
    near(areaOf(insetRegion(region(rectLoop(0, 0, 10, 6)), 1)), 8 * 4);
    near(areaOf(insetRegion(region(rectLoop(0, 0, 10, 6)), -2)), 60 + 32 * 2 + 4 * PI);
    near(areaOf(insetRegion(region(rectangleLoop(30, 20, 4)!), 4)), 22 * 12);
    near(areaOf(insetRegion(region(rectangleLoop(30, 20, 4)!), 6)), 18 * 8);
  });

  it('a notch opens with an arc; a waist falls apart; a sliver vanishes', () => {
    const ell = region(polygonLoop([p(0, 0), p(20, 0), p(20, 10), p(10, 10), p(10, 20), p(0, 20)]));
    // inside corner at (10, 10): the moved sides are joined by a quarter circle, which leaves a square less a quarter disc
    near(areaOf(insetRegion(ell, 2)), 16 * 6 + 6 * 10 + 4 - PI + 0, 1e-9);
    const waist = region(
      polygonLoop([
        p(0, 0),
        p(10, 0),
        p(10, 4),
        p(20, 4),
        p(20, 0),
        p(30, 0),
        p(30, 10),
        p(20, 10),
        p(20, 6),
        p(10, 6),
        p(10, 10),
        p(0, 10),
      ]),
    );
    assert.equal(insetRegion(waist, 0.5)!.length, 1);
    assert.equal(insetRegion(waist, 1.5)!.length, 2);
    assert.equal(insetRegion(region(rectLoop(0, 0, 10, 1)), 0.6)!.length, 0);
  });

  it('holes grow as the outside shrinks, until they break through', () => {
    const ring = region(rectLoop(0, 0, 20, 20), { edges: [circleEdge(p(10, 10), 4, false)] });
    near(areaOf(insetRegion(ring, 1)), 18 * 18 - 25 * PI);
    assert.equal(insetRegion(ring, 2.5)![0]!.holes.length, 1);
    assert.equal(insetRegion(ring, 3.5)!.length, 4);
  });

  it('every point of the moved outline is that far from the old one', () => {
    fc.assert(
      fc.property(fc.integer({ min: -30, max: 30 }), fc.integer({ min: 0, max: 3 }), (tenths, round) => {
        fc.pre(tenths !== 0);
        const from = region(
          pathLoop([
            corner(0, 0, { round }),
            corner(30, 0, { arc: [36, 8] }),
            corner(30, 18),
            corner(16, 18, { round }),
            corner(16, 9),
            corner(8, 9, { bevel: 2 }),
            corner(8, 20),
            corner(0, 20, { round }),
          ])!,
        );
        const by = tenths / 10;
        const moved = insetRegion(from, by);
        assert.ok(moved);
        for (const e of moved.flatMap(regionEdges)) {
          for (const t of [0.1, 0.5, 0.9]) {
            const q = pointAt(e, t);
            near(depthInside(regionEdges(from), q.u, q.v), by, 1e-6);
          }
        }
      }),
      SEED,
    );
  });
});

describe('slots from a centre line', () => {
  it('straight, bent, arced, crossing itself', () => {
    near(areaOf(thickLine(pathLine([corner(0, 0), corner(30, 0)]), 8)), 240 + 16 * PI);
    // an L: two runs, one square counted once, a quarter disc at the outside of the bend
    near(
      areaOf(thickLine(pathLine([corner(0, 0), corner(30, 0), corner(30, 20)]), 8)),
      240 + 160 - 16 + 4 * PI + 16 * PI,
    );
    near(
      areaOf(thickLine(pathLine([corner(0, 0), corner(30, 0, { round: 6 }), corner(30, 20)]), 8)),
      8 * (24 + 14 + 3 * PI) + 16 * PI,
    );
    near(areaOf(thickLine(pathLine([corner(-5, 0, { arc: [0, 5] }), corner(5, 0)]), 2)), 2 * 5 * PI + PI);
    const eight = thickLine(pathLine([corner(0, 0), corner(20, 20), corner(20, 0), corner(0, 20)]), 2)!;
    assert.equal(eight.length, 1);
    assert.equal(eight[0]!.holes.length, 1);
  });

  it('an arc tighter than half the width still holds its centre', () => {
    const tight = thickLine(pathLine([corner(-1, 0, { arc: [0, 1] }), corner(1, 0)]), 6)!;
    assert.ok(isInside(tight[0]!, 0, 0.1));
    near(shoelace(regionEdges(tight[0]!)), areaOf(tight), 1e-5);
  });

  it('every point of the outline is half a width from the line', () => {
    const chain = pathLine([
      corner(0, 0),
      corner(20, 5, { round: 3 }),
      corner(25, 25, { arc: [20, 32] }),
      corner(5, 30),
    ]);
    for (const e of thickLine(chain, 5)!.flatMap(regionEdges)) {
      const q = pointAt(e, 0.4);
      const d = Math.min(...chain.map((c) => Math.abs(depthInside([c], q.u, q.v))));
      near(d, 2.5, 1e-6);
    }
  });
});
