/** Reading by blocks against reading the whole, and reading again against reading anew. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readText, readWhole } from '../../server/src/text/read';
import { changed, changes, documents, PART, plain, said } from './samples';

const RUNS = Number(process.env.RUNS ?? 1);
const seed = { seed: Number(process.env.SEED ?? 20261), numRuns: 100 * RUNS };

/** What must hold between the two ways to read, whatever the text. */
function agree(text: string): void {
  const split = readText(text);
  const whole = readWhole(text);
  const broken = [...split.problems, ...whole.problems].some((p) => !HARMLESS.has(p.code));
  assert.equal(
    split.problems.filter((p) => !HARMLESS.has(p.code)).length > 0,
    whole.problems.filter((p) => !HARMLESS.has(p.code)).length > 0,
    `one way finds fault, the other none:\n${said(split).join('\n')}\n--\n${said(whole).join('\n')}`,
  );
  if (broken) return;
  assert.deepEqual(plain(split), plain(whole));
  assert.deepEqual(said(split), said(whole));
}
/** What leaves the reading as it is. After anything else the two ways may differ in what they could still make out. */
const HARMLESS = new Set(['duplicate-key', 'anchor', 'tag', 'merge-key', 'key', 'surrogate']);

describe('reading by blocks', function () {
  this.timeout(120_000);

  it('reads a real part as the whole reading does, and cuts it at its entries', () => {
    agree(PART);
    const tree = readText(PART);
    assert.deepEqual(tree.problems, []);
    assert.ok(tree.blocks.has('features/mount') && tree.blocks.has('setups/first') && tree.blocks.has('accept'));
  });

  it('agrees with the whole reading on made-up documents', () => {
    fc.assert(fc.property(documents, agree), seed);
  });

  it('agrees with the whole reading on damaged documents', () => {
    const damaged = fc.tuple(fc.oneof(documents, fc.constant(PART)), fc.array(changes, { minLength: 1, maxLength: 3 }));
    fc.assert(
      fc.property(damaged, ([text, all]) => agree(all.reduce(changed, text))),
      { ...seed, numRuns: 150 * RUNS },
    );
  });

  it('reads the same again after edits as anew', () => {
    const edited = fc.tuple(fc.oneof(documents, fc.constant(PART)), fc.array(changes, { minLength: 1, maxLength: 8 }));
    fc.assert(
      fc.property(edited, ([text, all]) => {
        let tree = readText(text);
        for (const change of all) {
          tree = readText(changed(tree.text, change), tree);
          const anew = readText(tree.text);
          assert.deepEqual(plain(tree), plain(anew));
          assert.deepEqual(said(tree), said(anew));
          assert.deepEqual([...tree.blocks], [...anew.blocks]);
        }
      }),
      { ...seed, numRuns: 40 * RUNS },
    );
  });
});
