/** The contributors' guide names what is there: paths, npm scripts, tests to run, variables, names in the code, figures. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { globSync } from 'tinyglobby';

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

  it('names tests and programs that can be run', () => {
    const named = [...GUIDE.matchAll(/npx (?:mocha|tsx) '?([^\s'`]+)/g)].map((m) => m[1]!);
    assert.ok(named.length > 5, `${named.length} are seen`);
    assert.deepEqual(
      named.filter((pattern) => globSync(pattern, { cwd: ROOT }).length === 0),
      [],
    );
  });

  it('names what stands in the code: variables of the environment, constants, functions, types', () => {
    const files = globSync(['server/**/*.ts', 'client/**/*.ts', 'tests/**/*.ts'], { cwd: ROOT, absolute: true });
    const words = new Set(files.flatMap((file) => readFileSync(file, 'utf8').match(/[\w$]+/g) ?? []));
    const variables = [...GUIDE.matchAll(/\b([A-Z]+_[A-Z_]+)\b/g)].map((m) => m[1]!);
    const code = [...GUIDE.matchAll(/`([A-Za-z]+)(?:\.([a-zA-Z]+))?`/g)].flatMap((m) => [m[1]!, m[2] ?? m[1]!]);
    const names = code.filter((w) => /[a-z][A-Z]|^[A-Z][a-z]/.test(w));
    assert.ok(variables.length > 8 && names.length > 20, `${variables.length} and ${names.length} are seen`);
    assert.deepEqual(
      [...new Set([...variables, ...names])].filter((w) => !words.has(w)),
      [],
    );
  });

  it('has the figures of the code', () => {
    for (const [said, file, ...stands] of FIGURES) {
      assert.ok(GUIDE.replace(/\s+/g, ' ').includes(said), `the guide says no more: ${said}`);
      const code = readFileSync(join(ROOT, file), 'utf8');
      for (const one of stands) assert.match(code, one, `${file}, of which the guide says: ${said}`);
    }
  });
});

/** What the guide says, and the file and words in which it is so. */
const FIGURES: readonly (readonly [said: string, file: string, ...stands: RegExp[]])[] = [
  ['in slices of some 10 ms', 'server/src/service/pace.ts', /SLICE_MS = 10;/],
  ['a rule that six slices do not suffice for', 'server/src/service/judge-soon.ts', /MOST_SLICES = 6;/],
  ['after the 8 ms that a request may do at once', 'server/src/service/pace.ts', /AT_ONCE_MS = 8;/],
  ['makes 20,000 edits', 'tests/fuzz/same-answer.test.ts', /SESSIONS = 2;/, /EDITS = 25;/],
  ['Forty drawn parts', 'tests/simulator/generated.test.ts', /SCRIBELINE_SIMULATE \?\? 40/],
];
