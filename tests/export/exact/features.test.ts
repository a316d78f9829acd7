/**
 * Every kind of feature as an exact solid: one valid lump, the volume of the closed form, the surfaces it must have. Then
 * as a STEP file, walked by a reader that shares nothing with the kernel.
 */
import assert from 'node:assert/strict';
import { exactMeasures } from '../../../server/src/export/exact/measures';
import { exactSolid } from '../../../server/src/export/exact/solid';
import { stepText } from '../../../server/src/export/exact/step';
import { solidOf } from '../../../server/src/geometry/part-solid';
import { exactKernel } from '../../oracle/exact';
import { boundaryOf, Step } from '../step-reader';
import { CASES } from './cases';

const SURFACE = {
  plane: ['PLANE'],
  cylinder: ['CYLINDRICAL_SURFACE'],
  cone: ['CONICAL_SURFACE'],
  sphere: ['SPHERICAL_SURFACE'],
  torus: ['TOROIDAL_SURFACE'],
  turned: ['DEGENERATE_TOROIDAL_SURFACE'],
} as const;

describe('exact solids', function () {
  // the kernel's code is compiled as it is first used: on a busy machine that takes its time
  this.timeout(60_000);
  before(async function () {
    this.timeout(60_000);
    await exactKernel();
  });

  for (const { name, part, volume, faces } of CASES) {
    it(name, async () => {
      const oc = await exactKernel();
      const shape = exactSolid(oc, solidOf(part));
      try {
        const measures = exactMeasures(oc, shape);
        assert.ok(measures.valid, 'valid');
        assert.equal(measures.solids, 1);
        assert.equal(measures.faces.other, 0, 'exact surfaces only');
        near(measures.volumeMm3, volume, 1e-9);
        for (const [kind, count] of Object.entries(faces)) assert.equal(measures.faces[kind as 'plane'], count, kind);

        const read = boundaryOf(new Step(stepText(oc, shape)));
        assert.deepEqual(read.faults, []);
        assert.equal(read.solids, 1);
        near(read.volume, volume, 1e-6);
        for (const [kind, names] of Object.entries(SURFACE)) {
          const count = names.reduce((sum, n) => sum + (read.faces[n] ?? 0), 0);
          assert.equal(count, measures.faces[kind as 'plane'], kind);
        }
      } finally {
        shape.delete();
      }
    });
  }
});

function near(actual: number, expected: number, relative: number): void {
  assert.ok(Math.abs(actual - expected) <= relative * expected, `${actual}, expected ${expected}`);
}
