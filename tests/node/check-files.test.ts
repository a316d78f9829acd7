/** What a judge of files answers, by what is asked of it. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeJudge } from '../../server/src/node/check-files';
import { reportGithub } from '../../server/src/report/github';
import { SOUND } from '../cli/odd-files';

describe('a judge of files', () => {
  let folder: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-judge-'));
    writeFileSync(join(folder, 'a.part.yaml'), SOUND.replace('features:', 'parameters:\n  spare: 3\nfeatures:'));
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('tries what would do only where it is shown, and finds the same', async () => {
    const file = { path: join(folder, 'a.part.yaml'), shown: 'a.part.yaml' };
    const judged = (fixes: boolean) => makeJudge({ fix: false, fixes, folders: [folder] })([file]);
    const [shown, hidden] = [(await judged(true)).reported, (await judged(false)).reported];
    assert.deepEqual(
      [shown, hidden].map((r) => r[0]!.findings.map((f) => f.fixes.length)),
      [[1], [0]],
    );
    assert.equal(reportGithub(hidden, []), reportGithub(shown, []));
  });
});
