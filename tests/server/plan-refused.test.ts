/** The editor's plan: never offered over what could not be read, and only for the text that it was made for. */
import assert from 'node:assert/strict';
import { CancellationTokenSource, LSPErrorCodes, ProgressType } from 'vscode-languageserver-protocol';
import { moreThanNeeded } from '../../server/src/rules/setup/more-than-needed';
import type { PlanAnswer, PlanParams, PlanProgress } from '../../server/src/service/plan/answer';
import { Client } from './client';

const GOOD = moreThanNeeded.good;
/** One feature is in no set-up: the plan is a fix for that. */
const OPEN = GOOD.replace('[seat, tie]', '[seat]');
const TIE = /^( {2}tie:.*)$/m;

describe('the plan in an editor', function () {
  this.timeout(60_000);
  let client: Client;
  let n = 0;
  const opened = (text: string) => {
    const uri = `file:///refused/${++n}.part.yaml`;
    client.open(uri, text);
    return uri;
  };
  const planOf = (uri: string) => client.connection.sendRequest<PlanAnswer | null>('scribeline/plan', { uri });
  const planFixes = async (uri: string) => {
    await client.diagnostics(uri);
    const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    const actions = await client.actions(uri, { range }, ['quickfix']);
    return actions.filter((a) => a.title.startsWith('Plan anew'));
  };
  before(async () => {
    client = await Client.start();
  });
  after(() => client.stop());

  it('is for the version that it was asked for', async () => {
    const uri = opened(moreThanNeeded.bad);
    client.replace(uri, 'part:', 'part: ');
    const asked = planOf(uri);
    client.replace(uri, 'part: ', 'part:');
    const answer = await asked;
    assert.equal(answer?.version, 2);
    assert.ok(answer.whole && answer.edits.length > 0 && answer.refused === undefined);
    assert.equal((await planOf(uri))?.version, 3);
  });

  it('is told and not written while something of the text could not be read, with the line', async () => {
    assert.match(OPEN, TIE);
    for (const text of [
      moreThanNeeded.bad.replace(TIE, '$1 }'),
      moreThanNeeded.bad.replace('features:', 'feature:'),
      `${moreThanNeeded.bad}  third up: top\n`,
    ]) {
      const answer = await planOf(opened(text));
      assert.ok(answer, text);
      assert.deepEqual([answer.whole, answer.edits], [false, []], text);
      assert.match(answer.refused ?? '', /left as they are until the text can be read: line \d+: .*\[form\//);
      assert.doesNotMatch(answer.headline + answer.text, /\b0 set-ups|Fewer are impossible/);
    }
  });

  it('is a fix only where all could be read, and never where it changes nothing', async () => {
    assert.equal((await planFixes(opened(OPEN))).length, 1);
    assert.deepEqual(await planFixes(opened(OPEN.replace('features:', 'features:\n  odd: { kind: hole }'))), []);
    assert.deepEqual(await planFixes(opened(GOOD)), []);
  });

  it('as a fix is never for a text that was changed while it was planned', async () => {
    const uri = opened(OPEN.replace('part: ', 'part: other-'));
    assert.ok((await client.diagnostics(uri)).length > 0);
    const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    const asked = client.actions(uri, { range }, ['quickfix']).then(
      (actions) => actions.filter((a) => a.title.startsWith('Plan anew')),
      (refused: Error) => refused.message,
    );
    client.replace(uri, 'part: other-', '# one line more\npart: another-');
    const answer = await asked;
    // Refused, or for the text as it is, which is one line longer; never the old one's edits.
    if (typeof answer === 'string') assert.match(answer, /changed/);
    else if (answer.length > 0) assert.deepEqual(answer[0]!.edit, (await planFixes(uri))[0]!.edit);
  });

  it('comes piece by piece for a page, with the words of its text, and is told of on the way', async () => {
    const uri = opened(moreThanNeeded.bad.replace('part: ', 'part: page-'));
    const heard: PlanProgress[] = [];
    client.connection.onProgress(new ProgressType<PlanProgress>(), 'p1', (progress) => {
      heard.push(progress);
    });
    const params: PlanParams = { uri, workDoneToken: 'p1' };
    const answer = await client.connection.sendRequest<PlanAnswer | null>('scribeline/plan', params);
    assert.ok(answer);
    const { page, text, headline, setups } = answer;
    assert.equal(page.headline, headline);
    assert.equal(page.setups.length, setups);
    const words = [
      ...page.setups.flatMap((s) => [`${s.name}: ${s.up} up`, s.held, s.zero, s.cuts.join(', '), ...s.why, ...s.notes]),
      ...page.setups.flatMap((s) => s.said.map((f) => f.message)),
      ...page.time,
      ...page.others,
      ...page.uncut,
    ];
    for (const line of words) assert.ok(text.includes(line), `${line}\n${text}`);
    assert.ok(page.setups.every((s) => s.tools.length > 0 && s.cutting !== undefined));
    assert.deepEqual(
      heard.map((h) => [h.done, h.of]),
      [
        [0, 2],
        [1, 2],
      ],
    );
  });

  it('is left when nobody waits for it', async () => {
    const uri = opened(moreThanNeeded.bad.replace('part: ', 'part: left-'));
    const source = new CancellationTokenSource();
    const asked = client.connection.sendRequest('scribeline/plan', { uri, workDoneToken: 'p2' }, source.token);
    source.cancel();
    await assert.rejects(asked, { code: LSPErrorCodes.RequestCancelled });
    assert.ok(await planOf(uri), 'and can be asked for again');
  });
});
