/** Sections of the workpiece: always followed, or said to be unknown; never taken for nothing. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { chainLoops } from '../../../server/src/geometry/2d/assemble-loops';
import { line } from '../../../server/src/geometry/2d/edge';
import { loopArea, momentsOf, regionMoments } from '../../../server/src/geometry/2d/moments';
import type { Point2, Void } from '../../../server/src/geometry/types';
import { boxLeft, crossOf, isMaterial, timelineOf } from '../../../server/src/process/stock';
import type { Workpiece } from '../../../server/src/process/stock/types';
import { contactOf } from '../../../server/src/process/workholding/contact';
import { heldOf } from '../../../server/src/process/workholding/in-jaws';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { make } from '../parts';
import { shop } from '../workholding/bench';

const HAIR = 1e-4;
const areaOf = (w: Workpiece, axis: 0 | 1 | 2, at: number) =>
  crossOf(w, axis, at).regions?.reduce((sum, r) => sum + regionMoments(r).area, 0);

/** The azimuth yoke in short: a U with its two top corners off and its edges broken. */
const YOKE = `  throat:
    kind: pocket
    face: front
    path: [{ x: 12, z: -10 }, { x: 78, z: -10 }, { x: 78, z: 48, round: 9 }, { x: 12, z: 48, round: 9 }]
    depth: through
  shoulders:
    kind: contour
    face: front
    path: [{ x: 0, z: 0 }, { x: 90, z: 0 }, { x: 90, z: 60, bevel: 14 }, { x: 0, z: 60, bevel: 14 }]
    depth: through
  broken: { kind: chamfer, edges: [front, back], size: 0.5 }
`;
const HELD = 'hold: { vise: mill-vise-100, jaws: [left, right], grip: 10 }';
const yoke = () =>
  make(
    '{ x: 90, y: 25, z: 60 }',
    YOKE,
    `setups:\n  one: { up: front, ${HELD}, cuts: [throat, shoulders, broken] }\n  two: { up: back, ${HELD}, cuts: [broken] }\n`,
  );

describe('sections of the workpiece', () => {
  it('a hair inside a face whose edges are broken: pieces of outline as short as the hair are followed', () => {
    const { part, solid } = yoke();
    const [one, two] = timelineOf(part, solid).setups;
    // At x = 0: up to the bevel at 46, from the chamfer on.
    const left = areaOf(one!.after, 0, HAIR);
    assert.ok(left !== undefined && Math.abs(left - 24.5 * 46) < 0.02, `${left}`);
    const both = areaOf(two!.after, 0, HAIR);
    assert.ok(both !== undefined && Math.abs(both - 24 * 46) < 0.05, `${both}`);
    for (const axis of [0, 1, 2] as const)
      for (const at of [HAIR, part.size[axis] - HAIR])
        assert.ok((areaOf(two!.after, axis, at) ?? 0) > 500, `${axis} at ${at}`);
    assert.deepEqual(boxLeft(two!.after), { min: [0, 0, 0], max: [90, 25, 60] });
  });

  it('a hair beside every stop of parts with broken edges: known, and as large as the places that are material', () => {
    fc.assert(
      fc.property(
        fc.record({
          bevel: fc.integer({ min: 2, max: 18 }),
          round: fc.integer({ min: 2, max: 9 }),
          size: fc.constantFrom(0.3, 0.5, 1, 1.7),
          hole: fc.integer({ min: 3, max: 9 }),
          axis: fc.constantFrom(0, 1, 2),
          inner: fc.boolean(),
        }),
        ({ bevel, round, size, hole, axis, inner }) => {
          const features = `  bay: { kind: pocket, face: top, at: { x: 30, y: 0 }, size: { x: 20, y: 24 }, corner-radius: ${round}, depth: 8 }
  edge: { kind: contour, face: top, path: [{ x: 0, y: 0 }, { x: 60, y: 0, bevel: ${bevel} }, { x: 60, y: 40, round: ${bevel} }, { x: 0, y: 40 }], depth: through }
  tie: { kind: hole, face: left, at: { y: 20, z: 10 }, diameter: ${hole}, depth: through }
  broken: { kind: chamfer, edges: [top, bottom], size: ${size} }
`;
          const { part, solid } = make(
            '{ x: 60, y: 40, z: 20 }',
            features,
            'setups:\n  one: { up: top, cuts: [bay, edge, tie, broken] }\n  two: { up: bottom, cuts: [broken] }\n',
          );
          const w = timelineOf(part, solid).setups[1]!.after;
          const at = inner ? HAIR : part.size[axis as 0 | 1 | 2] - HAIR;
          const area = areaOf(w, axis as 0 | 1 | 2, at);
          assert.ok(area !== undefined, 'not followed');
          const counted = count(w, axis as 0 | 1 | 2, at);
          const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
          const whole = part.size[i] * part.size[k];
          assert.ok(Math.abs(area - counted) < 0.02 * whole, `${area} is not ${counted}`);
        },
      ),
      { numRuns: 16, seed: 20261125 },
    );
  });

  it('pieces shorter than a gap join where they truly meet', () => {
    // A square of 10 with a corner cut off by two pieces of 0.07 thousandths each.
    const s = 5e-5;
    const corners: Point2[] = [
      { u: 0, v: 0 },
      { u: 10, v: 0 },
      { u: 10, v: 10 - 2 * s },
      { u: 10 - s, v: 10 - s },
      { u: 10 - 2 * s, v: 10 },
      { u: 0, v: 10 },
    ];
    const edges = corners.map((a, i) => line(a, corners[(i + 1) % corners.length]!));
    for (let n = 0; n < edges.length; n++) {
      const turned = [...edges.slice(n), ...edges.slice(0, n)];
      const loops = chainLoops(turned);
      assert.equal(loops?.length, 1);
      assert.equal(loops![0]!.edges.length, 6);
      assert.ok(Math.abs(loopArea(loops![0]!) - momentsOf(edges).area) < 1e-9);
    }
  });

  it('what cannot be followed is unknown, and nobody reads it as nothing', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  bay: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 24 }, corner-radius: 4, depth: 8 }\n  side: { kind: pocket, face: front, at: { x: 30, z: 5 }, size: { x: 20, z: 6 }, corner-radius: 2, depth: 3 }\n',
      'setups:\n  one: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [bay] }\n',
    );
    const one = timelineOf(part, solid).setups[0]!;
    const [bay] = one.after.voids as [Void];
    // An outline with one side missing: what no text makes, and no section can be followed through.
    const torn: Void = { ...bay, region: { outer: { edges: bay.region.outer.edges.slice(1) }, holes: [] } };
    const w: Workpiece = { body: one.before.body, voids: [torn] };
    assert.equal(crossOf(w, 2, 15).regions, undefined);
    assert.equal(crossOf(w, 2, 15).exact, false);
    assert.ok(boxLeft(w).max[2] > 19);
    // At a jaw: what it touches is said to be unknown, not bare.
    const [side] = solid.voidsOf('side') as [Void];
    const open: Void = { ...side, region: { outer: { edges: side.region.outer.edges.slice(1) }, holes: [] } };
    const made = contactOf(
      { body: w.body, voids: [open] },
      seatingOf(one, part, shop)!,
      heldOf({ part, solid, shop })[0]!.inVise,
    );
    assert.equal(made.known, false);
  });
});

/** Area by counting places of an even spread (Halton's sequence of bases 2 and 3), mm². */
function count(w: Workpiece, axis: 0 | 1 | 2, at: number): number {
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
  const { min, max } = w.body.box;
  let is = 0;
  for (let n = 1; n <= PLACES; n++) {
    const p: [number, number, number] = [0, 0, 0];
    p[axis] = at;
    p[i] = min[i] + halton(n, 2) * (max[i] - min[i]);
    p[k] = min[k] + halton(n, 3) * (max[k] - min[k]);
    if (isMaterial(w, p)) is++;
  }
  return (is / PLACES) * (max[i] - min[i]) * (max[k] - min[k]);
}

const PLACES = 2000;
function halton(n: number, base: number): number {
  let [f, r] = [1, 0];
  for (let i = n; i > 0; i = Math.floor(i / base)) {
    f /= base;
    r += f * (i % base);
  }
  return r;
}
