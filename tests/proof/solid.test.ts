/**
 * The fast path against the exact kernel: generated parts of every feature kind, cut by Open CASCADE from planes,
 * cylinders, cones and tori. Volume and centre of gravity, lumps, and what is material.
 *
 * `PROOF_RUNS=40` draws forty times as many parts, `PROOF_SEED` others; `PROOF_SHRINK=1` makes a failing one smaller.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { ExactError } from '../../server/src/export/exact/kernel';
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Solid, Vec3 } from '../../server/src/geometry/types';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';
import { type ExactPart, exactKernel, exactPart } from '../oracle/exact';
import { lumpsOf, pointOff } from './kernel';
import { partTexts } from './parts';

const runs = Number(process.env.PROOF_RUNS ?? 1);
const seed = Number(process.env.PROOF_SEED ?? 1729);
/** What a volume may be off by, of the part's own. */
const RELATIVE = 1e-6;
/** Points closer to a surface than this, mm, may be told either way. */
const SKIN = 1e-3;

const solidFrom = (text: string) => solidOf(resolvePart(readText(text)));
/** The exact solid; undefined where the kernel gives up or its own check says that the boundary is not sound. */
async function exactOf(solid: Solid): Promise<ExactPart | undefined> {
  try {
    const made = await exactPart(solid);
    if (made.valid) return made;
    made.release();
  } catch (error) {
    if (!(error instanceof ExactError)) throw error;
  }
  return undefined;
}

describe('the fast path against the exact kernel', function () {
  this.timeout(20_000 + 60_000 * runs * (runs > 1 ? 10 : 1));

  it('volume, centre, lumps and material of generated parts', async () => {
    const oc = await exactKernel();
    const tally = { drawn: 0, compared: 0, near: 0 };
    await fc.assert(
      fc.asyncProperty(
        partTexts(runs > 1 ? 3 : 2),
        fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
        async (part, dice) => {
          tally.drawn++;
          const solid = solidFrom(part.text);
          const exact = await exactOf(solid);
          if (!exact) return;
          try {
            const { volumeMm3, centroid, exact: sure } = solid.measures;
            assert.ok(volumeMm3 >= 0 && volumeMm3 <= part.size.x * part.size.y * part.size.z * (1 + 1e-9));
            if (sure) {
              tally.compared++;
              const whole = exact.volumeMm3;
              assert.ok(Math.abs(volumeMm3 - whole) <= RELATIVE * whole, `volume ${volumeMm3}, exactly ${whole}`);
              for (const a of [0, 1, 2] as const) {
                const size = solid.body.box.max[a];
                const off = Math.abs(centroid[a] - exact.centroid[a]);
                assert.ok(off <= 2 * RELATIVE * size, `centre ${centroid}, exactly ${exact.centroid}`);
              }
            } else tally.near++;
            // chips of less than 0.5 mm³ are no lumps of ours, and about that much they may be told either way
            const lumps = lumpsOf(oc, exact.shape).filter((mm3) => mm3 > 0.4);
            const doubtful = lumps.some((mm3) => mm3 < 0.6);
            // where sections could not be followed one lump is told: never a false alarm
            assert.ok(solid.pieces <= Math.max(1, lumps.length), `${solid.pieces} lumps, exactly ${lumps}`);
            if (!doubtful && !part.text.includes('tilt'))
              assert.equal(solid.pieces, lumps.length, `lumps exactly ${lumps}`);
            for (let n = 0; n < 12; n++) {
              const at = [0, 1, 2].map((a) => solid.body.box.max[a as 0]! * dice.next().value!) as unknown as Vec3;
              const ours = solid.isMaterial(at);
              if ([0, 1, 2].some((a) => [-SKIN, SKIN].some((d) => solid.isMaterial(moved(at, a, d)) !== ours)))
                continue;
              assert.equal(ours, pointOff(oc, at, exact.shape) < 1e-9, `material at ${at}`);
            }
          } finally {
            exact.release();
          }
        },
      ),
      { seed, numRuns: 4 * runs, endOnFailure: !process.env.PROOF_SHRINK },
    );
    console.log(`      ${tally.compared} of ${tally.drawn} parts compared, ${tally.near} told as near only`);
    assert.ok(tally.compared * 2 > tally.drawn, 'most parts must be compared');
  });

  it('what is told as near only is near: a dovetail slot that winds through a filleted step', async () => {
    const solid = solidFrom(`part: near
units: mm
body: { x: 30, y: 36, z: 27 }
features:
  f1: { kind: step, face: right, along: top, width: 9.23, depth: 2.94, floor-radius: 2.62 }
  f2: { kind: slot, face: front, path: [{ x: 19.2, z: 17.82 }, { x: 5.4, z: 13.77, round: 3 }, { x: 24.3, z: 2.97 }], width: 5, depth: 19.14, dovetail: { angle: 60 } }
`);
    const { volumeMm3, centroid, exact: sure } = solid.measures;
    const exact = (await exactOf(solid))!;
    exact.release();
    const within = sure ? RELATIVE : 5e-3;
    assert.ok(Math.abs(volumeMm3 / exact.volumeMm3 - 1) < within, `${volumeMm3}, exactly ${exact.volumeMm3}`);
    for (const a of [0, 1, 2] as const) assert.ok(Math.abs(centroid[a] - exact.centroid[a]) < 30 * within);
  });
});

function moved(p: Vec3, axis: number, by: number): Vec3 {
  return [0, 1, 2].map((a) => p[a as 0]! + (a === axis ? by : 0)) as unknown as Vec3;
}
