/** Columns: where a line along the spindle is in material. Against the geometry's own test of a point, which shares no code with them. */
import assert from 'node:assert/strict';
import { FACES } from '../../server/src/model/model';
import { atDepth, depthBelow, firstMaterial, heightOf, materialAlong } from '../../server/src/process/column';
import { holds, inFrame, insetAt, ofFrame, through } from '../../server/src/process/section';
import { ALL_BODY, ALL_KINDS, make, randomPoint, stream } from './parts';

const lengthOf = (stretches: readonly { from: number; to: number }[]) =>
  stretches.reduce((sum, s) => sum + s.to - s.from, 0);

describe('columns', () => {
  it('depths count from each face downward', () => {
    const { solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 5 }\n',
    );
    const p = [10, 15, 4] as const;
    assert.deepEqual(
      FACES.map((f) => depthBelow(solid, f, p)),
      [10, 50, 15, 25, 4, 16],
    );
    assert.deepEqual(
      FACES.map((f) => heightOf(solid, f)),
      [60, 60, 40, 40, 20, 20],
    );
    assert.deepEqual(atDepth(solid, 'top', p, 5), [10, 15, 15]);
    assert.deepEqual(atDepth(solid, 'left', p, 5), [5, 15, 4]);
  });

  it('a blind hole, its point, and what a pocket leaves', () => {
    const { solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 5 }\n  p: { kind: pocket, face: bottom, at: { x: 30, y: 20 }, diameter: 20, depth: 8 }\n',
    );
    const [only] = materialAlong(solid, 'top', [30, 20, 0]);
    // 118°: the point of 6 mm is 3 / tan 59° long.
    assert.ok(Math.abs(only!.from - (5 + 3 / Math.tan((59 * Math.PI) / 180))) < 1e-6);
    assert.equal(only!.to, 12);
    assert.equal(firstMaterial(solid, 'bottom', [30, 20, 0]), 8);
    assert.equal(firstMaterial(solid, 'top', [35, 20, 0]), 0);
  });

  it('beside the body there is nothing, in a round body the chord', () => {
    const { solid } = make(
      '{ diameter: 30, length: 50, axis: x }',
      '  h: { kind: hole, face: left, at: { y: center, z: center }, diameter: 6, depth: 5 }\n',
    );
    assert.deepEqual(materialAlong(solid, 'top', [20, -1, 0]), []);
    // 9 mm off the middle of a circle of 15: half a chord of 12.
    const [chord] = materialAlong(solid, 'top', [20, 24, 0]);
    assert.ok(Math.abs(chord!.from - 3) < 1e-9 && Math.abs(chord!.to - 27) < 1e-9);
    assert.equal(lengthOf(materialAlong(solid, 'left', [0, 24, 15])), 50);
    assert.equal(lengthOf(materialAlong(solid, 'left', [0, 15, 15])) < 45, true);
  });

  it('agrees with the solid on thousands of points, from every face', () => {
    const { solid } = make(ALL_BODY, ALL_KINDS);
    const random = stream(20261125);
    let checked = 0;
    let material = 0;
    for (let i = 0; i < 4000; i++) {
      const p = randomPoint(random, [120, 60, 30]);
      const face = FACES[i % 6]!;
      const at = depthBelow(solid, face, p);
      const stretches = materialAlong(solid, face, p);
      // A hair from a boundary either answer is right.
      if (stretches.some((s) => Math.abs(s.from - at) < 0.01 || Math.abs(s.to - at) < 0.01)) continue;
      const here = stretches.some((s) => s.from < at && at < s.to);
      assert.equal(here, solid.isMaterial(p), `${face} ${p.map((c) => c.toFixed(4)).join(' ')}`);
      checked++;
      if (here) material++;
    }
    assert.ok(checked > 3900 && material > 1500 && material < checked - 500, `${material} of ${checked}`);
  });

  it('weighs the part as the solid does: columns on a grid against its volume', () => {
    const { solid } = make(ALL_BODY, ALL_KINDS);
    const step = 0.75;
    let volume = 0;
    for (let x = step / 2; x < 120; x += step) {
      for (let y = step / 2; y < 60; y += step)
        volume += lengthOf(materialAlong(solid, 'top', [x, y, 0])) * step * step;
    }
    const exact = solid.measures.volumeMm3;
    assert.ok(Math.abs(volume / exact - 1) < 3e-3, `${volume} against ${exact}`);
  });
});

describe('sections of a void', () => {
  const { solid } = make(ALL_BODY, ALL_KINDS);

  it('there and back between frame and part', () => {
    const random = stream(7);
    for (const v of solid.voids) {
      const p = randomPoint(random, [120, 60, 30]);
      const { u, v: q, w } = inFrame(v.frame, p);
      const back = ofFrame(v.frame, u, q, w);
      for (const i of [0, 1, 2] as const) assert.ok(Math.abs(back[i] - p[i]) < 1e-9);
    }
  });

  it('insets: a cone shrinks in proportion, a fillet by its circle, a rounding the other way', () => {
    const taper = { type: 'taper', insetFrom: 0, insetTo: 3 } as const;
    assert.equal(insetAt(taper, 5, 5, 8), 0);
    assert.equal(insetAt(taper, 6.5, 5, 8), 1.5);
    const floor = { type: 'floor', radius: 5 } as const;
    assert.equal(insetAt(floor, 4, 0, 10), 0);
    assert.equal(insetAt(floor, 9, 0, 10), 2); // 5 − √(25 − 16)
    assert.equal(insetAt(floor, 10, 0, 10), 5);
    const round = { type: 'round', radius: 5 } as const;
    assert.equal(insetAt(round, 0, 0, 5), 0);
    assert.equal(insetAt(round, 1, 0, 5), 3); // √(25 − 16)
    assert.equal(insetAt(round, 5, 0, 5), 5);
    assert.equal(insetAt({ type: 'straight' }, 3, 0, 5), 0);
  });

  it('a line is inside a void exactly where its points are', () => {
    const random = stream(99);
    const axes = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, -1],
      [0.6, 0, 0.8],
    ] as const;
    let inside = 0;
    for (let i = 0; i < 3000; i++) {
      const v = solid.voids[i % solid.voids.length]!;
      // From a point about the void, so that most lines meet it.
      const p = [0, 1, 2].map(
        (k) => v.bounds.min[k]! + random() * (v.bounds.max[k]! - v.bounds.min[k]!),
      ) as unknown as readonly [number, number, number];
      const d = axes[i % 4]!;
      const t = (random() - 0.5) * 20;
      const stretches = through(v, p, d);
      if (stretches.some((s) => Math.abs(s.from - t) < 0.3 || Math.abs(s.to - t) < 0.3)) continue;
      const here = stretches.some((s) => s.from < t && t < s.to);
      assert.equal(here, holds(v, [p[0] + t * d[0], p[1] + t * d[1], p[2] + t * d[2]]), `${v.feature} ${v.role}`);
      if (here) inside++;
    }
    assert.ok(inside > 200, `${inside}`);
  });
});
