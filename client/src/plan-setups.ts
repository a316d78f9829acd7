/** Planning the setups of a part: has the language server plan, says what it found, and writes it where the person wants it. */
import { Range, type Uri, ViewColumn, WorkspaceEdit, window, workspace } from 'vscode';
import type { PlanAnswer } from '../../server/src/service/plan/answer';
import { failed, inform, warn } from './notices';
import type { ServerLink } from './server-link';

/** The name of the request; `server/src/service/plan/answer.ts` has the same. */
const PLAN = 'scribeline/plan';

export async function planSetups(link: ServerLink, part?: Uri): Promise<void> {
  const uri = part ?? partInView();
  if (!uri) {
    void inform('Open a part file first.');
    return;
  }
  const document = await workspace.openTextDocument(uri);
  const version = document.version;
  const answer = await link.request<PlanAnswer | null>(PLAN, { uri: uri.toString() }).catch((error: unknown) => {
    failed('The set-ups were not planned', error);
    return undefined;
  });
  if (answer === undefined) return;
  if (!answer) {
    void warn('This part cannot be planned: it has no body yet, or its shop has no vise.');
    return;
  }
  const choices = answer.whole ? ['Write set-ups', 'Read the plan'] : ['Read the plan'];
  const choice = answer.refused
    ? await warn(`${answer.headline} ${answer.refused}`, ...choices)
    : await inform(answer.headline, ...choices);
  if (choice === 'Read the plan') await read(answer.text);
  if (choice !== 'Write set-ups') return;
  // The edits are for one version of the text, and for no other.
  if (document.isClosed || document.version !== version || (answer.version ?? version) !== version) {
    void warn('The part was changed meanwhile: plan it again.');
    return;
  }
  const edit = new WorkspaceEdit();
  for (const { range, newText } of answer.edits) edit.replace(uri, document.validateRange(asRange(range)), newText);
  if (!(await workspace.applyEdit(edit)))
    void warn('The set-ups were not written: the editor did not take the change.');
}

async function read(text: string): Promise<void> {
  const document = await workspace.openTextDocument({ content: text, language: 'plaintext' });
  await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: true });
}

function asRange(range: PlanAnswer['edits'][number]['range']): Range {
  return new Range(range.start.line, range.start.character, range.end.line, range.end.character);
}

function partInView(): Uri | undefined {
  const document = window.activeTextEditor?.document;
  return document?.languageId === 'scribeline-part' ? document.uri : undefined;
}
