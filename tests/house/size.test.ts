/** A file is read in one sitting, a function in one look. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, theSource } from './source';

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
    assert.deepEqual(long, []);
  });

  it(`functions take at most ${MOST_PARAMETERS} parameters`, () => {
    const wide = theSource().functions.filter((f) => ours(f.file) && f.parameters > MOST_PARAMETERS);
    assert.deepEqual(wide, []);
  });

  it('functions are seen at all', () => {
    const { functions } = theSource();
    assert.ok(functions.length > 5000);
    assert.ok(functions.some((f) => f.file === 'tests/house/size.test.ts' && f.lines > 20));
  });

  it('are read in one go, by the linter’s count, in every file', () => {
    const { linter, overrides } = JSON.parse(readFileSync(join(ROOT, 'biome.json'), 'utf8')) as {
      linter: { rules: { complexity: Record<string, { level: string }> } };
      overrides: readonly { includes: readonly string[] }[];
    };
    assert.equal(linter.rules.complexity.noExcessiveCognitiveComplexity?.level, 'error');
    // Tests are stories told in one go: loops in a test in a suite count thrice.
    assert.deepEqual(
      overrides.flatMap((o) => o.includes),
      ['tests/**'],
    );
  });
});
