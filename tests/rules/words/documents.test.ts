/**
 * The words of the pages that are read first: README in plain words and short sentences; the page of the format and the
 * page for developers by the same terms. Code and names between backquotes are names.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { faultsOfText } from './terms';

const ROOT = resolve(__dirname, '../../..');

/** Paragraph by paragraph, items and rows of a table by themselves. */
function faultsIn(path: string): readonly string[] {
  const prose = readFileSync(join(ROOT, path), 'utf8')
    .replace(/```[\s\S]*?```/g, '')
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1');
  return prose
    .split(/\n\s*\n|\n(?=\||- |#)/)
    .map((paragraph) => paragraph.replace(/\s+/g, ' '))
    .flatMap(faultsOfText);
}

describe('the pages that are read first', () => {
  it('README.md is in plain words and short sentences', () => assert.deepEqual(faultsIn('README.md'), []));
  for (const path of ['schemas/FORMAT.md', 'DEVELOPERS.md'])
    it(`${path} keeps to one word for one thing`, () =>
      assert.deepEqual(
        faultsIn(path).filter((fault) => fault.startsWith('term:')),
        [],
      ));
});
