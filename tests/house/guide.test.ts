/** The contributors' guide names what is there: each path and each npm script. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const ROOT = resolve(__dirname, '../..');
const GUIDE = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
/** Paths are written from the root, from the source, or from the floor that is spoken of; rules by their names. */
const FROM = ['.', ...['', 'rules', 'process', 'geometry', 'model'].map((floor) => `server/src/${floor}`)];
/** A block of a text, and what only a run of the editor's suite writes. */
const NO_PATHS = new Set(['features/mount', 'tests/artefacts']);
/** Places for names to be put in. */
const BLANK = /[A-Z]{4,}|\*|…|\.tmp$/;

describe('the guide for contributors', () => {
  it('names paths that are there', () => {
    const words = [...GUIDE.matchAll(/`([^`\s]+)`/g)].map((m) => m[1]!);
    const paths = words.filter((w) => /^[\w.-]+\/[\w./-]*$/.test(w) && !BLANK.test(w) && !NO_PATHS.has(w));
    assert.ok(paths.length > 60, `${paths.length} paths are seen`);
    const gone = paths.filter(
      (p) => !FROM.some((from) => existsSync(join(ROOT, from, p)) || existsSync(join(ROOT, from, `${p}.ts`))),
    );
    assert.deepEqual(gone, []);
  });

  it('names npm scripts that are there', () => {
    const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { scripts: object };
    const named = [...GUIDE.matchAll(/npm (?:run )?([a-z][\w:-]*)/g)].map((m) => m[1]!);
    const own = new Set(['ci', 'install']);
    assert.deepEqual(
      [...new Set(named)].filter((n) => !(n in scripts) && !own.has(n)),
      [],
    );
  });
});
