/** Characters that do not show: told a line each, in all three documents, and what is spelling is left alone. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkJob, checkPart, checkShop, fixesFor } from '../../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../../server/src/text/edit';

const PART = (title: string, comment = '') =>
  `part: cover\ntitle: ${title}\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 12 } # ${comment}\nfeatures: {}\n`;
const found = (text: string) => {
  const checked = checkPart(text, builtinShop());
  return { checked, hidden: checked.findings.filter((f) => f.rule === 'form/hidden-character') };
};

describe('form/hidden-character', () => {
  it('is told where it stands, once a line, with what it is', () => {
    const { checked, hidden } = found(PART('a\u200bb\u200b', '\u202e6\u202c'));
    assert.deepEqual(
      hidden.map((f) => [checked.tree.locate(f.span).start, f.facts.characters, f.facts.count]),
      [
        [20, 'U+200B', 2],
        [PART('a\u200bb\u200b', '\u202e6\u202c').indexOf('\u202e'), 'U+202E U+202C', 2],
      ],
    );
    assert.match(hidden[1]!.message, /U\+202E.*turns the following letters around/);
  });

  it('is deleted; in a comment that changes nothing of the part, in a name it may', () => {
    const text = PART('a\u200bb\u200b', 'deep \u202e6\u202c');
    const { checked, hidden } = found(text);
    const [name, comment] = hidden.map((f) => fixesFor(checked, f)[0]!);
    assert.deepEqual([name?.safe, comment?.safe], [false, true]);
    const mended = (fix: NonNullable<typeof name>) => applyEdits(text, locateEdits(checked.tree, fix.edits));
    assert.equal(mended(name!), PART('ab', 'deep \u202e6\u202c'));
    assert.equal(mended(comment!), PART('a\u200bb\u200b', 'deep 6'));
  });

  it('letters, pictures and words that read right to left are no business of it', () => {
    for (const words of ['Größe ø ±0.1 “fine” 漢字', '👨‍👩‍👧 ❤️ 1️⃣', 'می‌خواهم', 'שלום\u200f (A)', '\u00a0', '"\\u202e"'])
      assert.deepEqual(found(PART(words, words)).hidden, [], words);
    assert.deepEqual(found(`\ufeff${PART('a')}`).hidden, [], 'the mark of byte order begins a file');
    assert.equal(found(PART('a\ufeff')).hidden.length, 1);
    assert.equal(found(PART('a\u200f')).hidden.length, 1);
  });

  it('is told in a shop and in a job too, and no more than fifty times', () => {
    const rules = (findings: readonly { rule: string }[]) =>
      findings.filter((f) => f.rule === 'form/hidden-character').length;
    assert.equal(rules(checkShop('shop: a # \u202e\nunits: mm\n').findings), 1);
    assert.equal(rules(checkJob('job: a # \u2066\nparts: {}\n').findings), 1);
    assert.equal(found(`${PART('a')}${'# \u200b\n'.repeat(500)}`).hidden.length, 50);
  });
});
