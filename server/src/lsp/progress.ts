/** What takes long is told as being done, where the editor gave a token for that; it is called off as any request is. */
import { WorkDoneProgress } from 'vscode-languageserver';
import { JOB } from '../service/job/protocol';
import { PLAN } from '../service/plan/answer';
import { SHEET } from '../service/sheet-protocol';
import type { Session } from './session';

/** What is done at once is not worth a word, ms. */
const SOON_MS = 400;
/** Of these what is told on the way is their own. */
const TOLD_BY_ITSELF: ReadonlySet<string> = new Set([JOB, PLAN]);
const TITLES: Readonly<Record<string, string>> = {
  [SHEET]: 'Laying out the sheet',
  'workspace/diagnostic': 'Checking every document',
  'textDocument/codeAction': 'Trying fixes',
};

/** The answer; what a job says on its way is its own. */
export async function inProgress<T>(
  { connection, host }: Session,
  request: string,
  asked: unknown,
  answer: () => T | Promise<T>,
): Promise<T> {
  const token = (asked as { workDoneToken?: string | number } | undefined)?.workDoneToken;
  if (token === undefined || TOLD_BY_ITSELF.has(request) || !host.later) return answer();
  let begun = false;
  const leave = host.later(SOON_MS, () => {
    begun = true;
    const title = TITLES[request] ?? 'Working it out';
    void connection.sendProgress(WorkDoneProgress.type, token, { kind: 'begin', title, cancellable: true });
  });
  try {
    return await answer();
  } finally {
    leave();
    if (begun) void connection.sendProgress(WorkDoneProgress.type, token, { kind: 'end' });
  }
}
