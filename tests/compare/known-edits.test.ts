/** Parts drawn at random, each with a known edit: it is named rightly, and nothing else is; what is only said otherwise is no change. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { partChange } from '../../server/src/compare/part';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { drawnPart, EDITS, type PartData, SAME, textOf } from './edits';

const RUNS = Number(process.env.SCRIBELINE_COMPARED ?? 2);
const SHOP = builtinShop();

function read(data: PartData) {
  const checked = checkPart(textOf(data), SHOP);
  // A text that is not understood would be compared by what is left of it.
  assert.deepEqual(
    checked.part.problems.map((p) => p.message),
    [],
  );
  return checked;
}

describe('a known edit', function () {
  this.timeout(300_000);
  for (const [i, { name, edit, features = {}, part = [], setups = [] }] of EDITS.entries())
    it(`${name}: that, and nothing else`, () => {
      fc.assert(
        fc.property(drawnPart, (data) => {
          const change = partChange(read(data), read(edit(data)));
          assert.deepEqual(Object.fromEntries(change.features.map((f) => [f.name, f.kinds])), features);
          assert.deepEqual(
            change.part.map((d) => d.what),
            part,
          );
          assert.deepEqual(
            change.setups.map((d) => d.what),
            setups,
          );
        }),
        { numRuns: RUNS, seed: 160 + i },
      );
    });
});

describe('the same part', function () {
  this.timeout(300_000);
  for (const [i, [name, other]] of Object.entries(SAME).entries())
    it(`${name}: no change`, () => {
      fc.assert(
        fc.property(drawnPart, (data) => {
          const change = partChange(read(data), read(other(data)));
          assert.deepEqual([change.part, change.setups, change.features], [[], [], []]);
          assert.ok(change.same);
          assert.deepEqual(change.figures, []);
          assert.deepEqual([change.findings.raised, change.findings.cured], [[], []]);
        }),
        { numRuns: RUNS, seed: 260 + i },
      );
    });
});
