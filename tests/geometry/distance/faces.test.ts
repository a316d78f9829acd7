/** Gaps to the faces of block and round bodies, the least web beside a cut, and sides that break out: worked by hand. */
import assert from 'node:assert/strict';
import { breaksOut, gapToFace } from '../../../server/src/geometry/distance/faces';
import type { BodyShape, Frame, Vec3, Void } from '../../../server/src/geometry/types';
import { cross } from '../../../server/src/geometry/vector';
import { wallsOf } from '../../../server/src/geometry/walls';
import { block, circle, cut, faceFrame, materialOf, region } from './make';

const near = (actual: number, expected: number, slack = 1e-9) =>
  assert.ok(Math.abs(actual - expected) <= slack, `${actual} is not ${expected}`);

const body = block(60, 40, 16);
const top = faceFrame('top', [60, 40, 16]);
const bore = (u: number, v: number, radius: number, to: number, through = false) =>
  cut({ role: 'bore', frame: top, region: region(circle(u, v, radius)), to, through });

/** A hole on the top face at x, y that leans by an angle about y: its bottom goes to larger x. */
function leaning(x: number, y: number, radius: number, deg: number, from: number, to: number): Void {
  const [s, c] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  const w: Vec3 = [s, 0, -c];
  const u: Vec3 = [c, 0, s];
  const frame: Frame = { origin: [x, y, 16], u, v: cross(w, u), w };
  return cut({ feature: 'lean', role: 'bore', frame, region: region(circle(0, 0, radius)), from, to });
}

/** A bar along z, radius 20, length 50. */
const bar: BodyShape = {
  form: 'round',
  axis: 2,
  radius: 20,
  box: { min: [0, 0, 0], max: [40, 40, 50] },
};
const end: Frame = { origin: [20, 20, 50], u: [1, 0, 0], v: [0, 1, 0], w: [0, 0, -1] };
/** Cut from the right (x = 40) towards the axis, 25 up. */
const side: Frame = { origin: [40, 20, 25], u: [0, 1, 0], v: [0, 0, 1], w: [-1, 0, 0] };

describe('gap to a face', () => {
  it('of a hole to every face of a block', () => {
    const hole = bore(12, 10, 3, 9);
    const gaps = { left: 9, right: 45, front: 7, back: 27, bottom: 7, top: 0 } as const;
    for (const [face, mm] of Object.entries(gaps)) near(gapToFace(hole, body, face as keyof typeof gaps).mm, mm);
  });
  it('is negative where it reaches through', () => {
    near(gapToFace(bore(2, 20, 3, 9), body, 'left').mm, -1);
  });
  it('of a cone, a countersink, a leaning hole', () => {
    const cone = cut({
      frame: top,
      region: region(circle(20, 20, 3)),
      from: 9,
      to: 11,
      profile: { type: 'taper', insetFrom: 0, insetTo: 3 },
    });
    near(gapToFace(cone, body, 'bottom').mm, 5);
    const sink = cut({
      frame: top,
      region: region(circle(5, 20, 2)),
      to: 2,
      profile: { type: 'taper', insetFrom: -2, insetTo: 0 },
    });
    near(gapToFace(sink, body, 'left').mm, 1);
    // leaning 30°: at 10 down its axis 5 over and 8.66 down; the rim reaches r·sin 30° lower
    near(gapToFace(leaning(20, 20, 3, 30, 0, 10), body, 'bottom').mm, 16 - 10 * Math.cos(Math.PI / 6) - 1.5);
  });
  it('of cuts in a round bar to its side and ends', () => {
    const hole = cut({ frame: end, region: region(circle(12, 5, 4)), to: 20 });
    near(gapToFace(hole, bar, 'right').mm, 20 - 13 - 4);
    near(gapToFace(hole, bar, 'bottom').mm, 30);
    near(gapToFace(cut({ frame: side, region: region(circle(0, 5, 4)), to: 10 }), bar, 'top').mm, 50 - 30 - 4);
  });
});

describe('walls to faces that stand askew, and in a round body', () => {
  it('a leaning blind hole over the bottom', () => {
    const hole = leaning(20, 20, 3, 30, -2, 14);
    const walls = wallsOf(body, [hole], 3, materialOf(body, [hole])).walls;
    assert.equal(walls.length, 1);
    assert.equal(walls[0]!.b, 'bottom');
    near(walls[0]!.thicknessMm, 16 - 14 * Math.cos(Math.PI / 6) - 1.5, 1e-4);
  });
  it('a leaning hole that leaves through the right side has no wall to it', () => {
    const hole = leaning(50, 20, 3, 60, -6, 30);
    assert.deepEqual(
      wallsOf(body, [hole], 2, materialOf(body, [hole])).walls.filter((w) => w.b === 'right'),
      [],
    );
  });
  it('a hole along a bar, 1 mm under its side', () => {
    const hole = cut({ frame: end, region: region(circle(11, 0, 8)), to: 20 });
    const [wall, ...more] = wallsOf(bar, [hole], 2, materialOf(bar, [hole])).walls;
    assert.equal(more.length, 0);
    near(wall!.thicknessMm, 1);
    assert.equal(wall!.b, 'right');
    near(wall!.heightMm, 20);
  });
  it('a flat hole across a bar ends 1.5 before the far side, at its rim', () => {
    // radius 4, rim at 4 off the axis plane: far side there at sqrt(20² − 4²) from the axis plane
    const hole = cut({ frame: side, role: 'bore', region: region(circle(0, 0, 4)), to: 20 + 18 });
    const [wall] = wallsOf(bar, [hole], 2.5, materialOf(bar, [hole])).walls;
    near(wall!.thicknessMm, 20 - Math.hypot(18, 4), 1e-4);
    assert.equal(wall!.b, 'left');
  });
});

describe('sides that break out', () => {
  it('through the side of a block, by how far', () => {
    assert.deepEqual(breaksOut(bore(12, 10, 3, 9), body), []);
    const [out, ...more] = breaksOut(bore(2, 20, 3, 16, true), body);
    assert.equal(more.length, 0);
    assert.equal(out!.face, 'left');
    near(out!.byMm, 1);
    assert.deepEqual(
      breaksOut(bore(1, 1, 3, 9), body)
        .map((o) => o.face)
        .sort(),
      ['front', 'left'],
    );
  });
  it('not where a leaning hole enters and leaves, but where its side does', () => {
    assert.deepEqual(breaksOut(leaning(20, 20, 3, 30, -2, 22), body), []);
    const [out] = breaksOut(leaning(50, 20, 3, 30, 0, 16), body);
    assert.equal(out!.face, 'right');
    // at 16 down its axis: 8 over, and the rim r·cos 30° further
    near(out!.byMm, 50 + 8 + 3 * Math.cos(Math.PI / 6) - 60);
  });
  it('in a round bar: along it past the side, across it past the widest', () => {
    near(breaksOut(cut({ frame: end, region: region(circle(15, 0, 6)), to: 20 }), bar)[0]!.byMm, 1);
    assert.deepEqual(breaksOut(cut({ frame: side, region: region(circle(0, 0, 6)), to: 40, through: true }), bar), []);
    const [out] = breaksOut(cut({ frame: side, region: region(circle(16, 0, 6)), to: 40, through: true }), bar);
    near(out!.byMm, 2);
    assert.equal(out!.face, 'back');
    const [over] = breaksOut(cut({ frame: side, region: region(circle(0, 22, 6)), to: 40, through: true }), bar);
    assert.equal(over!.face, 'top');
    near(over!.byMm, 3);
  });
});
