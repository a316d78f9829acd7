import assert from 'node:assert/strict';
import fc from 'fast-check';
import { isInside } from '../../server/src/geometry/2d/inside';
import { glyphOf } from '../../server/src/geometry/2d/letters';
import { regionMoments } from '../../server/src/geometry/2d/moments';
import { outlineOf } from '../../server/src/geometry/distance/outline';
import { solidOf } from '../../server/src/geometry/part-solid';
import { voidsOfFeature } from '../../server/src/geometry/solid/voids';
import { textRegions } from '../../server/src/geometry/solid/voids/engraving';
import { wholeOf } from '../../server/src/geometry/solid/volume-integral';
import type { Void } from '../../server/src/geometry/types';
import { FACES, type Face, type Feature, type Part } from '../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  contour,
  corner,
  deep,
  engraving,
  groove,
  hole,
  incline,
  part,
  path,
  pocket,
  rectangle,
  rod,
  round,
  slot,
  step,
  THROUGH,
  withFeatures,
} from './parts';

const { PI } = Math;
const CUBE = 40;

function near(actual: number, expected: number, allowed = 1e-6, what = ''): void {
  assert.ok(
    Math.abs(actual - expected) <= allowed * Math.max(1, Math.abs(expected)),
    `${what} ${actual} ≠ ${expected}`,
  );
}
const volume = (p: Part) => solidOf(p).measures.volumeMm3;
const roles = (vs: readonly Void[]) => vs.map((v) => v.role);
const only = (f: Feature, size: readonly [number, number, number] = [60, 40, 16]) =>
  voidsOfFeature(f, part(box(...size), f));

/** One of every kind, on a face, off centre, with sides told by the face's own neighbours. */
function every(face: Face): Feature[] {
  const sides = FACES.filter((f) => f !== face && f !== opposite(face));
  const places = [at(14, 17)];
  const depth = deep(6);
  const bore = hole({ name: 'bore', face, places, diameter: 8, depth, bottom: 'cone' });
  return [
    bore,
    hole({ face, places, diameter: 5, depth: THROUGH, counterbore: [9, 4], countersink: [12, 90] }),
    pocket({ face, places, shape: rectangle(12, 9, 2, 20), depth, floorRadius: 1 }),
    pocket({ face, places, shape: circle(16), depth, islands: [{ shape: circle(5), at: at(1, 1), height: 3 }] }),
    slot({ face, line: [corner(5, 5), corner(30, 8, { round: 4 }), corner(28, 30)], width: 5, depth }),
    slot({ face, line: [corner(-10, 12), corner(50, 12)], width: 5, depth, tee: [9, 2] }),
    slot({ face, line: [corner(-10, 12), corner(50, 12)], width: 5, depth, dovetail: 60 }),
    step({ face, along: [sides[0]!], widths: [7], depth }),
    step({ face, along: [sides[0]!, sides[2]!], widths: [7, 9], depth }),
    contour({ face, shapes: [path(corner(4, 4), corner(36, 6, { round: 5 }), corner(30, 34), corner(6, 30))], depth }),
    chamfer({ face, edges: [face], size: 1.5, angle: 30 }),
    round({ face, edges: [[face, sides[1]!]], radius: 2 }),
    groove({ face, places, diameter: 6, width: 3, depth }),
    engraving({ face, places, text: 'R2', height: 6, stroke: 0.8, depth: deep(0.5) }),
    incline({ face, along: sides[3]!, width: 9, depth: 5 }),
  ];
}
function opposite(face: Face): Face {
  return ({ left: 'right', right: 'left', front: 'back', back: 'front', bottom: 'top', top: 'bottom' } as const)[face];
}

const CAPITALS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789';
const MARKS = '.,:;-–_+=/\\|()[]<>!?\'"*#%&°×±Ø';

describe('voids of every kind on every face', () => {
  const reference = every('top').map((f) => CUBE ** 3 - volume(part(box(CUBE, CUBE, CUBE), f)));

  for (const face of FACES) {
    it(`${face}: the same volume as on top`, () => {
      every(face).forEach((f, i) => {
        near(CUBE ** 3 - volume(part(box(CUBE, CUBE, CUBE), f)), reference[i]!, 1e-6, f.kind);
        assert.ok(reference[i]! > 0, f.kind);
      });
    });
  }

  it('lie under their face: straight below it is void, the far side material', () => {
    for (const face of FACES) {
      const f = hole({ face, places: [at(14, 17)], diameter: 8, depth: deep(6) });
      const solid = solidOf(part(box(CUBE, CUBE, CUBE), f));
      const { frame } = solid.voids[0]!;
      const down = (w: number) => [0, 1, 2].map((a) => frame.origin[a]! + w * frame.w[a]!) as [number, number, number];
      assert.equal(solid.isMaterial(down(3)), false, face);
      assert.equal(solid.isMaterial(down(9)), true, face);
      assert.equal(solid.isMaterial(down(-1)), false, face);
    }
  });
});

describe('holes', () => {
  it('widen at the mouth, then the bore, then the point', () => {
    const f = hole({
      places: [at(20, 20)],
      diameter: 5,
      depth: deep(12),
      bottom: 'cone',
      counterbore: [9, 4],
      countersink: [10, 90],
    });
    const vs = only(f);
    assert.deepEqual(roles(vs), ['countersink', 'counterbore', 'bore', 'point']);
    assert.deepEqual(
      vs.map((v) => v.from),
      [0, 0.5, 4, 12],
    );
    near(vs[3]!.to, 12 + 2.5 / Math.tan((59 * PI) / 180));
  });

  it('a countersink narrower than the counterbore sits on its floor', () => {
    const vs = only(
      hole({ places: [at(20, 20)], diameter: 5, depth: THROUGH, counterbore: [12, 4], countersink: [7, 90] }),
    );
    assert.deepEqual(roles(vs), ['counterbore', 'countersink', 'bore']);
    assert.deepEqual([vs[1]!.from, vs[1]!.to], [4, 5]);
  });

  it('through ends exactly at the far face and says so; a pattern’s members are numbered', () => {
    const vs = only(hole({ places: [at(20, 20), at(30, 20)], diameter: 5, depth: THROUGH }));
    assert.deepEqual(
      vs.map((v) => [v.member, v.from, v.to, v.through]),
      [
        [1, 0, 16, true],
        [2, 0, 16, true],
      ],
    );
    assert.equal(vs[0]!.region, vs[1]!.region);
  });

  it('start on a floor, and lean', () => {
    const deepStart = only(hole({ places: [at(20, 20)], startMm: 7, diameter: 5, depth: deep(4) }))[0]!;
    assert.deepEqual([deepStart.from, deepStart.to], [7, 11]);
    const leaning = only(
      hole({ places: [at(30, 20)], diameter: 6, depth: THROUGH, tilt: { about: 'y', angle: 30 } }),
    )[0]!;
    near(leaning.frame.w[2], -Math.cos(PI / 6));
    assert.ok(leaning.bounds.min[2] < 0 && leaning.bounds.max[2] > 16);
  });

  it('nothing to cut: no voids, no failure', () => {
    assert.deepEqual(only(hole({ diameter: 0, depth: deep(4) })), []);
    assert.deepEqual(only(hole({ diameter: 5, depth: deep(0) })), []);
    assert.deepEqual(only(pocket({ shape: rectangle(0, 5), depth: deep(4) })), []);
    assert.deepEqual(only(slot({ line: [corner(0, 0), corner(10, 0)], width: 0, depth: deep(4) })), []);
    const lost = { ...part(box(10, 10, 10)), body: undefined, size: [0, 0, 0] } as unknown as Part;
    assert.deepEqual(voidsOfFeature(hole({ diameter: 5, depth: deep(4) }), lost), []);
    assert.equal(solidOf(lost).measures.volumeMm3, 0);
  });
});

describe('pockets', () => {
  it('islands: full height a hole in the outline, lower ones split the depth', () => {
    const f = pocket({
      places: [at(30, 20)],
      shape: rectangle(30, 20, 3),
      depth: deep(6),
      islands: [
        { shape: circle(6), at: at(0, 0), height: 4 },
        { shape: rectangle(4, 4), at: at(10, 0), height: 20 },
      ],
    });
    const vs = only(f);
    assert.deepEqual(
      vs.map((v) => [v.from, v.to, v.region.holes.length]),
      [
        [0, 2, 1],
        [2, 6, 2],
      ],
    );
    near(60 * 40 * 16 - volume(part(box(60, 40, 16), f)), (600 - 9 * (4 - PI)) * 6 - PI * 9 * 4 - 16 * 6);
  });

  it('an island across the wall, and two that overlap, count once', () => {
    const islands = [
      { shape: rectangle(6, 6), at: at(15, 0), height: 9 },
      { shape: circle(8), at: at(-5, 0), height: 9 },
      { shape: circle(8), at: at(-5, 0), height: 9 },
    ];
    const f = pocket({ places: [at(30, 20)], shape: rectangle(30, 20), depth: deep(5), islands });
    near(60 * 40 * 16 - volume(part(box(60, 40, 16), f)), (600 - 18 - 16 * PI) * 5);
  });
});

describe('edges', () => {
  const outline = path(corner(5, 5), corner(55, 5, { round: 8 }), corner(55, 35, { round: 8 }), corner(5, 35));

  it('a face’s four edges are prisms along the edges; a pair is one', () => {
    assert.equal(only(chamfer({ edges: ['top'], size: 1 })).length, 4);
    const [v] = only(chamfer({ edges: [['front', 'left']], size: 1 }));
    assert.deepEqual(v!.bounds, { min: [0, 0, 0], max: [1, 1, 16] });
    // set-back along the named face, angle from it
    const [flat] = only(chamfer({ face: 'top', edges: [['top', 'left']], size: 2, angle: 30 }));
    near(flat!.bounds.max[0], 2);
    near(flat!.bounds.min[2], 16 - 2 * Math.tan(PI / 6));
  });

  it('follow the outline that a through contour leaves, on both faces', () => {
    const cut = contour({ shapes: [outline], depth: THROUGH });
    const broken = chamfer({ edges: ['top', 'bottom'], size: 1 });
    const before = volume(part(box(60, 40, 16), cut));
    const after = volume(part(box(60, 40, 16), cut, broken));
    // both rims: ∫ (P t − κ t²) dt for t in 0…1; κ: 1 for each square corner, π/4 for each round one
    const perimeter = 42 + 4 * PI + 14 + 4 * PI + 42 + 30;
    const rim = perimeter / 2 - (2 + PI / 2) / 3;
    near(before - after, 2 * rim, 1e-6);
  });

  it('follow the edge that a step leaves', () => {
    const ledge = step({ along: ['front'], widths: [10], depth: deep(5) });
    const broken = chamfer({ edges: ['top'], size: 1 });
    const p = part(box(60, 40, 16), ledge, broken);
    near(volume(part(box(60, 40, 16), ledge)) - volume(p), rimOfPlate(60, 30));
    // every one of the four lies on the upper land
    for (const v of voidsOfFeature(broken, p)) assert.ok(v.bounds.min[1] >= 10 - 1e-9);
  });

  it('go round the corner that a corner step leaves', () => {
    const ledge = step({ along: ['front', 'left'], widths: [10, 20], depth: deep(5) });
    const broken = chamfer({ edges: ['top'], size: 1 });
    const p = part(box(60, 40, 16), ledge, broken);
    // perimeter as before; five outward corners, one inward whose break is a cone's
    const taken = volume(part(box(60, 40, 16), ledge)) - volume(p);
    near(taken, 200 / 2 - 5 / 3 + PI / 4 / 3, 1e-6);
  });

  it('rims: of a hole, a pocket, a slot, a boss', () => {
    const bore = hole({ name: 'bore', places: [at(20, 20)], diameter: 10, depth: THROUGH, countersink: [14, 90] });
    const wider = chamfer({ edges: [{ rim: 'bore' }], size: 1 });
    const p = part(box(60, 40, 16), bore, wider);
    const cone = (h: number, a: number, b: number) => (PI * h * (a * a + a * b + b * b)) / 3;
    // from 8 at the face to 7 at 1 deep, inside which the countersink has gone from 7 to 6
    near(volume(part(box(60, 40, 16), bore)) - volume(p), cone(1, 8, 7) - cone(1, 7, 6));
    const recess = pocket({ name: 'recess', places: [at(30, 20)], shape: rectangle(20, 12), depth: deep(5) });
    const eased = part(box(60, 40, 16), recess, chamfer({ edges: [{ rim: 'recess' }], size: 1 }));
    near(volume(part(box(60, 40, 16), recess)) - volume(eased), 64 / 2 + PI / 3);
    const boss = contour({ name: 'boss', shapes: [circle(20)], places: [at(30, 20)], depth: deep(6) });
    const top = part(box(60, 40, 16), boss, chamfer({ edges: [{ rim: 'boss' }], size: 1 }));
    near(volume(part(box(60, 40, 16), boss)) - volume(top), PI * 100 - cone(1, 9, 10));
    const lost = chamfer({ edges: [{ rim: 'gone' }], size: 1 });
    assert.deepEqual(only(lost), []);
  });

  it('ends of a round bar', () => {
    const p = part(rod(20, 30, 'x'), chamfer({ edges: ['left', 'right'], size: 1 }));
    near(volume(p), PI * 100 * 28 + 2 * ((PI / 3) * (100 + 90 + 81)));
    const q = part(rod(20, 30, 'x'), round({ edges: ['left'], radius: 10 }));
    near(volume(q), PI * 100 * 20 + (2 / 3) * PI * 1000);
  });

  /** What a 1 mm chamfer takes off the rim of a plate: ∫ (A − A(t)) dt. */
  function rimOfPlate(x: number, y: number): number {
    return (2 * (x + y)) / 2 - 4 / 3;
  }
});

describe('grooves and engraving', () => {
  it('a groove in a hole follows the hole’s places', () => {
    const bore = hole({ name: 'bore', places: [at(20, 20), at(40, 20)], diameter: 10, depth: THROUGH });
    const ring = groove({ in: 'bore', diameter: 14, width: 2, below: 3 });
    const p = part(box(60, 40, 16), bore, ring);
    near(volume(part(box(60, 40, 16), bore)) - volume(p), 2 * 2 * PI * (49 - 25));
    assert.deepEqual(
      voidsOfFeature(ring, p).map((v) => [v.member, v.from, v.to]),
      [
        [1, 3, 5],
        [2, 3, 5],
      ],
    );
  });

  it('letters: heights, holes, one lump each', () => {
    const counters: Record<string, number> = {
      A: 1,
      B: 2,
      D: 1,
      O: 1,
      P: 1,
      Q: 1,
      R: 1,
      '0': 1,
      '4': 1,
      '6': 1,
      '8': 2,
      '9': 1,
    };
    for (const c of CAPITALS) {
      const lumps = textRegions(c, 7, 0.7);
      assert.equal(lumps.length, 1, c);
      assert.equal(lumps[0]!.holes.length, counters[c] ?? 0, c);
    }
    for (const c of `${CAPITALS}${MARKS}`) {
      for (const stroke of [0.2, 0.5, 1, 1.5]) {
        const total = textRegions(c, 6, stroke).reduce((s, r) => s + regionMoments(r).area, 0);
        assert.ok(total > 0, `${c} with stroke ${stroke}`);
      }
    }
    // What is in no set is drawn as one box, the same for all.
    assert.notDeepEqual(glyphOf('q'), glyphOf('語'));
    assert.deepEqual(glyphOf('ß'), glyphOf('語'));
    assert.equal(glyphOf(' '), undefined);
    // O: two half rings and two sides
    near(regionMoments(textRegions('O', 6.6, 0.6)[0]!).area, 0.6 * (2 * PI * 2 + 4));
  });

  it('letters of a text never touch, and stand about the place', () => {
    const lumps = textRegions('GIMBAL B-17', 5, 0.6);
    const v = only(
      engraving({ places: [at(30, 20)], text: 'GIMBAL B-17', height: 5, stroke: 0.6, depth: deep(0.4) }),
      [90, 40, 16],
    );
    assert.equal(v.length, lumps.length);
    const left = Math.min(...v.map((x) => x.bounds.min[0]));
    const right = Math.max(...v.map((x) => x.bounds.max[0]));
    near((left + right) / 2, 30, 0.02);
    near(Math.max(...v.map((x) => x.bounds.max[1])) - Math.min(...v.map((x) => x.bounds.min[1])), 5);
    const sum = v.reduce((s, x) => s + wholeOf(x).volumeMm3, 0);
    near(
      90 * 40 * 16 -
        volume(
          part(
            box(90, 40, 16),
            engraving({ places: [at(45, 20)], text: 'GIMBAL B-17', height: 5, stroke: 0.6, depth: deep(0.4) }),
          ),
        ),
      sum,
    );
  });
  it('of a long text are those that can lie on the part, and the first and the last', () => {
    const text = `A${'I'.repeat(2000)}V`;
    const all = textRegions(text, 5, 0.6);
    const [first, last] = [outlineOf(all[0]!), outlineOf(all.at(-1)!)];
    const near = textRegions(text, 5, 0.6, 40);
    assert.ok(near.length < 120, `${near.length}`);
    const [from, to] = [
      Math.min(...near.map((r) => outlineOf(r).minU)),
      Math.max(...near.map((r) => outlineOf(r).maxU)),
    ];
    assert.deepEqual([from, to], [first.minU, last.maxU]);
    const within = all.filter((r) => Math.abs(outlineOf(r).minU) < 35);
    for (const r of within) assert.ok(near.some((n) => Math.abs(outlineOf(n).minU - outlineOf(r).minU) < 1e-9));
  });

  it('reads from left to right for someone in front of the face', () => {
    // L: its foot lies to the reader's right of the stem. Right-hand direction of a reader: down-look × up of the face
    const rightHand: Record<Face, [number, number, number]> = {
      front: [1, 0, 0],
      back: [-1, 0, 0],
      left: [0, -1, 0],
      right: [0, 1, 0],
      top: [1, 0, 0],
      bottom: [-1, 0, 0],
    };
    for (const face of FACES) {
      const f = engraving({ face, places: [at(20, 20)], text: 'L', height: 10, stroke: 1, depth: deep(0.5) });
      const [v] = voidsOfFeature(f, part(box(40, 40, 40), f));
      const m = regionMoments(v!.region);
      assert.ok(m.mu / m.area < 0, 'the stem weighs to the left in the letter’s own frame');
      const d = rightHand[face];
      assert.deepEqual(
        v!.frame.u.map((x) => x + 0),
        d.map((x) => x + 0),
        face,
      );
      assert.ok(isInside(v!.region, -2.2, 0));
    }
  });
});

describe('voids are kept', () => {
  it('an unchanged feature answers the same objects while others change', () => {
    const a = hole({ name: 'a', places: [at(10, 10)], diameter: 5, depth: deep(4) });
    const b = hole({ name: 'b', places: [at(30, 10)], diameter: 5, depth: deep(4) });
    const rim = chamfer({ edges: [{ rim: 'b' }], size: 0.5 });
    const one = part(box(60, 40, 16), a, b, rim);
    const first = one.features.map((f) => voidsOfFeature(f, one));
    const moved = { ...b, places: [at(31, 10)] };
    const two = withFeatures(one, [a, moved, rim]);
    assert.equal(voidsOfFeature(a, two), first[0]);
    assert.notEqual(voidsOfFeature(moved, two), first[1]);
    assert.notEqual(voidsOfFeature(rim, two), first[2], 'a rim follows its feature');
    const grown = { ...one, size: [60, 40, 20] as const };
    assert.notEqual(voidsOfFeature(a, grown), first[0], 'the body is looked at too');
  });

  it('rims and grooves that name each other in a circle end', () => {
    const a = chamfer({ name: 'a', edges: [{ rim: 'b' }], size: 1 });
    const b = chamfer({ name: 'b', edges: [{ rim: 'a' }], size: 1 });
    const p = part(box(60, 40, 16), a, b);
    assert.deepEqual(voidsOfFeature(a, p), []);
  });
});

describe('mirrored parts', () => {
  it('have the same volume and a mirrored centroid', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.integer({ min: 4, max: 56 }),
            fc.integer({ min: 4, max: 36 }),
            fc.integer({ min: 2, max: 9 }),
            fc.integer({ min: 1, max: 15 }),
          ),
          { minLength: 1, maxLength: 6 },
        ),
        (holes) => {
          const make = (mirror: boolean) =>
            solidOf(
              part(
                box(60, 40, 16),
                ...holes.map(([u, v, d, depth]) =>
                  hole({ places: [at(mirror ? 60 - u : u, v)], diameter: d, depth: deep(depth), bottom: 'cone' }),
                ),
              ),
            ).measures;
          const [a, b] = [make(false), make(true)];
          near(a.volumeMm3, b.volumeMm3, 1e-7);
          near(a.centroid[0], 60 - b.centroid[0], 1e-6);
          near(a.centroid[2], b.centroid[2], 1e-6);
        },
      ),
      { seed: 7, numRuns: 25 },
    );
  });
});
