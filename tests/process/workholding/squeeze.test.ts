/** What gives way between the jaws: closed forms against integrating the beam and the ring, and against simple cases. */
import assert from 'node:assert/strict';
import { clampFor, frictionN, heaviestOf, machineOf, mostForceN } from '../../../server/src/process/workholding/forces';
import { ledgeMm, ringMm, squeezedIn, stripMm, thinSpan } from '../../../server/src/process/workholding/squeeze';
import { findMaterial } from '../../../server/src/tables/materials';
import { near, put, shop } from './bench';

const E = 70_000;

/** ∫ f from a to b, Simpson. */
function integral(f: (x: number) => number, a: number, b: number, n = 2000): number {
  const h = (b - a) / n;
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i++) sum += f(a + i * h) * (i % 2 ? 4 : 2);
  return (sum * h) / 3;
}

describe('walls between the jaws', () => {
  it('a strip held at both ends: the beam integrated (unit load at its middle)', () => {
    const [p, L, t] = [3, 40, 4];
    // Moment of a beam built in at both ends under even load, and of a unit force at its middle (Timoshenko, Strength of Materials).
    const m = (x: number) => (p / 12) * (6 * L * x - 6 * x * x - L * L);
    const unit = (x: number) => x / 2 - L / 8;
    const inertia = t ** 3 / 12;
    near(stripMm(p, L, t, E), (2 * integral((x) => m(x) * unit(x), 0, L / 2)) / (E * inertia), 1e-6);
  });

  it('a wall on its floor: the cantilever integrated', () => {
    const [p, h, t] = [2, 15, 3];
    const moves = integral((x) => ((p * x * x) / 2) * x, 0, h) / ((E * t ** 3) / 12);
    near(ledgeMm(p, h, t, E), moves, 1e-6);
  });

  it('a ring between two points: the strain energy integrated (Castigliano)', () => {
    const [F, R, t] = [50, 20, 2];
    const m = (a: number) => ((F * R) / 2) * (Math.cos(a) - 2 / Math.PI);
    const unit = (a: number) => m(a) / F;
    const moves = (4 * integral((a) => m(a) * unit(a) * R, 0, Math.PI / 2)) / ((E * t ** 3) / 12);
    near(ringMm(F, R, t, E), moves, 1e-6);
    // Roark’s table for a ring under two opposite forces has 0.1488 for this (from memory).
    near(ringMm(F, R, t, E) / ((F * R ** 3 * 12) / (E * t ** 3)), 0.1488, 1e-3);
  });

  it('a bore’s wall is twice as thick at the ends of its thin span', () => {
    for (const [r, t] of [
      [10, 2],
      [11, 9],
      [6, 5.9],
    ] as const) {
      const half = thinSpan(r, t) / 2;
      near(t + r - Math.sqrt(r * r - half * half), 2 * t, 1e-9);
    }
    assert.equal(thinSpan(5, 8), 10);
  });

  const window = (y: number) =>
    `  w: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 40, y: ${y} }, corner-radius: 4, depth: through }\n`;

  it('a gap that is open at one end leaves a fork, and the jaws reach over its bridge or not', () => {
    const gap = (from: number) =>
      `  w: { kind: pocket, face: top, path: [{ x: 12, y: ${from} }, { x: 48, y: ${from} }, { x: 48, y: 30 }, { x: 12, y: 30 }], depth: through }\n`;
    const at = (from: number) => {
      const x = put({ body: '{ x: 60, y: 40, z: 20 }', features: gap(from), cuts: '[w]', jaws: '[left, right]' });
      return { x, q: squeezedIn(x, E)[0]! };
    };
    const { x, q } = at(-2);
    assert.equal(q.as, 'arm');
    assert.equal(q.spanMm, 30);
    // The jaws are longer than the work: 36 mm of gap along a bridge of 10 mm, as high as what is pressed and the spread.
    const high = Math.min(20, x.gripMm + 12);
    near(q.mmPerN * E, 36 / (10 * high), 1e-9);
    near(q.mPaPerN, 1 / (10 * high), 1e-9);
    // Pinched at the ends alone: two cantilevers, F L³ / 3 E I.
    near(q.pinchedMmPerN! * E, (2 * 30 ** 3) / ((3 * 20 * 12 ** 3) / 12), 1e-9);
    assert.equal(at(4).q.as, 'strip');
  });

  it('a slot open at both ends stands on its floor alone', () => {
    const features = `  w: { kind: slot, face: top, ends: [{ x: 30, y: -5 }, { x: 30, y: 45 }], width: 36, depth: 15 }\n`;
    const x = put({ body: '{ x: 60, y: 40, z: 20 }', features, cuts: '[w]', jaws: '[left, right]', grip: 12 });
    const [q] = squeezedIn(x, E);
    const p = 1 / x.contact.opposed.areaMm2;
    const deep = 12 - 5;
    near(q!.mmPerN, 2 * ((3 * p * deep ** 4) / (2 * E * 12 ** 3)), 1e-6);
    assert.ok(Number.isFinite(q!.mPaPerN) && q!.mPaPerN > 0);
  });

  it('a frame gives way more the thinner its walls, with the cube', () => {
    const at = (y: number) => {
      const [q, ...more] = squeezedIn(put({ features: window(y), cuts: '[w]' }), E).filter((s) => s.of.feature === 'w');
      assert.ok(q && more.length === 0);
      return q;
    };
    const thin = at(36);
    const thick = at(32);
    near(thin.wallMm, 2);
    near(thick.wallMm, 4);
    near(thin.mmPerN / thick.mmPerN, 8, 1e-9);
    near(thin.mPaPerN / thick.mPaPerN, 4, 1e-9);
    // By hand: 600 mm² pressed over 10 of the wall’s 20 mm of height, two walls.
    near(thin.mmPerN, 2 * stripMm((1 / 600) * (10 / 20), 40, 2, E), 1e-9);
  });

  it('what stands above the jaws is not pressed', () => {
    const features =
      '  w: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 40, y: 36 }, corner-radius: 4, depth: 9 }\n';
    assert.deepEqual(squeezedIn(put({ features, cuts: '[w]' }), E), []);
    assert.equal(squeezedIn(put({ features: features.replace('depth: 9', 'depth: 12'), cuts: '[w]' }), E).length, 1);
  });

  it('a tube is a ring pressed along two lines, a bore in a block is not', () => {
    const tube = put({
      body: '{ diameter: 60, length: 20, axis: z }',
      features: '  b: { kind: hole, face: top, at: { x: 30, y: 30 }, diameter: 54, depth: through }\n',
      cuts: '[b]',
    });
    const q = squeezedIn(tube, E).find((s) => s.of.feature === 'b')!;
    assert.equal(q.as, 'ring');
    // Held by 10 of its 20 mm: all of it bends, 20 mm high.
    near(q.mmPerN, ringMm(1 / 20, 28.5, 3, E));
    const block = put({
      body: '{ x: 90, y: 40, z: 20 }',
      features: '  b: { kind: hole, face: top, at: { x: 45, y: 20 }, diameter: 12, depth: through }\n',
      cuts: '[b]',
    });
    assert.equal(squeezedIn(block, E)[0]!.as, 'strip');
    assert.ok(squeezedIn(block, E)[0]!.mmPerN * 15_000 < 0.003, 'a block is not squeezed');
  });
});

describe('pushing and holding', () => {
  it('clamping force from the push: S · F / (2 μ) and back', () => {
    // 1 kN against plain jaws of 0.1, twice over: 10 kN.
    near(clampFor(1000, 0.1, 2), 10_000);
    near(frictionN(clampFor(800, 0.12, 2.5), 0.12), 2.5 * 800);
  });

  it('no cut of a set-up pushes harder than the bound of its shop', () => {
    const features = `  w: { kind: pocket, face: top, at: { x: 45, y: 30 }, size: { x: 60, y: 40 }, corner-radius: 10, depth: 20 }
  s: { kind: slot, face: top, ends: [{ x: 10, y: 5 }, { x: 80, y: 5 }], width: 6, depth: 5 }
  l: { kind: step, face: top, along: right, width: 8, depth: 18 }
  c: { kind: chamfer, edges: [top], size: 2 }
`;
    for (const name of ['aluminium-6061-t6', 'steel-c45', 'pom-c']) {
      const x = put({ body: '{ x: 90, y: 60, z: 40 }', features, cuts: '[w, s, l, c]', tail: `material: ${name}\n` });
      const push = heaviestOf(x.inTime, { part: x.made.part, solid: x.made.solid, shop });
      assert.ok(push && push.forceN > 50, `${name}: nothing pushes`);
      const most = mostForceN(shop, machineOf(x.inTime.setup, shop)!, findMaterial(name)!);
      assert.ok(push.forceN <= most, `${name}: ${push.forceN} over ${most}`);
      assert.equal(heaviestOf(x.inTime, { part: x.made.part, solid: x.made.solid, shop }, most), undefined);
    }
  });
});
