/**
 * Planar distances against an independent library: @flatten-js/core 1.6 (a general-purpose 2-D geometry library), on
 * generated outlines of lines and arcs. Its own distance between polygons searches edge by edge with its own formulas.
 */
import assert from 'node:assert/strict';
import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { outlineOf, signedDistance } from '../../server/src/geometry/distance/outline';
import type { Edge, Loop, Point2 } from '../../server/src/geometry/types';
import { edgesApart, regionsApart } from '../geometry/distance/apart';
import { region } from '../geometry/distance/make';

const { Arc, Point, Polygon, Segment, point } = Flatten;
const settings = { seed: 20260401, numRuns: 300 };

/** A rounded or bulging outline about a centre: corners at growing angles, some joined by arcs through a third point. */
const outline = fc
  .record({
    u: fc.double({ min: -30, max: 30, noNaN: true }),
    v: fc.double({ min: -30, max: 30, noNaN: true }),
    reach: fc.array(fc.double({ min: 3, max: 9, noNaN: true }), { minLength: 3, maxLength: 8 }),
    bulge: fc.array(fc.double({ min: -0.35, max: 0.35, noNaN: true }), { minLength: 8, maxLength: 8 }),
  })
  .map(({ u, v, reach, bulge }): Loop => {
    const at = reach.map((r, i) => {
      const angle = (2 * Math.PI * i) / reach.length;
      return { u: u + r * Math.cos(angle), v: v + r * Math.sin(angle) };
    });
    return { edges: at.map((a, i) => bulged(a, at[(i + 1) % at.length]!, bulge[i]!)) };
  });

/** From a to b with a sagitta of `bulge` half-chords: outwards (to the right of a→b) when positive. */
function bulged(a: Point2, b: Point2, bulge: number): Edge {
  if (Math.abs(bulge) < 0.05) return { type: 'line', a, b };
  const [du, dv] = [b.u - a.u, b.v - a.v];
  const chord = Math.hypot(du, dv);
  const sagitta = Math.abs(bulge) * (chord / 2);
  const radius = (chord * chord) / (8 * sagitta) + sagitta / 2;
  const way = bulge > 0 ? 1 : -1;
  const off = (way * (radius - sagitta)) / chord;
  const centre = { u: (a.u + b.u) / 2 - dv * off, v: (a.v + b.v) / 2 + du * off };
  return { type: 'arc', a, b, centre, radius, ccw: bulge > 0 };
}

function shapeOf(e: Edge): Flatten.Segment | Flatten.Arc {
  if (e.type === 'line') return new Segment(point(e.a.u, e.a.v), point(e.b.u, e.b.v));
  const angle = (p: Point2) => Math.atan2(p.v - e.centre.v, p.u - e.centre.u);
  return new Arc(point(e.centre.u, e.centre.v), e.radius, angle(e.a), angle(e.b), e.ccw);
}

const polygonOf = (l: Loop) => {
  const p = new Polygon();
  p.addFace(l.edges.map(shapeOf));
  return p;
};

describe('distances against @flatten-js/core', () => {
  it('edge to edge', () => {
    fc.assert(
      fc.property(outline, outline, (a, b) => {
        for (const e of a.edges) {
          for (const f of b.edges) {
            const ours = edgesApart(e, f);
            const [theirs] = shapeOf(e).distanceTo(shapeOf(f) as never);
            assert.ok(Math.abs(ours.mm - theirs) < 1e-9, `${ours.mm} ${theirs} ${JSON.stringify([e, f])}`);
          }
        }
      }),
      { ...settings, numRuns: 150 },
    );
  });

  it('region to region, with witnesses that lie on both and are as far apart', () => {
    fc.assert(
      fc.property(outline, outline, (a, b) => {
        const ours = regionsApart(region(a), region(b));
        const [pa, pb] = [polygonOf(a), polygonOf(b)];
        const theirs = pa.distanceTo(pb)[0] as number;
        if (ours.relation === 'apart') assert.ok(Math.abs(ours.mm - theirs) < 1e-9, `${ours.mm} ${theirs}`);
        if (ours.relation === 'meet') assert.ok(theirs < 1e-9, `${theirs}`);
        if (ours.relation !== 'apart') return;
        assert.ok(Math.abs(Math.hypot(ours.p.u - ours.q.u, ours.p.v - ours.q.v) - ours.mm) < 1e-12);
        assert.ok(Math.abs(signedDistance(outlineOf(region(a)), ours.p.u, ours.p.v)) < 1e-9);
        assert.ok(Math.abs(signedDistance(outlineOf(region(b)), ours.q.u, ours.q.v)) < 1e-9);
      }),
      settings,
    );
  });

  it('point to outline, and on which side it lies', () => {
    const place = fc.tuple(
      fc.double({ min: -45, max: 45, noNaN: true }),
      fc.double({ min: -45, max: 45, noNaN: true }),
    );
    fc.assert(
      fc.property(outline, place, (a, [u, v]) => {
        const ours = signedDistance(outlineOf(region(a)), u, v);
        const theirs = Math.min(...a.edges.map((e) => new Point(u, v).distanceTo(shapeOf(e))[0]));
        assert.ok(Math.abs(Math.abs(ours) - theirs) < 1e-9, `${ours} ${theirs}`);
        if (theirs > 1e-6) assert.equal(ours < 0, polygonOf(a).contains(point(u, v)), `${ours}`);
      }),
      settings,
    );
  });
});
