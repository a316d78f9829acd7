/** Reliefs in the square corners of pockets, against closed forms worked out by hand. */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { voidsOfFeature } from '../../server/src/geometry/solid/voids';
import type { Void } from '../../server/src/geometry/types';
import { FACES, type Feature, type Part } from '../../server/src/model/model';
import { at, box, chamfer, circle, corner, deep, hole, part, path, pocket, rectangle, rod, THROUGH } from './parts';

const { PI } = Math;
const CUBE = 40;

function near(actual: number, expected: number, allowed = 1e-6): void {
  assert.ok(Math.abs(actual - expected) <= allowed * Math.max(1, Math.abs(expected)), `${actual} ≠ ${expected}`);
}
const taken = (...features: Feature[]) => CUBE ** 3 - volume(part(box(CUBE, CUBE, CUBE), ...features));
const volume = (p: Part) => solidOf(p).measures.volumeMm3;
const reliefs = (vs: readonly Void[]) => vs.filter((v) => v.region.outer.edges.length === 1);

/**
 * What a circle of radius r through a corner of interior angle θ takes beyond the two walls. The chords it cuts off the
 * walls are both 2 r cos(θ/2) long and seen from the centre under π − θ; each segment is r²/2 (φ − sin φ).
 */
function bite(r: number, degrees: number): number {
  const seen = PI - (degrees * PI) / 180;
  return r * r * (seen - Math.sin(seen));
}

function simpson(f: (x: number) => number, from: number, to: number, steps = 400): number {
  const h = (to - from) / steps;
  let sum = f(from) + f(to);
  for (let i = 1; i < steps; i++) sum += f(from + i * h) * (i % 2 ? 4 : 2);
  return (sum * h) / 3;
}

describe('relief in the corners of a pocket', () => {
  for (const face of FACES) {
    it(`adds four pairs of segments to a rectangle on ${face}, turned or not`, () => {
      const places = [at(19, 21)];
      for (const rotate of [0, 30, 90]) {
        const f = pocket({ face, places, shape: rectangle(20, 12, 0, rotate), depth: deep(6), relief: 4 });
        // of a right angle: r² (π/2 − 1)
        near(taken(f), (20 * 12 + 4 * 4 * (PI / 2 - 1)) * 6, 1e-9);
      }
    });
  }

  it('passes through the corner point, its centre on the bisector', () => {
    const f = pocket({ places: [at(20, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    const vs = reliefs(voidsOfFeature(f, part(box(CUBE, CUBE, CUBE), f)));
    assert.equal(vs.length, 4);
    for (const v of vs) {
      const [e] = v.region.outer.edges;
      if (e?.type !== 'arc') assert.fail('a circle');
      near(Math.abs(e.centre.u), 10 - 2 / Math.SQRT2);
      near(Math.abs(e.centre.v), 6 - 2 / Math.SQRT2);
      near(Math.hypot(10 - Math.abs(e.centre.u), 6 - Math.abs(e.centre.v)), 2);
      assert.deepEqual([v.from, v.to, v.profile.type, v.through], [0, 6, 'straight', false]);
    }
  });

  it('fits sharp and blunt corners, and leaves round ones and inward ones alone', () => {
    // An equilateral triangle of 24: three corners of 60°.
    const high = 12 * Math.sqrt(3);
    const triangle = path(corner(8, 10), corner(32, 10), corner(20, 10 + high));
    near(taken(pocket({ shape: triangle, depth: deep(5), relief: 3 })), (12 * high + 3 * bite(1.5, 60)) * 5, 1e-9);
    // Drawn the other way round it is the same pocket.
    const turned = path(corner(20, 10 + high), corner(32, 10), corner(8, 10));
    near(taken(pocket({ shape: turned, depth: deep(5), relief: 3 })), (12 * high + 3 * bite(1.5, 60)) * 5, 1e-9);
    // An L: five corners of 90°, one of them round, and one that juts into the pocket.
    const ell = path(
      corner(5, 5),
      corner(35, 5, { round: 3 }),
      corner(35, 15),
      corner(15, 15),
      corner(15, 35),
      corner(5, 35),
    );
    const area = 30 * 10 + 10 * 20 - 9 * (1 - PI / 4);
    near(taken(pocket({ shape: ell, depth: deep(5), relief: 3 })), (area + 4 * bite(1.5, 90)) * 5, 1e-9);
    // A bevel makes two corners of 135° of one.
    const bevelled = path(corner(10, 10), corner(30, 10, { bevel: 4 }), corner(30, 30), corner(10, 30));
    const both = 3 * bite(1.5, 90) + 2 * bite(1.5, 135);
    near(taken(pocket({ shape: bevelled, depth: deep(5), relief: 3 })), (400 - 8 + both) * 5, 1e-9);
    const round = pocket({ places: [at(20, 20)], shape: circle(20), depth: deep(5), relief: 3 });
    near(taken(round), PI * 100 * 5);
  });

  it('is straight beside a floor radius', () => {
    const places = [at(20, 20)];
    const plain = pocket({ places, shape: rectangle(20, 12), depth: deep(6), floorRadius: 1 });
    const eased = pocket({ places, shape: rectangle(20, 12), depth: deep(6), floorRadius: 1, relief: 4 });
    const p = part(box(CUBE, CUBE, CUBE), eased);
    const more = taken(eased) - taken(plain);
    const beyond = 4 * bite(2, 90) * 6;
    // Besides what lies beyond the walls it takes the fillet's ends that stand in the circles: less than their whole.
    assert.ok(more > beyond, `${more} > ${beyond}`);
    assert.ok(more < beyond + 4 * (1 - PI / 4) * 2 * (2 * Math.SQRT2), `${more}`);
    for (const v of reliefs(solidOf(p).voids)) assert.equal(v.profile.type, 'straight');
  });

  it('is cut for every member, and through where the pocket is', () => {
    const places = [at(10, 20), at(30, 20)];
    const f = pocket({ places, shape: rectangle(10, 12), depth: THROUGH, relief: 2 });
    near(taken(f), 2 * (120 + 4 * bite(1, 90)) * CUBE, 1e-9);
    const vs = reliefs(voidsOfFeature(f, part(box(CUBE, CUBE, CUBE), f)));
    assert.deepEqual(
      vs.map((v) => [v.member, v.through]),
      [1, 1, 1, 1, 2, 2, 2, 2].map((member) => [member, true]),
    );
  });

  it('ends on an island that stands in the corner', () => {
    const shape = rectangle(20, 12);
    const island = (height: number) => [{ shape: rectangle(8, 8), at: at(10, 6), height }];
    const places = [at(20, 20)];
    const cut = (height: number) =>
      taken(pocket({ places, shape, depth: deep(6), relief: 2, islands: island(height) }));
    // A quarter of the island stands in the pocket. Full height: its corner is none. 2 high: 4 deep from above.
    near(cut(6), (240 - 16 + 3 * bite(1, 90)) * 6, 1e-9);
    near(cut(2), (240 + 3 * bite(1, 90)) * 6 - 16 * 2 + bite(1, 90) * 4, 1e-9);
  });

  it('is not cut where the corner lies beyond the body', () => {
    // Open to the left, by less than the relief is wide: two corners are left.
    const bay = pocket({ places: [at(9, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    near(taken(bay), (19 * 12 + 2 * bite(2, 90)) * 6, 1e-9);
    const flush = pocket({ places: [at(10, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    near(taken(flush), (20 * 12 + 2 * bite(2, 90)) * 6, 1e-9);
    // In the end of a bar of 20 a slot right across it has no corner; the diagonal of the square one is 16.97.
    const across = pocket({ face: 'right', places: [at(10, 10)], shape: rectangle(24, 6), depth: deep(5), relief: 2 });
    assert.equal(reliefs(voidsOfFeature(across, part(rod(20, 30, 'x'), across))).length, 0);
    const square = pocket({ face: 'right', places: [at(10, 10)], shape: rectangle(12, 12), depth: deep(5), relief: 2 });
    const p = part(rod(20, 30, 'x'), square);
    near(PI * 100 * 30 - volume(p), (144 + 4 * bite(1, 90)) * 5, 1e-9);
  });

  it('bites towards its neighbours: walls are thinner by what stands out', () => {
    const nest = pocket({ name: 'nest', places: [at(20, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    // The circle stands r (1 − 1/√2) beyond each wall; the bore lies beyond the left one, level with a centre.
    const out = 2 * (1 - 1 / Math.SQRT2);
    const bore = hole({
      name: 'bore',
      places: [at(10 - 4, 14 + 2 / Math.SQRT2)],
      diameter: 4,
      depth: deep(10),
      bottom: 'flat',
    });
    const [wall] = solidOf(part(box(CUBE, CUBE, CUBE), nest, bore)).walls(2.5);
    assert.equal(wall?.type, 'wall');
    near(wall!.thicknessMm, 2 - out);
    near(wall!.heightMm, 6);
    const edge = pocket({ name: 'edge', places: [at(12, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    const walls = solidOf(part(box(CUBE, CUBE, CUBE), edge)).walls(3);
    assert.deepEqual([walls[0]?.a.feature, walls[0]?.b], ['edge', 'left']);
    near(walls[0]!.thicknessMm, 2 - out);
    assert.ok(
      walls.every((w) => w.b === 'left'),
      'no wall between a pocket and its own relief',
    );
  });

  it('a broken rim goes round the reliefs', () => {
    const nest = pocket({ name: 'nest', places: [at(20, 20)], shape: rectangle(20, 12), depth: deep(6), relief: 4 });
    const rim = chamfer({ edges: [{ rim: 'nest' }], size: 1 });
    // Grown by t the outline is the grown rectangle with circles of r + t. Beyond each wall stands a segment; of the
    // grown rectangle's corner the circle leaves out a tip, where the rounded rectangle has nothing either.
    const grown = (t: number) => {
      const [big, off] = [2 + t, 2 / Math.SQRT2 + t];
      const half = Math.acos(off / big);
      const segment = big * big * half - off * Math.sqrt(big * big - off * off);
      const tip = off * off - off * Math.sqrt(big * big - off * off) - (big * big * (PI / 2 - 2 * half)) / 2;
      return (20 + 2 * t) * (12 + 2 * t) + 4 * (2 * segment - tip);
    };
    near(grown(0), 240 + 4 * bite(2, 90), 1e-12);
    near(taken(nest, rim) - taken(nest), simpson(grown, 0, 1) - grown(0), 1e-6);
  });
});
