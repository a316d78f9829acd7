/**
 * Walls worked out by hand: two cuts, a cut and a face, arms of one outline, cone points, cross holes, and third cuts
 * that pierce or remove a wall. Each scene is cut into each of the six faces and mirrored: the numbers stay.
 */
import assert from 'node:assert/strict';
import { mapped } from '../../server/src/geometry/distance/section';
import type { BodyShape, Frame, Loop, Region, Vec3, Void, Wall } from '../../server/src/geometry/types';
import { wallsOf } from '../../server/src/geometry/walls';
import { FACE_PLANE, FACES, type Face } from '../../server/src/model/model';
import { block, type Cut, circle, cut, faceFrame, materialOf, polygon, rectangle, region } from './distance/make';

const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

/** 60 along u, 40 along v, 16 deep, whichever face it is cut from; a cross face looks along u. */
interface Scene {
  readonly body: BodyShape;
  readonly main: Frame;
  readonly below: Frame;
  /** From the side v = 0: its u is along u, its v along the depth, from the far face up. */
  readonly cross: Frame;
  cut(c: Omit<Cut, 'frame'> & { frame?: Frame }): Void;
  walls(voids: readonly Void[], below?: number): readonly Wall[];
}

function scene(face: Face, mirror: boolean): Scene {
  const [u, v] = FACE_PLANE[face];
  const size = [16, 16, 16];
  size['xyz'.indexOf(u)] = 60;
  size['xyz'.indexOf(v)] = 40;
  const [x, y, z] = size as [number, number, number];
  const body = block(x, y, z);
  const main = faceFrame(face, [x, y, z]);
  const flip = (r: Region) => (mirror ? mapped(r, (p) => ({ u: 60 - p.u, v: p.v }), true) : r);
  const minus = (a: Vec3): Vec3 => [-a[0], -a[1], -a[2]];
  const far: Vec3 = [0, 1, 2].map((i) => main.origin[i as 0] + 16 * main.w[i as 0]) as unknown as Vec3;
  return {
    body,
    main,
    below: { ...main, origin: far, w: minus(main.w) },
    cross: { origin: far, u: main.u, v: minus(main.w), w: main.v },
    cut: (c) => cut({ ...c, frame: c.frame ?? main, region: flip(c.region) }),
    walls: (voids, below = 2) => wallsOf(body, voids, below, materialOf(body, voids)).walls,
  };
}

const sorted = (walls: readonly Wall[]) =>
  walls.map((w) => [w.type, Number(w.thicknessMm.toFixed(6)), Number(w.heightMm.toFixed(4))]);

function everyWay(what: string, check: (s: Scene) => void): void {
  it(what, () => {
    for (const face of FACES) for (const mirror of [false, true]) check(scene(face, mirror));
  });
}

const hole = (u: number, v: number, radius: number) => region(circle(u, v, radius));
const box = (u: number, v: number, width: number, height: number, radius = 0) =>
  region(rectangle(u, v, width, height, radius));

describe('walls between cuts from one face', () => {
  everyWay('two pockets 0.4 mm apart', (s) => {
    const a = s.cut({ feature: 'a', region: box(15, 20, 10, 20, 3), to: 9 });
    const b = s.cut({ feature: 'b', region: box(25.4, 20, 10, 16, 3), to: 6 });
    const found = s.walls([a, b]);
    assert.equal(found.length, 1);
    const [w] = found;
    near(w!.thicknessMm, 0.4);
    near(w!.heightMm, 6);
    assert.equal(w!.type, 'wall');
    assert.ok(w!.lengthMm >= 10 && w!.lengthMm <= 12);
    assert.equal(w!.a.feature, 'a');
    near(Math.hypot(...w!.at[0].map((x, i) => x - w!.at[1][i as 0])), 0.4);
    assert.deepEqual(s.walls([b, a]), found);
  });

  everyWay('two holes: centres 8.5 apart, radii 3 and 5', (s) => {
    const [w, ...more] = s.walls([
      s.cut({ role: 'bore', region: hole(20, 20, 3), to: 16, through: true }),
      s.cut({ role: 'bore', region: hole(28.5, 20, 5), to: 10 }),
    ]);
    assert.equal(more.length, 0);
    near(w!.thicknessMm, 0.5);
    near(w!.heightMm, 10);
    // the gap on the larger circle stays within 0.75 while sqrt(5² + 8.5² − 85 cos t) ≤ 3.75
    near(w!.lengthMm, 2 * 3 * Math.acos((3 ** 2 + 8.5 ** 2 - 5.75 ** 2) / (2 * 3 * 8.5)), 2e-5);
  });

  everyWay('a hole 0.7 mm from a side', (s) => {
    const [w, ...more] = s.walls([s.cut({ role: 'bore', region: hole(3.2, 20, 2.5), to: 10 })]);
    assert.equal(more.length, 0);
    assert.equal(typeof w!.b, 'string');
    near(w!.thicknessMm, 0.7);
    near(w!.heightMm, 10);
  });

  everyWay('the members of a pattern have walls, the pieces of one hole have none', (s) => {
    const at = (member: number, u: number) => [
      s.cut({ feature: 'mount', member, role: 'counterbore', region: hole(u, 20, 4), to: 4 }),
      s.cut({ feature: 'mount', member, role: 'bore', region: hole(u, 20, 2), from: 4, to: 16, through: true }),
    ];
    const found = s.walls([...at(1, 20), ...at(2, 28.6)], 5);
    assert.deepEqual(sorted(found), [
      ['wall', 0.6, 4],
      ['wall', 4.6, 12],
    ]);
  });

  everyWay('a step and a pocket beside it', (s) => {
    const step = s.cut({ feature: 'step', role: 'step', region: box(5, 20, 10, 40), to: 5 });
    const pocket = s.cut({ feature: 'p', region: box(16, 20, 10, 10, 2), to: 8 });
    assert.deepEqual(sorted(s.walls([step, pocket])), [['wall', 1, 5]]);
  });
});

describe('floors', () => {
  everyWay('under a pocket, none under a through cut', (s) => {
    const [w, ...more] = s.walls([s.cut({ region: box(30, 20, 20, 12), to: 15.5 })]);
    assert.equal(more.length, 0);
    assert.equal(w!.type, 'floor');
    near(w!.thicknessMm, 0.5);
    near(w!.lengthMm, 12, 1e-5);
    assert.deepEqual(s.walls([s.cut({ region: box(30, 20, 20, 12), to: 16, through: true })]), []);
  });

  everyWay('between pockets from both sides', (s) => {
    const upper = s.cut({ feature: 'upper', region: box(30, 20, 30, 20, 4), to: 9 });
    const lower = s.cut({ feature: 'lower', frame: s.below, region: box(35, 22, 10, 10, 2), to: 6.2 });
    const [w, ...more] = s.walls([upper, lower]);
    assert.equal(more.length, 0);
    assert.equal(w!.type, 'floor');
    near(w!.thicknessMm, 0.8);
    near(w!.lengthMm, 10, 1e-5);
  });

  everyWay('a floor that a hole goes through is still a floor', (s) => {
    const upper = s.cut({ feature: 'upper', region: box(30, 20, 30, 20, 4), to: 15 });
    const drain = s.cut({ feature: 'drain', role: 'bore', region: hole(30, 20, 3), to: 16, through: true });
    const [w, ...more] = s.walls([upper, drain]);
    assert.equal(more.length, 0);
    assert.equal(w!.type, 'floor');
    near(w!.thicknessMm, 1);
  });

  everyWay('one wholly inside a through cut is none', (s) => {
    const upper = s.cut({ feature: 'upper', region: box(30, 20, 10, 10), to: 15 });
    const window = s.cut({ feature: 'window', region: box(30, 20, 12, 12), to: 16, through: true });
    assert.deepEqual(s.walls([upper, window]), []);
  });

  everyWay('a drill’s cone ends 0.3 above the far face', (s) => {
    const tip = 3 / Math.tan((59 * Math.PI) / 180);
    const to = 15.7 - tip;
    const found = s.walls([
      s.cut({ feature: 'h', role: 'bore', region: hole(30, 20, 3), to }),
      s.cut({
        feature: 'h',
        role: 'point',
        region: hole(30, 20, 3),
        from: to,
        to: 15.7,
        profile: { type: 'taper', insetFrom: 0, insetTo: 3 },
      }),
    ]);
    assert.equal(found.length, 1);
    assert.equal(found[0]!.type, 'wall');
    near(found[0]!.thicknessMm, 0.3);
    assert.equal(found[0]!.a.role, 'point');
  });

  everyWay('a pocket with a rounded floor over a hole from the side', (s) => {
    const pocket = s.cut({
      feature: 'p',
      region: box(30, 20, 20, 20, 5),
      to: 7,
      profile: { type: 'floor', radius: 2 },
    });
    const across = s.cut({ feature: 'x', role: 'bore', frame: s.cross, region: hole(30, 5, 3), to: 40, through: true });
    const [w, ...more] = s.walls([pocket, across]);
    assert.equal(more.length, 0);
    // the hole's crown is at 16 − 5 − 3 = 8 below the face, the floor at 7
    near(w!.thicknessMm, 1, 1e-8);
  });
});

describe('walls between cuts from different faces', () => {
  everyWay('cross-drilled holes pass each other at 0.5', (s) => {
    const down = s.cut({ feature: 'down', role: 'bore', region: hole(30, 20, 3), to: 16, through: true });
    const across = s.cut({
      feature: 'x',
      role: 'bore',
      frame: s.cross,
      region: hole(36, 8, 2.5),
      to: 40,
      through: true,
    });
    const [w, ...more] = s.walls([down, across]);
    assert.equal(more.length, 0);
    near(w!.thicknessMm, 0.5, 1e-8);
    assert.equal(w!.type, 'wall');
    assert.ok(w!.heightMm > 1 && w!.heightMm < 5 && w!.lengthMm > 1 && w!.lengthMm < 6);
  });

  everyWay('holes that run into each other have none', (s) => {
    const down = s.cut({ role: 'bore', region: hole(30, 20, 3), to: 16, through: true });
    const across = s.cut({ role: 'bore', frame: s.cross, region: hole(32, 8, 2.5), to: 40, through: true });
    assert.deepEqual(s.walls([down, across]), []);
  });

  everyWay('a blind hole from the side ends 0.6 before a pocket', (s) => {
    const pocket = s.cut({ feature: 'p', region: box(30, 25, 20, 20, 3), to: 12 });
    const side = s.cut({ feature: 's', role: 'bore', frame: s.cross, region: hole(30, 8, 2.5), to: 14.4 });
    const [w, ...more] = s.walls([pocket, side]);
    assert.equal(more.length, 0);
    near(w!.thicknessMm, 0.6, 1e-8);
  });

  everyWay('an L-shaped pocket around a hole from the side: the inner corner', (s) => {
    const l = s.cut({
      feature: 'l',
      region: region(polygon([10, 6], [40, 6], [40, 10], [20, 10], [20, 34], [10, 34])),
      to: 10,
    });
    const side = s.cut({
      feature: 's',
      role: 'bore',
      frame: s.cross,
      region: hole(25.5, 3, 2.4),
      to: 40,
      through: true,
    });
    // under the floor at 10: crown at 16 − 3 − 2.4 = 10.6
    const [w, ...more] = s.walls([l, side]);
    assert.equal(w!.a.feature, 'l');
    near(w!.thicknessMm, 0.6, 1e-8);
    assert.deepEqual(
      more.map((x) => [typeof x.b, Number(x.thicknessMm.toFixed(9))]),
      [['string', 0.6]],
    );
  });
});

describe('lips', () => {
  // found by tests/proof: the neck's box covers the middle of every cell, the lip stands beside the neck only
  everyWay('over the foot of a T-slot that runs aslant', (s) => {
    const aslant = (r: number) => {
      const k = r * Math.SQRT1_2;
      return region(polygon([20 + k, 10 - k], [40 + k, 30 - k], [40 - k, 30 + k], [20 - k, 10 + k]));
    };
    const neck = s.cut({ region: aslant(2), to: 1.2 });
    const foot = s.cut({ region: aslant(4), from: 1.2, to: 4 });
    const lips = s.walls([neck, foot]).filter((w) => w.a === foot && typeof w.b === 'string');
    assert.equal(lips.length, 1);
    near(lips[0]!.thicknessMm, 1.2);
  });
});

describe('arms of one outline', () => {
  everyWay('the rib of a U', (s) => {
    const u = polygon([10, 10], [30, 10], [30, 30], [20.6, 30], [20.6, 14], [20, 14], [20, 30], [10, 30]);
    const [w, ...more] = s.walls([s.cut({ region: region(u), to: 8 })]);
    assert.equal(more.length, 0);
    near(w!.thicknessMm, 0.6);
    near(w!.heightMm, 8);
    near(w!.lengthMm, 16);
    assert.equal(w!.a, w!.b);
  });

  everyWay('what a contour leaves: a tongue 1.2 wide', (s) => {
    const kept: Loop = polygon([20, 10], [20, 20], [5, 20], [5, 21.2], [20, 21.2], [20, 30], [40, 30], [40, 10]);
    const c = s.cut({ role: 'contour', region: region(rectangle(30, 20, 60, 40), kept), to: 6 });
    const [w, ...more] = s.walls([c]);
    assert.equal(more.length, 0);
    near(w!.thicknessMm, 1.2);
    near(w!.heightMm, 6);
    near(w!.lengthMm, 15);
  });
});

describe('third cuts', () => {
  const pair = (s: Scene) => [
    s.cut({ feature: 'a', region: box(15, 20, 10, 20), to: 9 }),
    s.cut({ feature: 'b', region: box(25.5, 20, 10, 20), to: 9 }),
  ];

  everyWay('a wall that a third pocket takes away is none', (s) => {
    assert.equal(s.walls(pair(s)).length, 1);
    assert.deepEqual(s.walls([...pair(s), s.cut({ feature: 'c', region: box(20.25, 20, 3, 22), to: 9 })]), []);
  });

  everyWay('taken down by 5 of 9, it stands 4 high', (s) => {
    const found = s.walls([...pair(s), s.cut({ feature: 'c', region: box(20.25, 20, 3, 22), to: 5 })]);
    assert.deepEqual(sorted(found), [['wall', 0.5, 4]]);
  });

  everyWay('taken away over half its length, the other half stands', (s) => {
    const found = s.walls([...pair(s), s.cut({ feature: 'c', region: box(20.25, 10, 3, 20), to: 9 })]);
    const [w] = found.filter(
      (x) => x.b === x.a || (typeof x.b !== 'string' && x.a.feature === 'a' && x.b.feature === 'b'),
    );
    near(w!.thicknessMm, 0.5);
    near(w!.heightMm, 9);
    near(w!.lengthMm, 10, 1e-6);
  });

  everyWay('pierced by a cross hole it still stands, at full height beside it', (s) => {
    // along u, through the wall, 4.5 below the face
    const { main } = s;
    const across: Frame = {
      origin: [0, 1, 2].map((i) => main.origin[i as 0] + 16 * main.w[i as 0]) as unknown as Vec3,
      u: main.v,
      v: [-main.w[0], -main.w[1], -main.w[2]],
      w: main.u,
    };
    const drill = cut({ feature: 'x', role: 'bore', frame: across, region: hole(20, 11.5, 2), to: 60, through: true });
    const [w] = s
      .walls([...pair(s), drill])
      .filter((x) => typeof x.b !== 'string' && x.a.feature === 'a' && x.b.feature === 'b');
    near(w!.thicknessMm, 0.5);
    near(w!.heightMm, 9);
  });

  everyWay('two holes whose nearest line is cut away: the place beside the cut', (s) => {
    const holes = [
      s.cut({ feature: 'a', role: 'bore', region: hole(20, 20, 5), to: 16, through: true }),
      s.cut({ feature: 'b', role: 'bore', region: hole(31, 20, 5), to: 16, through: true }),
    ];
    const slit = s.cut({ feature: 'c', role: 'slot', region: box(25.5, 20, 4, 1), to: 16, through: true });
    const found = s.walls([...holes, slit]).filter((x) => typeof x.b !== 'string' && x.b.feature === 'b');
    assert.equal(found.length, 1);
    // the web just beside the slit, 0.5 from the middle line: the chord between the two circles there
    const t = Math.asin(0.5 / 5);
    const expected = 11 - 2 * 5 * Math.cos(t);
    near(found[0]!.thicknessMm, expected, 0.02);
    assert.ok(found[0]!.thicknessMm > 1 && found[0]!.thicknessMm < 1.1);
  });
});

describe('what is no wall', () => {
  everyWay('a pocket that is open at a side has none to it', (s) => {
    assert.deepEqual(s.walls([s.cut({ region: box(5, 20, 20, 10), to: 8 })]), []);
  });
  everyWay('cuts that touch or overlap', (s) => {
    const a = s.cut({ region: box(20, 20, 10, 10), to: 8 });
    assert.deepEqual(s.walls([a, s.cut({ region: box(30, 20, 10, 10), to: 8 })]), []);
    assert.deepEqual(s.walls([a, s.cut({ region: hole(26, 24, 4), to: 10 })]), []);
  });
  everyWay('a broken edge beside a pocket', (s) => {
    const rim = s.cut({
      role: 'edge',
      region: box(30, 20, 12, 12),
      to: 1,
      profile: { type: 'taper', insetFrom: -1, insetTo: 0 },
    });
    const p = s.cut({ feature: 'p', region: box(42.5, 20, 10, 10), to: 4 });
    assert.deepEqual(s.walls([rim, p]), []);
  });
});
