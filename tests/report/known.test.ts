/** What was known before is not told again, listed or not, and the last line says that there is more than it counts. */
import assert from 'node:assert/strict';
import { reportComments } from '../../server/src/report/comments';
import { reportJson } from '../../server/src/report/json';
import { type Known, knownFrom, onlyNew } from '../../server/src/report/known';
import type { Reported, ReportedFinding } from '../../server/src/report/reported';
import { summaryOf } from '../../server/src/report/reported';

const place = { line: 0, character: 0 };
const range = { start: place, end: place };
const found = (of: string): ReportedFinding => ({
  finding: {
    rule: 'form/schema',
    severity: 'error',
    message: 'No.',
    of: [of],
    span: { block: '', from: 0, to: 0 },
    related: [],
    facts: {},
  },
  range,
  related: [],
  fixes: [],
  lineText: '',
});
const file = (names: readonly string[], errors: number, warnings: number): Reported => ({
  path: 'a.part.yaml',
  findings: names.map(found),
  leftOut: [
    { rule: 'form/schema', severity: 'error', count: errors },
    { rule: 'form/schema', severity: 'warning', count: warnings },
  ],
});
const known = (files: readonly Reported[]) => knownFrom(reportJson(files)) as Known;

describe('known before', () => {
  it('what is not listed is known by its number, errors and warnings together', () => {
    const before = [file(['one', 'two'], 40, 2)];
    assert.deepEqual(onlyNew(before, known(before)), [{ path: 'a.part.yaml', findings: [] }]);
    const [more] = onlyNew([file(['one', 'three'], 41, 2)], known(before));
    assert.deepEqual(
      more?.findings.map((f) => f.finding.of),
      [['three']],
    );
    // 43 are not listed now, where 42 were.
    assert.equal(
      more?.leftOut?.reduce((sum, { count }) => sum + count, 0),
      1,
    );
  });

  it('takes reports as they come: without numbers, or with none', () => {
    const plain = JSON.stringify({ files: [{ path: 'a.part.yaml', findings: [], left_out_of: null }] });
    assert.equal((knownFrom(plain) as Known).size, 0);
  });

  it('the last line says so', () => {
    const none: Reported = { path: 'a.part.yaml', findings: [] };
    assert.equal(summaryOf([none], true), '1 file checked: nothing found.');
    assert.equal(summaryOf([none], true, 3), '1 file checked: nothing new; 3 known before.');
    const one = { ...none, findings: [found('one')] };
    assert.equal(summaryOf([one, none], true, 3), '2 files checked: 1 error, 0 warnings, 0 hints; 3 known before.');
    const { body } = JSON.parse(reportComments([{ file: one, path: 'a', text: '', changed: [] }], [], 3)) as {
      body: string;
    };
    assert.match(body, /^1 file checked: 1 error, 0 warnings, 0 hints; 3 known before\.$/m);
  });
});
