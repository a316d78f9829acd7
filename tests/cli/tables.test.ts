/** `scribeline tables`: a list, one table, JSON, and a name that there is not. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';

const CLI = resolve(__dirname, '../../dist/cli.js');
const run = (...words: string[]) =>
  spawnSync(process.execPath, [CLI, 'tables', ...words], { encoding: 'utf8', maxBuffer: 1 << 26 });

describe('scribeline tables', function () {
  this.timeout(60_000);

  it('lists the tables, each with how much of it was read and how much is from memory', () => {
    const { stdout, status } = run();
    assert.equal(status, 0);
    assert.match(stdout, /^ {2}threads +\d+ published +\d+ from memory/m);
    assert.match(stdout, /^ {2}all +\d+ published/m);
  });

  it('one table as text and as JSON, each row with its source', () => {
    assert.match(run('inch-fits').stdout, /class RC4, up_to_in 1\.19, hole_thou 0 to 1\.2, shaft_thou -1\.6 to -0\.8/);
    const { tables, counts } = JSON.parse(run('threads', '--format', 'json').stdout);
    const row = tables[0].rows.find((r: { designation: string }) => r.designation === 'G1/4');
    assert.equal(row.tap_drill_mm, 11.8);
    assert.equal(row.basis, 'memory');
    assert.ok(counts.memory > 0);
  });

  it('a name that there is not is told, with the nearest', () => {
    const { stderr, status } = run('thread');
    assert.equal(status, 2);
    assert.match(stderr, /there is no table `thread`\. Did you mean threads\?/);
    assert.equal(run('threads', 'drills').status, 2);
  });
});
