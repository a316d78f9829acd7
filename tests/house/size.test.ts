/** A file is read in one sitting, a function in one look. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, theSource } from './source';

/** Functions that are still too long, and those that still take too much: the numbers may only fall. */
const STILL_LONG = 2;
const STILL_WIDE = 4;
/** Files let off the bound on cognitive complexity (`biome.json`). */
const STILL_TANGLED = 3;
const MOST_LINES = 60;
const MOST_PARAMETERS = 5;

const ours = (file: string) => /^(?:server|client)\//.test(file);

describe('sizes', function () {
  this.timeout(120_000);

  it('files have 90 lines in the middle, nine of ten up to 200, none over 400', () => {
    const files = theSource().files.filter((f) => f.startsWith('server/src/'));
    const lines = files.map((f) => readFileSync(join(ROOT, f), 'utf8').split('\n').length - 1).sort((a, b) => a - b);
    const share = (x: number) => lines[Math.floor(x * (lines.length - 1))]!;
    assert.ok(files.length > 300);
    assert.ok(share(0.5) <= 90, `the middle is ${share(0.5)}`);
    assert.ok(share(0.9) <= 200, `nine of ten have up to ${share(0.9)}`);
    assert.ok(share(1) <= 400, `the longest has ${share(1)}`);
  });

  it(`functions have at most ${MOST_LINES} lines`, () => {
    const long = theSource().functions.filter((f) => ours(f.file) && f.lines > MOST_LINES);
    assert.ok(long.length <= STILL_LONG, long.map((f) => `${f.file}:${f.line} ${f.name}: ${f.lines}`).join('\n'));
  });

  it(`functions take at most ${MOST_PARAMETERS} parameters`, () => {
    const wide = theSource().functions.filter((f) => ours(f.file) && f.parameters > MOST_PARAMETERS);
    assert.ok(wide.length <= STILL_WIDE, wide.map((f) => `${f.file}:${f.line} ${f.name}: ${f.parameters}`).join('\n'));
  });

  it('functions are seen at all', () => {
    const { functions } = theSource();
    assert.ok(functions.length > 5000);
    assert.ok(functions.some((f) => f.file === 'tests/house/size.test.ts' && f.lines > 20));
  });

  it('are read in one go, by the linter’s count, but in files that are named', () => {
    const { overrides } = JSON.parse(readFileSync(join(ROOT, 'biome.json'), 'utf8')) as {
      overrides: readonly { includes: readonly string[] }[];
    };
    // Tests are stories told in one go: loops in a test in a suite count thrice.
    const named = overrides.filter(({ includes }) => String(includes) !== 'tests/**');
    const includes = named.flatMap((o) => o.includes);
    assert.ok(includes.length <= STILL_TANGLED, `${includes.length} files are let off`);
    const files = new Set(theSource().files);
    assert.deepEqual(
      includes.filter((file) => !files.has(file)),
      [],
      'not there any more',
    );
  });
});
