/** Work levered out of the jaws: the closed forms against statics worked through by search, and against sums over the jaws. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Block, blockOf, cornerMm, tipsAt } from '../../../server/src/process/workholding/prying';
import { near, put } from './bench';

/**
 * The largest push across the jaws for which some forces balance it. The jaw that is pushed against touches anywhere within
 * the grip, the other presses evenly; friction up or down at both, no more than μ times what presses there. The block as a
 * beam in the plane: the sum of forces sideways and upright, and of moments about the top edge of the one jaw.
 */
function mostAcross(high: number, { gripMm: g, wideMm: b }: Block, clamp: number, mu: number): number {
  let most = Number.POSITIVE_INFINITY;
  // Toward the fixed jaw, whose force then grows; toward the moving jaw, when the fixed one has less to press.
  for (const toward of ['fixed', 'moving'] as const) {
    const balanced = (push: number) => {
      const near = toward === 'fixed' ? clamp + push : clamp;
      const far = toward === 'fixed' ? clamp : clamp - push;
      if (far < 0) return false;
      for (let i = 0; i <= 40; i++) {
        const touch = (g * i) / 40;
        // Upright the two frictions cancel: nothing else pulls down.
        const friction = Math.min(mu * near, mu * far);
        for (const t of [-friction, 0, friction]) {
          const rest = push * high + near * touch - far * (g / 2) - t * b;
          const more = friction * b;
          if (Math.abs(rest) < 1e-6 || (t === 0 && Math.abs(rest) <= more)) return true;
        }
      }
      return false;
    };
    let [low, top] = [0, 2 * clamp];
    for (let n = 0; n < 60; n++) {
      const mid = (low + top) / 2;
      if (balanced(mid)) low = mid;
      else top = mid;
    }
    most = Math.min(most, low);
  }
  return most;
}

/** Friction of both jaws about one lower end of what they touch, summed over small squares. */
function mostAlong(high: number, { gripMm: g, longMm: l }: Block, clamp: number, mu: number): number {
  const N = 200;
  let sum = 0;
  for (let i = 0; i < N; i++) for (let j = 0; j < N; j++) sum += Math.hypot(((i + 0.5) / N) * l, ((j + 0.5) / N) * g);
  return (2 * mu * clamp * (sum / N ** 2)) / (high + g);
}

const blocks = fc.record({
  gripMm: fc.integer({ min: 3, max: 30 }),
  wideMm: fc.integer({ min: 5, max: 100 }),
  longMm: fc.integer({ min: 5, max: 100 }),
  offMm: fc.constant(0),
});

describe('prying', () => {
  it('by hand: 15 kN, 10 mm of grip, 40 mm wide, friction 0.1, pushed 20 mm up', () => {
    const { acrossN } = tipsAt(20, { gripMm: 10, wideMm: 40, longMm: 60, offMm: 0 }, 15_000, 0.1);
    // (15 000 − P) · (5 + 4) = 20 P
    near(acrossN, (15_000 * 9) / 29);
  });

  it('across the jaws: as the largest push that any forces at the jaws balance', () => {
    fc.assert(
      fc.property(blocks, fc.integer({ min: 1, max: 80 }), fc.constantFrom(0.08, 0.1, 0.35), (block, high, mu) => {
        const { acrossN } = tipsAt(high, block, 15_000, mu);
        near(acrossN, mostAcross(high, block, 15_000, mu), 1e-3);
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  it('along the jaws: as friction summed over what they touch', () => {
    fc.assert(
      fc.property(blocks, fc.integer({ min: 1, max: 80 }), (block, high) => {
        const { alongN } = tipsAt(high, block, 15_000, 0.1);
        near(alongN, mostAlong(high, block, 15_000, 0.1), 1e-3);
      }),
      { numRuns: 20, seed: 3 },
    );
  });

  it('the mean way from a corner: of a square, and of a line', () => {
    // (√2 + asinh 1) / 3 of the side.
    near(cornerMm(10, 10), (10 * (Math.SQRT2 + Math.asinh(1))) / 3, 1e-9);
    near(cornerMm(80, 1e-6), 40, 1e-6);
  });

  it('a deeper grip, a lower cut, a harder vise and more friction each hold more', () => {
    fc.assert(
      fc.property(blocks, fc.integer({ min: 2, max: 80 }), (block, high) => {
        const least = (b: Block, h: number, f: number, mu: number) => {
          const { acrossN, alongN } = tipsAt(h, b, f, mu);
          return Math.min(acrossN, alongN);
        };
        const now = least(block, high, 15_000, 0.1);
        // The same cut on the same work: what more is held stands less above the jaws.
        assert.ok(least({ ...block, gripMm: block.gripMm + 1 }, high - 1, 15_000, 0.1) > now);
        assert.ok(least(block, high - 1, 15_000, 0.1) > now);
        assert.ok(least(block, high, 16_000, 0.1) > now);
        assert.ok(least(block, high, 15_000, 0.12) > now);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it('what the jaws share along them, and how far it is from the end', () => {
    const whole = blockOf(put({}));
    near(whole.longMm, 60);
    near(whole.offMm, 0);
    // Longer than the jaws: they end 25 mm from each end of it.
    const long = blockOf(put({ body: '{ x: 150, y: 40, z: 20 }' }));
    near(long.longMm, 100);
  });
});
