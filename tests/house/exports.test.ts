/** What is exported is used by another file. A test alone is no user, but for what it can only see from inside. */
import assert from 'node:assert/strict';
import { SEAMS } from './seams';
import { theSource } from './source';

/** Called by name from outside: the editor's extension host, the runner of its test suite, and who asks the built program again and again. */
const CALLED_FROM_OUTSIDE = new Set([
  'client/src/extension.ts#activate',
  'client/src/extension.ts#deactivate',
  'client/web/extension.ts#activate',
  'client/web/extension.ts#deactivate',
  'server/src/cli.ts#runIn',
  'tests/editor/suite/index-in-browser.ts#run',
  'tests/editor/suite/index.ts#run',
  // In the place of Node's, by the bundle for a browser.
  'tests/editor/suite/strict.ts#strict',
]);

function users(): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const { file, target, names } of theSource().imports) {
    for (const name of names) {
      const key = `${target}#${name}`;
      found.set(key, [...(found.get(key) ?? []), file]);
    }
  }
  return found;
}

describe('exports', function () {
  this.timeout(120_000);
  let unused: string[] = [];
  let onlyTests: string[] = [];
  before(() => {
    const used = users();
    const keys = new Set(
      theSource()
        .exports.filter(({ file }) => !/\.d\.mts$/.test(file))
        .map(({ file, name }) => `${file}#${name}`),
    );
    assert.ok(keys.size > 1500);
    for (const key of keys) {
      const file = key.slice(0, key.indexOf('#'));
      const by = [...(used.get(key) ?? []), ...(used.get(`${file}#*`) ?? [])].filter((f) => f !== file);
      if (by.length === 0 && !CALLED_FROM_OUTSIDE.has(key)) unused.push(key);
      else if (!file.startsWith('tests/') && by.length > 0 && by.every((f) => f.startsWith('tests/')))
        onlyTests.push(key);
    }
    unused = unused.sort();
    onlyTests = onlyTests.sort();
  });

  it('have a user', () => {
    assert.deepEqual(unused, []);
  });

  it('have one beside the tests, or a reason why the tests look inside', () => {
    const listed = new Set(Object.values(SEAMS).flat());
    assert.deepEqual(
      onlyTests.filter((key) => !listed.has(key)),
      [],
      'used by tests only',
    );
  });

  it('are listed as seams only while tests alone use them', () => {
    const there = new Set(onlyTests);
    const listed = Object.values(SEAMS).flat();
    assert.deepEqual(
      listed.filter((key) => !there.has(key)),
      [],
      'take these out of seams.ts',
    );
    assert.equal(new Set(listed).size, listed.length);
  });
});
