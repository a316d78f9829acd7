/** Theoretical roughness: Ghosh & Mallik, Manufacturing Science, example 4.24, p. 260 (FOSSEE 3250/CH4/EX4.24), and closed forms. */
import assert from 'node:assert/strict';
import {
  cornerRidgeMm,
  endRidgeMm,
  feedForRidgeMm,
  feedForSideMm,
  raOfRidgeUm,
  scallopMm,
  sharpRidgeMm,
  sideRidgeMm,
  stepoverMm,
} from '../../server/src/process/cutting/roughness';
import { near } from './near';

describe('oracle: roughness', () => {
  it('Ghosh & Mallik 4.24: f = 0.125 with r = 0.7 leaves 0.00279 mm; sharp, 30° and 7°, 0.01433 mm', () => {
    near(cornerRidgeMm(0.125, 0.7), 0.00279, 5e-6);
    near(sharpRidgeMm(0.125, 30, 7), 0.01433, 5e-6);
  });

  it('closed forms: a ball R = 5 at 0.5 leaves 0.006254 (0.00625 by s² / 8R), R = 3 and 0.01 want 0.48949', () => {
    near(scallopMm(0.5, 5), 0.006254, 1e-6);
    near(0.5 ** 2 / 8 / 5, 0.00625, 1e-12);
    near(stepoverMm(0.01, 3), 0.48949, 5e-6);
  });

  it('along a side: f = 0.1, D = 10 leaves 0.00025', () => {
    near(sideRidgeMm(0.1, 10), 0.00025, 1e-12);
    near(feedForSideMm(0.00025, 10), 0.1, 1e-12);
  });

  // The mean of a parabola about its own middle is 2 / (9 √3) = 0.128 of its height to each side: 0.257 in all.
  it('Ra is a quarter of the ridge, to 3 %', () => {
    const exact = (1000 * 2 * 2) / (9 * Math.sqrt(3)) / 1;
    near(raOfRidgeUm(1) / exact, 1, 0.03);
  });

  it('the end of a cutter against its own profile, followed point by point', () => {
    // The height of the profile over its tip: an arc of r, then a line that falls away by λ; the next tooth is f further on.
    const profile = (x: number, r: number, deg: number) => {
      const end = (deg * Math.PI) / 180;
      const reach = r * Math.sin(end);
      if (x < 0) return x < -r ? Number.POSITIVE_INFINITY : r - Math.sqrt(r * r - x * x);
      return x <= reach ? r - Math.sqrt(r * r - x * x) : r - r * Math.cos(end) + (x - reach) * Math.tan(end);
    };
    for (const [f, r, deg] of [
      [0.125, 0.7, 7],
      [0.1, 0.4, 1.5],
      [0.05, 0.8, 5],
      [0.3, 0.8, 3],
      [0.02, 1, 1.5],
    ] as const) {
      let highest = 0;
      for (let i = 0; i <= 20000; i++) {
        const x = (f * i) / 20000;
        highest = Math.max(highest, Math.min(profile(x, r, deg), profile(x - f, r, deg)));
      }
      near(endRidgeMm(f, r, deg) / highest, 1, 2e-3, `f ${f} r ${r} ${deg}°`);
    }
  });

  it('turned round, the feed comes back', () => {
    for (const [f, r] of [
      [0.1, 0],
      [0.1, 0.4],
      [0.01, 0.8],
      [0.3, 2],
    ] as const)
      near(feedForRidgeMm(endRidgeMm(f, r, 1.5), r, 1.5), f, 1e-6);
    assert.ok(endRidgeMm(0.2, 0.4, 1.5) > endRidgeMm(0.1, 0.4, 1.5));
  });
});
