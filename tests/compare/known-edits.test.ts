/** Parts drawn at random, each with a known edit: it is named rightly, and nothing else is; what is only said otherwise is no change. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { changeLines } from '../../server/src/compare/lines';
import { partChange } from '../../server/src/compare/part';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { drawnPart, EDITS, type PartData, SAME, textOf } from './edits';

const RUNS = Number(process.env.SCRIBELINE_COMPARED ?? 1);
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
          assert.doesNotMatch(changeLines({ path: 'p', change }).join('\n'), /\[object|undefined/);
        }),
        { numRuns: RUNS, seed: 160 + i },
      );
    });
});

/** Those that touch nothing that another touches. */
const apart = (one: (typeof EDITS)[number], other: (typeof EDITS)[number]) => {
  const keys = ({ features = {}, part = [], setups = [] }: typeof one) => [
    ...Object.keys(features),
    ...part,
    ...setups,
  ];
  const plain = ({ name }: typeof one) => !/name|more|less/.test(name);
  // `stock form` and `stock extra left` are of one field, which each edit writes anew.
  const field = (key: string) => key.split(' ')[0];
  return plain(one) && plain(other) && !keys(one).some((k) => keys(other).some((o) => field(o) === field(k)));
};

describe('known edits together', function () {
  this.timeout(300_000);
  it('two at once: both, and nothing else', () => {
    const pair = fc
      .tuple(fc.constantFrom(...EDITS), fc.constantFrom(...EDITS))
      .filter(([one, other]) => apart(one, other));
    fc.assert(
      fc.property(drawnPart, pair, (data, [one, other]) => {
        const change = partChange(read(data), read(other.edit(one.edit(data))));
        assert.deepEqual(Object.fromEntries(change.features.map((f) => [f.name, f.kinds])), {
          ...one.features,
          ...other.features,
        });
        assert.deepEqual(
          [...change.part, ...change.setups].map((d) => d.what).sort(),
          [one, other].flatMap(({ part = [], setups = [] }) => [...part, ...setups]).sort(),
        );
      }),
      { numRuns: 4 * RUNS, seed: 360 },
    );
  });

  it('cover every kind of change that a review is told of', () => {
    const kinds = new Set(EDITS.flatMap(({ features = {} }) => Object.values(features).flat()));
    assert.deepEqual([...kinds].sort(), ['added', 'changed', 'gone', 'moved', 'renamed', 'resized', 'tolerance']);
    const told = EDITS.flatMap(({ part = [], setups = [] }) => [...part, ...setups]).join('\n');
    for (const what of [/^material/m, /^stock/m, /^body/m, /^general tolerance/m, /^position/m, /^datum/m, /^set-ups/m])
      assert.match(told, what);
    for (const what of [/hold/, /zero/, /tools/, /cuts/]) assert.match(told, what);
    for (const what of ['a fit', 'a thread', 'a pattern’s pitch']) assert.ok(EDITS.some((e) => e.name === what));
    for (const what of ['its text turned round', 'numbers to parameters', 'inches in a place']) assert.ok(what in SAME);
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
