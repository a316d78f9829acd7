/**
 * Meshes against the closed form, for every feature kind: closed, each triangle on the exact surface that it claims,
 * the volume within what the chord allows, and nearer the finer the chord.
 */
import assert from 'node:assert/strict';
import { KINDS } from './kinds';
import { assertClosed, assertOnSurfaces, meshOf } from './proof';

const COARSE = 0.05;
const FINE = 0.01;

describe('meshes', () => {
  for (const [what, part] of Object.entries(KINDS)) {
    it(what, async () => {
      const errors: number[] = [];
      for (const chord of [COARSE, FINE]) {
        const { solid, shown, volumeMm3, bentMm2 } = await meshOf(part, chord);
        assertClosed(shown);
        assertOnSurfaces(shown, chord);
        const { volumeMm3: exact, exact: isExact } = solid.measures;
        const error = Math.abs(volumeMm3 - exact);
        // A chord of sagitta s leaves two thirds of s on the mean. The grid moves faces by a few 1e-5 mm.
        const allowed = chord * bentMm2 + 3e-6 * exact + (isExact ? 0 : 2e-4 * exact);
        assert.ok(error <= allowed, `chord ${chord}: ${volumeMm3} against ${exact}, allowed ${allowed}`);
        errors.push(error);
      }
      const [coarse, fine] = errors as [number, number];
      assert.ok(fine <= coarse / 2 + 0.05, `${coarse} with a coarse chord, ${fine} with a fine one`);
    });
  }
});
