/**
 * The words of the pages that are read first: README, the page of the format and the page for developers, in plain words
 * and short sentences. Code and names between backquotes are names; blocks of code are left out.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { faultsOfText } from './terms';

const ROOT = resolve(__dirname, '../../..');

/** Paragraph by paragraph, items and cells by themselves; of the values a field may have each with its meaning. */
function textsIn(path: string): readonly string[] {
  const prose = readFileSync(join(ROOT, path), 'utf8')
    .replace(/```[\s\S]*?```/g, '')
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/\*+(?=\S)|(?<=\S)\*+/g, '');
  return prose
    .split(/\n\s*\n|\n(?=\||- |\d\. |#)/)
    .map((paragraph) => paragraph.replace(/\s+/g, ' '))
    .flatMap((text) => (text.startsWith('|') ? text.split(/(?<!\\)\||; (?=`)|(?<=\.) (?=`[\w ]+`: )/) : [text]));
}

describe('the pages that are read first', () => {
  for (const [path, least] of [
    ['README.md', 40],
    ['schemas/FORMAT.md', 2000],
    ['DEVELOPERS.md', 150],
  ] as const)
    it(`${path} is in plain words and short sentences`, () => {
      const texts = textsIn(path);
      assert.ok(texts.length > least, `${texts.length} texts`);
      assert.deepEqual(texts.flatMap(faultsOfText), []);
    });
  for (const name of ['findings', 'part', 'plan', 'shop'])
    it(`the walkthrough’s ${name} is in plain words and short sentences`, () =>
      assert.deepEqual(textsIn(`client/walkthrough/${name}.md`).flatMap(faultsOfText), []));
  it('so are the titles and settings of the editor', () => {
    const { contributes, description } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
    const texts: string[] = [description];
    JSON.stringify(contributes, (key, value) => {
      if (/title|escription|altText/.test(key) || key === '0' || key === '1')
        if (typeof value === 'string') texts.push(value.replace(/\[([^\]]*)\]\([^)]*\)/g, '$1'));
      return value;
    });
    assert.ok(texts.length > 50, `${texts.length} texts`);
    assert.deepEqual(texts.flatMap(faultsOfText), []);
  });
});
