/** Work-done progress of LSP 3.18: begun where an answer takes long and the editor gave a token, ended once, silent otherwise. */
import assert from 'node:assert/strict';
import { inProgress } from '../../server/src/lsp/progress';
import type { Session } from '../../server/src/lsp/session';
import { PLAN } from '../../server/src/service/plan/answer';

/** What was told, and the moment when an answer has taken long. */
function watched() {
  const told: [token: unknown, kind: string, title: string | undefined][] = [];
  let late = () => {};
  const session = {
    connection: {
      sendProgress: async (_: unknown, token: unknown, { kind, title }: { kind: string; title?: string }) =>
        void told.push([token, kind, title]),
    },
    host: {
      later(_: number, work: () => void) {
        late = work;
        return () => {
          late = () => {};
        };
      },
    },
  } as unknown as Session;
  return { told, session, pass: () => late() };
}

describe('progress', () => {
  it('of what takes long has a beginning with words, and an end', async () => {
    const { told, session, pass } = watched();
    const answer = await inProgress(session, 'workspace/diagnostic', { workDoneToken: 'a' }, async () => {
      pass();
      return 7;
    });
    assert.equal(answer, 7);
    assert.deepEqual(told, [
      ['a', 'begin', 'Checking every document'],
      ['a', 'end', undefined],
    ]);
  });

  it('ends where the answer fails', async () => {
    const { told, session, pass } = watched();
    const failing = inProgress(session, 'textDocument/codeAction', { workDoneToken: 1 }, () => {
      pass();
      throw new Error('called off');
    });
    await assert.rejects(failing, /called off/);
    assert.deepEqual(
      told.map(([, kind]) => kind),
      ['begin', 'end'],
    );
  });

  it('is none of what is soon done, of what nobody gave a token for, and of what tells by itself', async () => {
    for (const [request, asked, isLong] of [
      ['workspace/diagnostic', { workDoneToken: 'a' }, false],
      ['workspace/diagnostic', {}, true],
      [PLAN, { workDoneToken: 'a' }, true],
    ] as const) {
      const { told, session, pass } = watched();
      await inProgress(session, request, asked, () => isLong && pass());
      pass();
      assert.deepEqual(told, [], `${request} ${JSON.stringify(asked)}`);
    }
  });
});
