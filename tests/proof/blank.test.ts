/**
 * A part cut from another part's body: generated parts as blanks, in each of the 24 turns, against the exact kernel's
 * volume, against the blank's own answer for points (carried over by `turn.ts`), and against the same part in a plain block.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parse, stringify } from 'yaml';
import { solidOf, solidOfVolumes } from '../../server/src/geometry/part-solid';
import { stockVolumeMm3 } from '../../server/src/geometry/stock-volume';
import type { Vec3 } from '../../server/src/geometry/types';
import { resolvePart } from '../../server/src/model/part';
import { isMaterial, timelineOf } from '../../server/src/process/stock';
import { readText } from '../../server/src/text/read';
import type { Others } from '../../server/src/text/tree';
import { exactPart } from '../oracle/exact';
import { partTexts } from './parts';
import { AXES, type FaceName, handOf, TURNS, type Turn, turnedFace, turnedPoint } from './turn';

const runs = Number(process.env.PROOF_RUNS ?? 1);
const seed = Number(process.env.PROOF_SEED ?? 0);
const FACES = ['left', 'right', 'front', 'back', 'bottom', 'top'] as const;
const BLANK_TURNS = TURNS.filter((t) => handOf(t) > 0);

const beside = (text: string): Others => new Map([['b.part.yaml', { path: '/b.part.yaml', text, others: new Map() }]]);

/** A block of 2 mm less each way: 1 mm of the blank outside it at left, front and bottom. */
function cutFrom(size: readonly number[], turn: Turn): string {
  const there = (face: FaceName) => FACES.find((f) => turnedFace(turn, f) === face)!;
  const body = Object.fromEntries(AXES.map((a, i) => [a, Number((size[i]! - 2).toFixed(6))]));
  const turned = { top: there('top'), front: there('front') };
  const stock = { form: 'blank', from: 'b.part.yaml', turned, extra: { left: 1, front: 1, bottom: 1 } };
  return stringify({ part: 'p', material: 'aluminium-6061-t6', body, stock });
}

describe('proof: a blank is the other part’s body', function () {
  this.timeout(runs > 1 ? 3_600_000 : 120_000);

  it('in volume, point by point, and as the exact kernel builds it', async () => {
    assert.equal(BLANK_TURNS.length, 24);
    let exact = 0;
    await fc.assert(
      fc.asyncProperty(
        partTexts(3),
        fc.nat(23),
        fc.infiniteStream(fc.double({ min: 0.002, max: 0.998 })),
        async ({ text }, pick, any) => {
          const turn = BLANK_TURNS[pick]!;
          const blank = resolvePart(readText(text));
          const size = [0, 0, 0];
          for (const [i, a] of AXES.entries()) size[AXES.indexOf(turn[a].to)] = blank.size[i]!;
          const part = resolvePart(readText(cutFrom(size, turn), undefined, beside(text)));
          assert.deepEqual(part.problems, [], text);
          const own = solidOf(blank);
          const { stock } = timelineOf(part, solidOf(part));
          for (const i of [0, 1, 2] as const) {
            assert.ok(Math.abs(stock.body.box.min[i] + 1) < 1e-9);
            assert.ok(Math.abs(stock.body.box.max[i] - size[i]! + 1) < 1e-9);
          }
          const extent = { x: blank.size[0], y: blank.size[1], z: blank.size[2] };
          for (let n = 0; n < 60; n++) {
            const p = blank.size.map((mm) => mm * any.next().value!) as unknown as Vec3;
            const q = turnedPoint(turn, p, extent).map((mm) => mm - 1) as unknown as Vec3;
            assert.equal(isMaterial(stock, q), own.isMaterial(p), `${p} in ${text}`);
          }
          const laid = solidOfVolumes(stock).measures;
          assert.equal(stockVolumeMm3(part), own.measures.volumeMm3);
          if (!laid.exact || !own.measures.exact) return;
          assert.ok(Math.abs(laid.volumeMm3 - own.measures.volumeMm3) < 2e-6 * own.measures.volumeMm3, text);
          const kernel = await exactPart(stock).catch(() => undefined);
          if (!kernel) return;
          assert.ok(Math.abs(kernel.volumeMm3 - laid.volumeMm3) < 2e-6 * laid.volumeMm3, text);
          kernel.release();
          exact++;
        },
      ),
      { numRuns: 8 * runs, seed: 131 + seed, endOnFailure: !process.env.PROOF_SHRINK },
    );
    assert.ok(exact > 0);
  });

  it('leaves nothing to cut of features that it has, and all of those that it has not', () => {
    fc.assert(
      fc.property(partTexts(3), fc.boolean(), ({ text }, has) => {
        const whole = parse(text) as Record<string, unknown>;
        const { features, ...plain } = whole;
        const named = Object.keys((features ?? {}) as object);
        const { stock: _, setups: __, ...rest } = whole;
        const blank = stringify(has ? { ...rest } : { ...plain, stock: undefined, setups: undefined });
        const made = stringify({ ...rest, stock: { form: 'blank', from: 'b.part.yaml' }, setups: {} });
        const part = resolvePart(readText(made, undefined, beside(blank)));
        const solid = solidOf(part);
        const left = timelineOf(part, solid).unassigned.map((u) => (typeof u === 'string' ? u : u.name));
        const cut = named.filter((name) => solid.voidsOf(name).some((v) => solid.insideMm3(v) > 0.1));
        if (has) assert.deepEqual(left, [], made);
        else for (const name of cut) assert.ok(left.includes(name), `${name} in ${made}`);
      }),
      { numRuns: 12 * runs, seed: 132 + seed, endOnFailure: !process.env.PROOF_SHRINK },
    );
  });
});
