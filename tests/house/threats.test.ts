/** What is promised to whoever opens a stranger's part is answered by a test: each that the table names is there. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const ROOT = resolve(__dirname, '../..');
const SECTION = 'Threats and promises';

/** The cells of the section's table, a row each, without its head. */
function rows(): readonly (readonly string[])[] {
  const text = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
  const section = text.split(/^## /m).find((s) => s.startsWith(`${SECTION}\n`)) ?? '';
  const lines = section.split('\n').filter((line) => line.startsWith('|'));
  return lines.slice(2).map((line) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

describe(`${SECTION} (DEVELOPERS.md)`, () => {
  it('has a table of what could happen, what is promised, and the tests that answer', () => {
    assert.ok(rows().length >= 8);
    for (const row of rows()) {
      assert.equal(row.length, 3, row.join(' | '));
      for (const cell of row) assert.notEqual(cell, '', row.join(' | '));
    }
  });

  it('names tests that are there', () => {
    const missing = rows().flatMap(([threat, , tests]) => {
      const files = [...tests!.matchAll(/`([^`]+)`/g)].map((m) => m[1]!);
      if (files.length === 0) return [`“${threat}” has no test`];
      return files
        .filter((f) => !/^tests\/.+\.test\.ts$/.test(f) || !existsSync(join(ROOT, f)))
        .map((f) => `“${threat}” names ${f}, which is not there`);
    });
    assert.deepEqual(missing, []);
  });
});
