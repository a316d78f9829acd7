import assert from 'node:assert/strict';
import fc from 'fast-check';
import { momentsOf } from '../../server/src/geometry/2d/moments';
import { solidOf } from '../../server/src/geometry/part-solid';
import { bodyPrism } from '../../server/src/geometry/solid/body';
import { contacts, meetings } from '../../server/src/geometry/solid/contact';
import { integrate } from '../../server/src/geometry/solid/quadrature';
import { sectionOf, standing } from '../../server/src/geometry/solid/section';
import { amountAlong } from '../../server/src/geometry/solid/volume-integral';
import type { Solid, Vec3, Void } from '../../server/src/geometry/types';
import { FACE_PLANE, FACES, type Face, type Feature } from '../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  contour,
  corner,
  deep,
  groove,
  hole,
  incline,
  part,
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
const BLOCK: Vec3 = [40, 30, 20];

function near(actual: number, expected: number, allowed = 1e-6, what = ''): void {
  assert.ok(
    Math.abs(actual - expected) <= allowed * Math.max(1, Math.abs(expected)),
    `${what} ${actual} ≠ ${expected}`,
  );
}
const block = (...f: Feature[]) => solidOf(part(box(...BLOCK), ...f));

/** A random feature on a random face, often over an edge. */
const anyFeature: fc.Arbitrary<Feature> = fc
  .record({
    kind: fc.integer({ min: 0, max: 9 }),
    face: fc.constantFrom<Face>(...FACES),
    u: fc.integer({ min: 0, max: 40 }),
    v: fc.integer({ min: 0, max: 30 }),
    size: fc.integer({ min: 2, max: 12 }),
    other: fc.integer({ min: 2, max: 12 }),
    depth: fc.integer({ min: 1, max: 12 }),
    through: fc.boolean(),
    side: fc.integer({ min: 0, max: 3 }),
  })
  .map((o) => {
    const { face } = o;
    const [a, b] = FACE_PLANE[face].map((x) => BLOCK['xyz'.indexOf(x)]!) as [number, number];
    const places = [at((o.u / 40) * a, (o.v / 30) * b)];
    const depth = o.through ? THROUGH : deep(o.depth);
    const sides = FACES.filter((f) => !FACE_PLANE[face].every((x) => FACE_PLANE[f].includes(x)));
    const along = sides[o.side]!;
    switch (o.kind) {
      case 0:
        return hole({ face, places, diameter: o.size, depth, bottom: 'cone' });
      case 1:
        return hole({
          face,
          places,
          diameter: o.size / 2,
          depth,
          counterbore: [o.size, o.depth / 3],
          countersink: [o.size + 2, 90],
        });
      case 2:
        return pocket({ face, places, shape: rectangle(o.size + 2, o.other + 2, o.side / 2, o.side * 15), depth });
      case 3:
        return pocket({
          face,
          places,
          shape: circle(o.size + 4),
          depth: deep(o.depth + 1),
          islands: [{ shape: rectangle(3, 3), at: at(1, 0), height: o.other / 3 }],
        });
      case 4:
        return slot({ face, line: [corner(o.u - 5, 3), corner(o.u, 12), corner(25, o.v)], width: o.size / 3, depth });
      case 5:
        return step({ face, along: [along], widths: [o.size], depth: deep(Math.min(8, o.depth)) });
      case 6:
        return chamfer({ edges: [face], size: o.size / 6, angle: o.through ? 45 : 30 });
      case 7:
        return round({ edges: [[face, along]], radius: o.size / 4 });
      case 8:
        return incline({ face, along, width: o.size, depth: o.other });
      default:
        return groove({ face, places, diameter: o.size, width: 2, depth: deep(Math.min(6, o.depth)) });
    }
  });
const SEED = { seed: 31415, numRuns: 40 };

describe('volume, centroid and shares of any mix of features', () => {
  it('agree along every axis that cuts them exactly', () => {
    fc.assert(
      fc.property(fc.array(anyFeature, { minLength: 1, maxLength: 5 }), (features) => {
        const solid = block(...features);
        const whole = solid.measures;
        const body = bodyPrism(solid.body);
        const meets = meetings(solid.voids, contacts(solid.voids));
        for (const axis of [0, 1, 2] as const) {
          if (solid.voids.some((v) => !cleanly(v, axis))) continue;
          let left = 24000;
          solid.voids.forEach((v, i) => {
            const earlier = meets[i]!.filter((k) => k < i).map((k) => solid.voids[k]!);
            left -= amountAlong([v, body], earlier, axis).volumeMm3;
          });
          assert.ok(Math.abs(left - whole.volumeMm3) < 24000 * 1e-7, `${left} along ${axis}, ${whole.volumeMm3}`);
        }
      }),
      SEED,
    );
  });

  it('agree with counting points on a grid that no outline follows', () => {
    fc.assert(
      fc.property(fc.array(anyFeature, { minLength: 1, maxLength: 4 }), (features) => {
        const solid = block(...features);
        const { volumeMm3, centroid } = solid.measures;
        const counted = count(solid);
        assert.ok(Math.abs(counted.volume - volumeMm3) < 24000 * 0.006, `${counted.volume} ${volumeMm3}`);
        for (const a of [0, 1, 2] as const) assert.ok(Math.abs(counted.centroid[a]! - centroid[a]) < 0.12);
      }),
      { ...SEED, numRuns: 25 },
    );
  });

  it('do not depend on the order of the features', () => {
    fc.assert(
      fc.property(fc.array(anyFeature, { minLength: 2, maxLength: 5 }), (features) => {
        const a = block(...features).measures;
        const b = block(...[...features].reverse()).measures;
        assert.ok(Math.abs(a.volumeMm3 - b.volumeMm3) < 24000 * (a.exact && b.exact ? 1e-6 : 1e-3));
      }),
      SEED,
    );
  });

  it('shares: alone ≤ inside ≤ whole; two voids: union from the parts', () => {
    fc.assert(
      fc.property(anyFeature, anyFeature, (f, g) => {
        const solid = block(f, g);
        for (const v of solid.voids) {
          const alone = solid.aloneMm3(v);
          assert.ok(alone <= solid.insideMm3(v) * (1 + 1e-5) + 1e-6);
        }
        const [a, b] = [solid.voids[0], solid.voids[1]];
        if (!a || !b || solid.voids.length !== 2) return;
        const union = solid.insideMm3(a) + solid.insideMm3(b) - solid.sharedMm3(a, b);
        near(24000 - solid.measures.volumeMm3, union, solid.measures.exact ? 1e-5 : 1e-2);
        near(solid.sharedMm3(a, b), solid.sharedMm3(b, a), 1e-4);
      }),
      SEED,
    );
  });

  function cleanly(v: Void, axis: 0 | 1 | 2): boolean {
    return standing(v, axis) === 'along' || (standing(v, axis) === 'across' && v.profile.type === 'straight');
  }

  function count(solid: Solid): { volume: number; centroid: number[] } {
    const n = [53, 41, 31];
    const sum = [0, 0, 0];
    let hits = 0;
    for (let i = 0; i < n[0]!; i++) {
      for (let j = 0; j < n[1]!; j++) {
        for (let k = 0; k < n[2]!; k++) {
          const p: Vec3 = [((i + 0.5) * 40) / n[0]!, ((j + 0.5) * 30) / n[1]!, ((k + 0.5) * 20) / n[2]!];
          if (!solid.isMaterial(p)) continue;
          hits++;
          for (const a of [0, 1, 2] as const) sum[a]! += p[a];
        }
      }
    }
    return { volume: (hits * 24000) / (n[0]! * n[1]! * n[2]!), centroid: sum.map((s) => s / hits) };
  }
});

describe('shares', () => {
  it('a hole wholly in a pocket removes nothing of its own', () => {
    const recess = pocket({ places: [at(20, 15)], shape: rectangle(20, 14, 3), depth: deep(8) });
    const within = hole({ places: [at(20, 15)], diameter: 6, depth: deep(5) });
    const solid = block(recess, within);
    near(solid.aloneMm3(solid.voids[1]!), 0, 1e-9);
    near(solid.sharedMm3(solid.voids[0]!, solid.voids[1]!), PI * 9 * 5);
    near(solid.insideMm3(solid.voids[1]!), PI * 9 * 5);
  });

  it('touching is not sharing', () => {
    const recess = pocket({ places: [at(20, 15)], shape: rectangle(20, 14, 3), depth: deep(8) });
    const below = hole({ startMm: 8, places: [at(20, 15)], diameter: 6, depth: deep(5) });
    const beside = pocket({ places: [at(33, 15)], shape: rectangle(6, 14), depth: deep(8) });
    const solid = block(recess, below, beside);
    assert.equal(solid.sharedMm3(solid.voids[0]!, solid.voids[1]!), 0);
    assert.equal(solid.sharedMm3(solid.voids[0]!, solid.voids[2]!), 0);
    near(24000 - solid.measures.volumeMm3, (280 - 9 * (4 - PI)) * 8 + PI * 9 * 5 + 6 * 14 * 8);
  });

  it('outside the body counts for nothing', () => {
    const solid = block(hole({ places: [at(100, 15)], diameter: 6, depth: deep(5) }));
    assert.equal(solid.insideMm3(solid.voids[0]!), 0);
    assert.equal(solid.measures.volumeMm3, 24000);
  });
});

describe('exact or not', () => {
  const drilled = (face: Face, u: number, v: number) =>
    hole({ face, places: [at(u, v)], diameter: 9, depth: deep(8), bottom: 'cone' });

  it('cones that cross square to each other: to the digits that are told', () => {
    // volume by Open CASCADE 7, as tests/proof compares it
    const { volumeMm3, exact } = block(drilled('top', 20, 10), drilled('front', 20, 11)).measures;
    assert.ok(exact);
    near(volumeMm3, 22953.7641203, 1e-8);
  });

  it('what costs more than it may is an approximation, and said to be', () => {
    const many = Array.from({ length: 60 }, (_, k) => at(8 + (k % 10) * 2.4, 8 + Math.floor(k / 10)));
    const solid = block(
      hole({ face: 'top', places: many, diameter: 9, depth: deep(8), bottom: 'cone' }),
      hole({ face: 'front', places: many, diameter: 9, depth: deep(8), bottom: 'cone' }),
    );
    assert.equal(solid.measures.exact, false);
  });
});

describe('sections', () => {
  const cut = (v: Void, axis: 0 | 1 | 2, depth: number) => momentsOf(sectionOf(v, axis, depth).sheet.edges);

  it('of a bore along and across it, of a pocket with an island', () => {
    const [bore] = block(hole({ places: [at(20, 15)], diameter: 10, depth: deep(8) })).voids;
    near(cut(bore!, 2, 15).area, 25 * PI);
    near(cut(bore!, 2, 5).area, 0);
    near(cut(bore!, 0, 23).area, 8 * 8);
    near(cut(bore!, 1, 15).area, 10 * 8);
    const ring = block(groove({ places: [at(20, 15)], diameter: 10, width: 2, depth: deep(4) })).voids[0]!;
    near(cut(ring, 0, 20).area, 2 * 2 * 4);
    near(cut(ring, 0, 26).area, 2 * Math.sqrt(49 - 36) * 4);
  });

  it('of a cone along and across it', () => {
    const [, point] = block(
      hole({ places: [at(20, 15)], diameter: 10, depth: deep(5), bottom: 'cone', point: 90 }),
    ).voids;
    const along = sectionOf(point!, 2, 13);
    near(momentsOf(along.sheet.edges).area, PI * 9);
    assert.ok(along.exact);
    const across = sectionOf(point!, 0, 20);
    assert.ok(across.exact);
    near(momentsOf(across.sheet.edges).area, 25);
    // beside the axis a hyperbola: ∫ 2√(w² − d²) dw from d to R
    const beside = sectionOf(point!, 0, 22);
    near(momentsOf(beside.sheet.edges).area, 5 * Math.sqrt(21) - 4 * Math.acosh(2.5), 1e-7);
  });

  it('of a ball, a ring’s fillet, a leaning cylinder', () => {
    const ball = block(pocket({ places: [at(20, 15)], shape: circle(16), depth: deep(8), floorRadius: 8 })).voids[0]!;
    // a sphere: every section a circle, here half of one
    near(momentsOf(sectionOf(ball, 0, 23).sheet.edges).area, (PI * (64 - 9)) / 2, 1e-8);
    const leaning = block(hole({ places: [at(20, 15)], diameter: 10, depth: THROUGH, tilt: { about: 'y', angle: 30 } }))
      .voids[0]!;
    const ellipse = sectionOf(leaning, 2, 10);
    assert.ok(ellipse.exact);
    near(momentsOf(ellipse.sheet.edges).area, (25 * PI) / Math.cos(PI / 6), 1e-8);
  });

  it('of a leaning prism: straight sides exactly', () => {
    const leaning = block(
      pocket({ places: [at(20, 15)], shape: rectangle(8, 6), depth: THROUGH, tilt: { about: 'y', angle: 30 } }),
    ).voids[0]!;
    const level = sectionOf(leaning, 2, 10);
    assert.ok(level.exact);
    near(momentsOf(level.sheet.edges).area, 48 / Math.cos(PI / 6));
  });
});

describe('quadrature', () => {
  it('is exact for polynomials up to its degree, and for square-root ends', () => {
    for (let n = 0; n <= 10; n++) near(integrate((x) => [x ** n], 0, 1, true, 1e-12).values[0]!, 1 / (n + 1), 1e-13);
    near(integrate((x) => [Math.sqrt(1 - x * x)], -1, 1, false, 1e-9).values[0]!, PI / 2, 1e-9);
    near(integrate((x) => [Math.abs(x - 0.3)], 0, 1, true, 1e-9).values[0]!, (0.09 + 0.49) / 2, 1e-8);
  });

  it('says when it did not get there', () => {
    assert.equal(integrate((x) => [1 / Math.sqrt(Math.abs(x - 0.123456))], 0, 1, true, 1e-14).converged, false);
  });
});

describe('material', () => {
  it('of a round bar, a tilted bore, a bowl', () => {
    const bar = solidOf(
      part(rod(20, 40, 'x'), hole({ face: 'top', places: [at(20, 10)], diameter: 6, depth: THROUGH })),
    );
    assert.equal(bar.isMaterial([5, 10, 10]), true);
    assert.equal(bar.isMaterial([5, 1, 1]), false, 'outside the round');
    assert.equal(bar.isMaterial([20, 10, 10]), false);
    const bowl = block(pocket({ places: [at(20, 15)], shape: circle(16), depth: deep(8), floorRadius: 8 }));
    assert.equal(bowl.isMaterial([20, 15, 12.1]), false);
    assert.equal(bowl.isMaterial([26, 15, 13]), true, 'behind the floor’s round');
  });
});

describe('a solid is kept while nothing it shows has changed', () => {
  it('same voids: same solid; another hole: only that one is new', () => {
    const features = [1, 2, 3, 4].map((k) =>
      hole({ name: `h${k}`, places: [at(8 * k, 15)], diameter: 5, depth: deep(6) }),
    );
    const p = part(box(...BLOCK), ...features);
    const first = solidOf(p);
    assert.equal(solidOf(withFeatures(p, [...features]), first), first);
    const changed = withFeatures(p, [
      features[0]!,
      hole({ name: 'h2', places: [at(17, 15)], diameter: 5, depth: deep(7) }),
      ...features.slice(2),
    ]);
    const second = solidOf(changed, first);
    assert.notEqual(second, first);
    assert.equal(second.body, first.body);
    assert.deepEqual(
      second.voids.map((v, i) => v === first.voids[i]),
      [true, false, true, true],
    );
    near(second.measures.volumeMm3, solidOf(changed).measures.volumeMm3);
  });

  it('answers the same as a fresh one after any edit', () => {
    fc.assert(
      fc.property(
        fc.array(anyFeature, { minLength: 2, maxLength: 5 }),
        anyFeature,
        fc.nat(4),
        (features, other, at) => {
          const p = part(box(...BLOCK), ...features);
          const before = solidOf(p);
          void [before.measures, before.pieces];
          const edited = withFeatures(
            p,
            features.map((f, i) => (i === at % features.length ? other : f)),
          );
          const after = solidOf(edited, before);
          const fresh = solidOf(part(box(...BLOCK), ...edited.features.map((f) => ({ ...f }))));
          assert.equal(after.measures.volumeMm3, fresh.measures.volumeMm3);
          assert.equal(after.pieces, fresh.pieces);
        },
      ),
      { ...SEED, numRuns: 20 },
    );
  });
});

describe('pieces', () => {
  const plate = (...f: Feature[]) => solidOf(part(box(60, 40, 16), ...f)).pieces;
  const across = (width: number, depth: ReturnType<typeof deep>, face: Face = 'top') =>
    slot({ face, line: [corner(-10, 20), corner(70, 20)], width, depth });

  it('one: untouched, blind, holed, chamfered', () => {
    assert.equal(plate(), 1);
    assert.equal(plate(across(6, deep(15.7))), 1);
    assert.equal(plate(groove({ places: [at(30, 20)], diameter: 10, width: 2, depth: deep(15.5) })), 1);
    assert.equal(
      plate(
        hole({ places: [at(30, 20)], diameter: 20, depth: THROUGH }),
        chamfer({ edges: ['top', 'bottom'], size: 1 }),
      ),
      1,
    );
  });

  it('two: a slot from side to side, a ring, two bosses, a bore as high as the plate', () => {
    assert.equal(plate(across(6, THROUGH)), 2);
    assert.equal(plate(groove({ places: [at(30, 20)], diameter: 10, width: 2, depth: THROUGH })), 2);
    assert.equal(plate(contour({ shapes: [circle(10)], places: [at(10, 20), at(40, 20)], depth: THROUGH })), 2);
    assert.equal(plate(hole({ face: 'front', places: [at(30, 8)], diameter: 16.2, depth: THROUGH })), 2);
    assert.equal(
      plate(
        slot({
          line: [corner(0, -90), corner(0, 90)],
          places: [at(30, 20)],
          width: 4,
          depth: THROUGH,
          tilt: { about: 'y', angle: 20 },
        }),
      ),
      2,
    );
  });

  it('slots from both faces: two where they meet along their length, one where a web is left', () => {
    assert.equal(plate(across(6, deep(9)), across(6, deep(7), 'bottom')), 2);
    assert.equal(plate(across(6, deep(9)), across(6, deep(6.7), 'bottom')), 1);
    assert.equal(
      plate(
        across(6, deep(9)),
        slot({ face: 'bottom', line: [corner(30, -10), corner(30, 50)], width: 6, depth: deep(9) }),
      ),
      1,
    );
  });

  it('a bridge of 0.3 mm holds, wherever it is', () => {
    assert.equal(plate(slot({ line: [corner(-10, 20), corner(56.7, 20)], width: 6, depth: THROUGH })), 1);
    assert.equal(plate(hole({ face: 'front', places: [at(30, 8)], diameter: 15.4, depth: THROUGH })), 1);
    const frame = [
      [10, 10, 40, 10],
      [40, 10, 40, 30],
      [40, 30, 10, 30],
    ].map(([a, b, c, d]) => slot({ line: [corner(a!, b!), corner(c!, d!)], width: 4, depth: THROUGH }));
    const last = (end: number) => slot({ line: [corner(10, 30), corner(10, end)], width: 4, depth: THROUGH });
    assert.equal(plate(...frame, last(10)), 2);
    assert.equal(plate(...frame, last(14.3)), 1);
  });

  it('four quarters from crossing cuts; a round bar parted', () => {
    const other = slot({ line: [corner(30, -20), corner(30, 70)], width: 6, depth: THROUGH });
    assert.equal(plate(across(6, THROUGH), other), 4);
    const parted = slot({ face: 'top', line: [corner(20, -30), corner(20, 50)], width: 3, depth: THROUGH });
    assert.equal(solidOf(part(rod(20, 40, 'x'), parted)).pieces, 2);
  });

  it('contour, chamfers, steps and holes that run together', () => {
    const cut = contour({ shapes: [rectangle(50, 30, 5)], places: [at(30, 20)], depth: THROUGH });
    const broken = chamfer({ edges: ['top', 'bottom'], size: 1 });
    assert.equal(plate(cut, broken, hole({ places: [at(55, 20)], diameter: 8, depth: THROUGH })), 1);
    assert.equal(plate(cut, broken, across(4, THROUGH)), 2);
    const ledges = [
      step({ along: ['front'], widths: [10], depth: deep(5) }),
      step({ along: ['left', 'back'], widths: [10, 12], depth: deep(5) }),
    ];
    assert.equal(plate(...ledges, broken), 1);
  });

  it('nothing left: no pieces', () => {
    assert.equal(plate(pocket({ places: [at(30, 20)], shape: rectangle(80, 60), depth: THROUGH })), 0);
  });
});
