/** A fork between jaws that stay parallel: closed forms against beam tables and against a plane frame solved by stiffness. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { forkGives } from '../../../server/src/process/workholding/fork';
import { squeezedIn } from '../../../server/src/process/workholding/squeeze';
import { put } from './bench';

const E = 69_000;

/** These are millionths of a millimetre: compared by their share. */
function near(actual: number, expected: number, share = 1e-9): void {
  assert.ok(Math.abs(actual - expected) <= share * Math.abs(expected) + 1e-15, `${actual} is not ${expected}`);
}
type Fork = Parameters<typeof forkGives>[0];

/**
 * At the free end of a cantilever, one force W at a from that end: W (2 l³ − 3 l² a + a³) / (6 E I) (Roark's Formulas for Stress
 * and Strain, beams, left end free, right end fixed, from memory).
 */
function cantileverMm(forceN: number, fromRootMm: number, l: number, ei: number): number {
  const a = l - fromRootMm;
  return (forceN * (2 * l ** 3 - 3 * l ** 2 * a + a ** 3)) / (6 * ei);
}

/** Gaussian elimination with pivots. */
function solved(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    let p = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(a[r]![i]!) > Math.abs(a[p]![i]!)) p = r;
    [a[i], a[p]] = [a[p]!, a[i]!];
    [b[i], b[p]] = [b[p]!, b[i]!];
    for (let r = i + 1; r < n; r++) {
      const f = a[r]![i]! / a[i]![i]!;
      for (let c = i; c < n; c++) a[r]![c]! -= f * a[i]![c]!;
      b[r]! -= f * b[i]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let c = i + 1; c < n; c++) sum -= a[i]![c]! * x[c]!;
    x[i] = sum / a[i]![i]!;
  }
  return x;
}

interface Beam {
  readonly from: number;
  readonly to: number;
  readonly area: number;
  readonly inertia: number;
}

/** Plane frame of Euler beams by direct stiffness (as in any text on matrix structural analysis): joints x, y; three unknowns each. */
function frame(
  joints: readonly (readonly [number, number])[],
  beams: readonly Beam[],
  fixed: readonly number[],
  load: ReadonlyMap<number, number>,
): number[] {
  const n = joints.length * 3;
  const k = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (const { from, to, area, inertia } of beams) {
    const [p, q] = [joints[from]!, joints[to]!];
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const l = Math.hypot(dx, dy);
    const [c, s] = [dx / l, dy / l];
    const [ea, ei] = [(E * area) / l, E * inertia];
    const own = [
      [ea, 0, 0, -ea, 0, 0],
      [0, (12 * ei) / l ** 3, (6 * ei) / l ** 2, 0, (-12 * ei) / l ** 3, (6 * ei) / l ** 2],
      [0, (6 * ei) / l ** 2, (4 * ei) / l, 0, (-6 * ei) / l ** 2, (2 * ei) / l],
      [-ea, 0, 0, ea, 0, 0],
      [0, (-12 * ei) / l ** 3, (-6 * ei) / l ** 2, 0, (12 * ei) / l ** 3, (-6 * ei) / l ** 2],
      [0, (6 * ei) / l ** 2, (2 * ei) / l, 0, (-6 * ei) / l ** 2, (4 * ei) / l],
    ];
    const turn = (i: number, j: number) => {
      const block = Math.floor(i / 3) === Math.floor(j / 3);
      if (!block) return 0;
      const [a, b] = [i % 3, j % 3];
      if (a === 2 || b === 2) return a === b ? 1 : 0;
      return a === b ? c : a === 0 ? s : -s;
    };
    const at = [0, 1, 2].map((i) => from * 3 + i).concat([0, 1, 2].map((i) => to * 3 + i));
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        let sum = 0;
        for (let u = 0; u < 6; u++) for (let v = 0; v < 6; v++) sum += turn(u, i) * own[u]![v]! * turn(v, j);
        k[at[i]!]![at[j]!]! += sum;
      }
  }
  const b = Array.from({ length: n }, (_, i) => load.get(i) ?? 0);
  for (const i of fixed) {
    for (let j = 0; j < n; j++) {
      k[i]![j] = 0;
      k[j]![i] = 0;
    }
    k[i]![i] = 1;
    b[i] = 0;
  }
  return solved(k, b);
}

/** How much nearer the tips of a U come under two forces that are `awayMm` from the middle line of its bridge. */
function closesMm(f: Fork, awayMm: number, high: number): number {
  const [t, s] = f.armsMm;
  const across = f.gapMm + (t + s) / 2;
  const tip = f.longMm + f.bridgeMm / 2;
  const stiff = 1e6;
  const joints = [
    [0, 0],
    [across, 0],
    [0, awayMm],
    [across, awayMm],
    [0, tip],
    [across, tip],
  ] as const;
  const arm = (x: number) => ({ area: stiff * high * x, inertia: (high * x ** 3) / 12 });
  const bridge = { area: high * f.bridgeMm, inertia: (high * f.bridgeMm ** 3) / 12 };
  const beams = [
    { from: 0, to: 1, ...bridge },
    { from: 0, to: 2, ...arm(t) },
    { from: 1, to: 3, ...arm(s) },
    { from: 2, to: 4, ...arm(t) },
    { from: 3, to: 5, ...arm(s) },
  ];
  const moved = frame(
    joints,
    beams,
    [0, 1, 4],
    new Map([
      [6, 1],
      [9, -1],
    ]),
  );
  return moved[12]! - moved[15]!;
}

describe('a fork between parallel jaws', () => {
  it('beside a bridge that does not give, each arm is a tabled cantilever under one force', () => {
    const [l, t] = [48, 12];
    const inertia = (10 * t ** 3) / 12;
    for (const at of [0, 5, 24, 40, 48]) {
      const f: Fork = { gapMm: 66, armsMm: [t, t], longMm: l, bridgeMm: 1e5, overMm: -at, pressedMm: 10, highMm: 10 };
      const most = cantileverMm(1, l, l, E * inertia);
      const off = forkGives(f, E).tipsMmPerN - 2 * cantileverMm(1, at, l, E * inertia);
      assert.ok(Math.abs(off) < 1e-2 * most, `${at}: ${off} of ${most}`);
    }
    const f: Fork = { gapMm: 66, armsMm: [t, t], longMm: l, bridgeMm: 1e5, overMm: 0, pressedMm: 10, highMm: 10 };
    near(forkGives(f, E).pinchedMmPerN, (2 * l ** 3) / (3 * E * inertia), 1e-9);
  });

  it('short of the bridge: as a frame of stiff-jointed beams does', () => {
    const size = fc.record({
      gapMm: fc.double({ min: 10, max: 90, noNaN: true }),
      t: fc.double({ min: 4, max: 20, noNaN: true }),
      s: fc.double({ min: 4, max: 20, noNaN: true }),
      longMm: fc.double({ min: 20, max: 90, noNaN: true }),
      bridgeMm: fc.double({ min: 4, max: 25, noNaN: true }),
      short: fc.double({ min: 0, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(size, ({ gapMm, t, s, longMm, bridgeMm, short }) => {
        const overMm = -short * longMm;
        // Pressed over all its height nothing spreads, and the frame is one thickness through.
        const f: Fork = { gapMm, armsMm: [t, s], longMm, bridgeMm, overMm, pressedMm: 10, highMm: 10 };
        const { tipsMmPerN, rootMmPerN } = forkGives(f, E);
        // The frame's arms bend from the middle line of the bridge on; ours from its edge on, where its own bending ends.
        const away = bridgeMm / 2 - overMm;
        const whole = closesMm(f, away, 10);
        const joint = [t, s].reduce((sum, x) => {
          const ei = (E * 10 * x ** 3) / 12;
          return sum + cantileverMm(1, away, longMm + bridgeMm / 2, ei) - cantileverMm(1, -overMm, longMm, ei);
        }, 0);
        // Between the arms' middle lines the bridge is longer than the gap by half of each arm.
        const ends = (t + s) / 2 / (E * 10 * bridgeMm);
        const told = tipsMmPerN + joint + ends;
        assert.ok(Math.abs(whole - told) < 2e-3 * whole + 1e-9, `${whole} for ${told}`);
        assert.ok(rootMmPerN < tipsMmPerN + 1e-15);
      }),
      { numRuns: 60, seed: 13 },
    );
  });

  it('over the bridge: it is shorter, F L / (A E), and the arms stay side by side', () => {
    const f: Fork = { gapMm: 56, armsMm: [12, 12], longMm: 50, bridgeMm: 10, overMm: 10, pressedMm: 20, highMm: 20 };
    const { tipsMmPerN, rootMmPerN, mPaPerN } = forkGives(f, E);
    near(tipsMmPerN, 56 / (E * 200), 1e-9);
    assert.equal(tipsMmPerN, rootMmPerN);
    near(mPaPerN, 1 / 200, 1e-9);
    // Half over it the force can go through its middle yet; less, and it bends the bridge by what is missing.
    const over = (mm: number) => forkGives({ ...f, overMm: mm }, E).tipsMmPerN;
    assert.equal(over(5), over(10));
    const bends = (mm: number) => over(mm) - over(5);
    near(bends(2) / bends(4), 3, 1e-9);
  });

  it('a U in the vise: the farther the jaws end short of its bridge, the more it closes', () => {
    // Open at the front, 12 mm arms and a bridge of 8; shorter jaws by pushing the work out at an end that is milled.
    const gap =
      '  w: { kind: pocket, face: top, path: [{ x: 12, y: -1 }, { x: 48, y: -1 }, { x: 48, y: 62 }, { x: 12, y: 62 }], depth: through }\n';
    const at = (deep: number) => {
      const features = `${gap}  s: { kind: step, face: top, along: back, width: ${deep}, depth: 14 }\n`;
      const x = put({ body: '{ x: 60, y: 70, z: 20 }', features, cuts: '[w, s]', jaws: '[left, right]', grip: 12 });
      return squeezedIn(x, E).find((q) => q.of.feature === 'w')!.mmPerN;
    };
    const closes = [4, 10, 20].map(at);
    assert.ok(closes[0]! < closes[1]! && closes[1]! < closes[2]!, closes.join(' '));
  });
});
