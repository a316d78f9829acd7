/** `scribeline tables`: a list, one table, JSON, and a name that there is not. */
import assert from 'node:assert/strict';
import { asks } from './warm';

const run = (...words: string[]) => asks(__dirname, ['tables', ...words]);

describe('scribeline tables', function () {
  this.timeout(60_000);

  it('lists the tables, each with how much of it was read and how much is from memory', () => {
    const { out, status } = run();
    assert.equal(status, 0);
    assert.match(out, /^ {2}threads +\d+ published +\d+ from memory/m);
    assert.match(out, /^ {2}all +\d+ published/m);
  });

  it('one table as text and as JSON, each row with its source', () => {
    assert.match(run('inch-fits').out, /class RC4, up_to_in 1\.19, hole_thou 0 to 1\.2, shaft_thou -1\.6 to -0\.8/);
    const { tables, counts } = JSON.parse(run('threads', '--format', 'json').out);
    const row = tables[0].rows.find((r: { designation: string }) => r.designation === 'G1/4');
    assert.equal(row.tap_drill_mm, 11.8);
    assert.equal(row.basis, 'memory');
    assert.ok(counts.memory > 0);
  });

  it('a name that there is not is told, with the nearest', () => {
    const { err, status } = run('thread');
    assert.equal(status, 2);
    assert.match(err, /there is no table `thread`\. Did you mean threads\?/);
    assert.equal(run('threads', 'drills').status, 2);
  });
});
