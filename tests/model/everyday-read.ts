/** What the tests of everyday words share: the lines that each fix of what cannot be read makes of a text, no rule run. */
import assert from 'node:assert/strict';
import { resolvePart } from '../../server/src/model/part';
import { fromSpecProblem } from '../../server/src/rules/run';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';

interface Told {
  readonly message: string;
  /** The new lines by each fix. */
  readonly ways: readonly (readonly string[])[];
  readonly texts: readonly string[];
  readonly isEqual: boolean;
}

export function read(text: string): readonly Told[] {
  const tree = readText(text);
  const before = text.split('\n');
  return resolvePart(tree).problems.map((problem) => {
    const { message, fixes = [] } = fromSpecProblem(problem, tree);
    const texts = fixes.map((fix) => applyEdits(text, locateEdits(tree, fix.edits)));
    const ways = texts.map((after) => after.split('\n').flatMap((l) => (before.includes(l) ? [] : [l.trim()])));
    return { message, ways, texts, isEqual: fixes.length > 1 && fixes.every((fix) => fix.equal === true) };
  });
}

/** The one thing told: plainly, short, with its ways equal where there are several, each of which can be read. */
export function onlyOne(text: string): Told {
  const all = read(text);
  const [one] = all;
  assert.ok(one && all.length === 1, JSON.stringify(all.map((t) => t.message)));
  assert.doesNotMatch(one.message, /takes a map|has no field.*Delete it|and more/);
  assert.ok(one.message.split(/\s+/).length <= 40, one.message);
  assert.equal(one.isEqual, one.ways.length > 1, one.message);
  for (const after of one.texts)
    assert.deepEqual(
      resolvePart(readText(after)).problems.map((p) => p.message),
      [],
      after,
    );
  return one;
}
