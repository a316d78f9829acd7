/** Distances of edges, loops and regions, against closed forms; and places that face each other. */
import assert from 'node:assert/strict';
import { facings, ownFacings, staysWithin } from '../../../server/src/geometry/distance/facing';
import { outlineOf, signedDistance } from '../../../server/src/geometry/distance/outline';
import type { ArcEdge, Edge, Region } from '../../../server/src/geometry/types';
import { edgesApart, loopsApart, regionsApart } from './apart';
import { circle, polygon, rectangle, region, reversed } from './make';

/** Least material between two stretches of a removed region's own boundary. */
const leastNeck = (removed: Region) => ownFacings(outlineOf(removed), Number.POSITIVE_INFINITY, 'outside')[0];
const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);
const line = (au: number, av: number, bu: number, bv: number): Edge => ({
  type: 'line',
  a: { u: au, v: av },
  b: { u: bu, v: bv },
});
/** An arc about (u, v) from one angle to another in degrees, counter-clockwise when the second is larger. */
function arc(u: number, v: number, radius: number, from: number, to: number): ArcEdge {
  const at = (deg: number) => ({
    u: u + radius * Math.cos((deg * Math.PI) / 180),
    v: v + radius * Math.sin((deg * Math.PI) / 180),
  });
  return { type: 'arc', a: at(from), b: at(to), centre: { u, v }, radius, ccw: to > from };
}

describe('edges apart', () => {
  it('two lines: crossing, end to side, end to end, parallel', () => {
    near(edgesApart(line(0, 0, 10, 10), line(0, 10, 10, 0)).mm, 0);
    near(edgesApart(line(0, 0, 10, 0), line(4, 3, 8, 6)).mm, 3);
    near(edgesApart(line(0, 0, 10, 0), line(13, 4, 20, 4)).mm, 5);
    const parallel = edgesApart(line(0, 0, 10, 0), line(16, 2, 4, 2));
    near(parallel.mm, 2);
    near(parallel.p.u, 7);
    near(parallel.q.u, 7);
  });
  it('a line and an arc: over its crown, past its end, through it', () => {
    near(edgesApart(line(-10, 8, 10, 8), arc(0, 0, 5, 0, 180)).mm, 3);
    near(edgesApart(line(-10, 8, 10, 8), arc(0, 0, 5, -180, 0)).mm, 8);
    near(edgesApart(line(-10, 4, 10, 4), arc(0, 0, 5, 0, 180)).mm, 0);
    // a short line inside the circle: its far end to the rim
    near(edgesApart(line(0, 0, 3, 0), arc(0, 0, 5, -90, 90)).mm, 2);
  });
  it('two arcs: beside, inside, concentric, only by their ends', () => {
    near(edgesApart(arc(0, 0, 5, -90, 90), arc(12, 0, 4, 90, 270)).mm, 3);
    near(edgesApart(arc(0, 0, 10, -90, 90), arc(3, 0, 5, -90, 90)).mm, 2);
    near(edgesApart(arc(0, 0, 10, 0, 90), arc(0, 0, 7, 30, 200)).mm, 3);
    near(edgesApart(arc(0, 0, 5, 90, 180), arc(12, 0, 4, 0, 90)).mm, Math.hypot(12, 1));
    near(edgesApart(arc(0, 0, 5, 0, 180), arc(6, 0, 5, 0, 180)).mm, 0);
  });
  it('does not care which comes first or which way an edge runs', () => {
    const edges = [line(1, 2, 9, 3), arc(4, 12, 6, 200, 300), arc(20, 0, 5, 90, 200), line(15, 15, 15, 2)];
    for (const e of edges) {
      for (const f of edges) {
        const back: Edge = f.type === 'line' ? { ...f, a: f.b, b: f.a } : { ...f, a: f.b, b: f.a, ccw: !f.ccw };
        near(edgesApart(e, f).mm, edgesApart(back, e).mm, 1e-12);
      }
    }
  });
});

describe('regions apart', () => {
  it('measures areas: apart, overlapping, one inside the other, one in the other’s hole', () => {
    const a = region(rectangle(0, 0, 10, 10, 2));
    near(regionsApart(a, region(circle(12, 0, 4))).mm, 3);
    assert.equal(regionsApart(a, region(circle(6, 0, 4))).relation, 'meet');
    assert.equal(regionsApart(a, region(circle(0, 0, 3))).relation, 'b-inside-a');
    assert.equal(regionsApart(region(circle(0, 0, 3)), a).relation, 'a-inside-b');
    const ring = region(circle(0, 0, 10), circle(0, 0, 7, false));
    const inner = regionsApart(ring, region(circle(1, 0, 4)));
    assert.equal(inner.relation, 'apart');
    near(inner.mm, 2);
  });
  it('rounded corner against rounded corner, along the diagonal', () => {
    const b = region(rectangle(14, 14, 10, 10, 2));
    // corner centres (3, 3) and (11, 11), radius 2 each
    near(regionsApart(region(rectangle(0, 0, 10, 10, 2)), b).mm, 8 * Math.SQRT2 - 4);
  });
  it('loops as curves: one inside the other has a distance', () => {
    near(loopsApart(circle(0, 0, 10), circle(2, 0, 5)).mm, 3);
  });
  it('signed distance is negative inside, at corners too', () => {
    const l = outlineOf(region(polygon([0, 0], [20, 0], [20, 3], [5, 3], [5, 15], [0, 15])));
    near(signedDistance(l, 2, 2), -2);
    near(signedDistance(l, 8, 7), 3);
    near(signedDistance(l, 4, 2.5), -Math.hypot(1, 0.5));
    near(signedDistance(l, 23, -4), 5);
    near(signedDistance(l, 4.4, 2.2), -1);
    const ring = outlineOf(region(circle(0, 0, 10), circle(0, 0, 7, false)));
    near(signedDistance(ring, 0, 0), 7);
    near(signedDistance(ring, 8, 0), -1);
  });
});

describe('facing stretches', () => {
  it('two circles face each other at one place, a U and its rib at several', () => {
    const found = facings(outlineOf(region(circle(0, 0, 5))), outlineOf(region(circle(12, 0, 5))), 10);
    assert.equal(found.length, 1);
    near(found[0]!.mm, 2);
  });
  it('says how long parallel sides face each other', () => {
    const [k] = facings(outlineOf(region(rectangle(0, 0, 10, 20))), outlineOf(region(rectangle(11, 5, 10, 20))), 2);
    near(k!.mm, 1);
    near(k!.to - k!.from, 15);
    assert.ok(staysWithin(k!, 1.5) >= 15);
  });
  it('overlapping convex outlines face nowhere; hooked ones do where they do not touch', () => {
    assert.deepEqual(facings(outlineOf(region(circle(0, 0, 5))), outlineOf(region(circle(6, 0, 5))), 10), []);
    const hook = polygon([0, 0], [20, 0], [20, 10], [15, 10], [15, 3], [0, 3]);
    const bar = region(rectangle(7.25, 6, 14.5, 7));
    const found = facings(outlineOf(region(hook)), outlineOf(bar), 2);
    near(found[0]!.mm, 0.5);
  });
  it('the thin place of what an outline leaves standing', () => {
    const c = polygon(
      [0, 0],
      [20, 0],
      [20, 20],
      [0, 20],
      [0, 15],
      [12, 15],
      [12, 5.8],
      [11.5, 5.8],
      [11.5, 14],
      [0, 14],
    );
    near(leastNeck(region(c))!.mm, 0.5);
    assert.equal(leastNeck(region(rectangle(0, 0, 10, 10, 1))), undefined);
    // a boss 3 mm across left standing, round and square
    near(leastNeck(region(circle(0, 0, 10), circle(0, 0, 1.5, false)))!.mm, 3);
    near(leastNeck(region(circle(0, 0, 10), reversed(rectangle(0, 0, 3, 8, 1))))!.mm, 3);
  });
  it('nothing of the outline lies between the two ends', () => {
    const comb = polygon(
      [0, 0],
      [12, 0],
      [12, 10],
      [9, 10],
      [9, 2],
      [7, 2],
      [7, 10],
      [5, 10],
      [5, 2],
      [3, 2],
      [3, 10],
      [0, 10],
    );
    const found = ownFacings(outlineOf(region(comb)), 20, 'outside');
    assert.ok(
      found.every((k) => k.mm < 2 + 1e-9),
      JSON.stringify(found.map((k) => k.mm)),
    );
  });
});
