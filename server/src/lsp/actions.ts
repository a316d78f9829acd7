/** What may be done at a place: fixes and plans, and the part said otherwise, for the text as it is now. */
import {
  type CodeAction,
  type CodeActionParams,
  CodeActionTriggerKind,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import { actionsOf, asOffered, wantsPlan } from '../service/actions';
import type { OnGone } from '../service/asker';
import { hasJointFinding, jobActions, partJointActions } from '../service/joint-actions';
import type { Range } from '../service/shapes';
import type { Snapshot } from '../service/snapshot';
import type { Session } from './session';

export function actionsFor(session: Session, asked: CodeActionParams, onGone: OnGone): Promise<CodeAction[]> {
  const { textDocument, range, context } = asked;
  const { only, triggerKind } = context;
  return session.on<CodeAction[]>(textDocument.uri, [], async (read) => {
    const rewritings = await offeredRewritings(session, read, range, only);
    const name = (path: string) => session.workspace.name(path);
    const isFix = !only || only.some((o) => 'quickfix'.startsWith(o));
    if (read.kind === 'job') return [...(isFix ? jobActions(read, range, name) : []), ...rewritings];
    if (read.kind !== 'part') return [...actionsOf(read, range, only), ...rewritings];
    const part = session.judged(read);
    const isPlanned = wantsPlan(part, range, only, triggerKind === CodeActionTriggerKind.Invoked);
    if (isPlanned) await session.soon.planned(part);
    const offered = asOffered(await session.asker.answer('actions', part, { range, only }, onGone), session.can);
    // Planning takes a while: what is offered is offered for the text as it is now, or not at all.
    if (isPlanned && (await session.workspace.text(read.path)) !== read.text)
      throw new ResponseError(LSPErrorCodes.ContentModified, 'the text was changed while it was planned');
    const jobs = isFix && hasJointFinding(part, range) ? await session.workspace.jobsOf(read.path) : [];
    return [...partJointActions(part, jobs, range, name), ...offered, ...rewritings];
  });
}

/** Worked out now where the editor cannot ask for it when it is chosen. */
async function offeredRewritings(
  session: Session,
  read: Snapshot,
  range: Range,
  only: readonly string[] | undefined,
): Promise<CodeAction[]> {
  if (only && !only.some((o) => o === '' || o === 'refactor' || o.startsWith('refactor.'))) return [];
  const writing = await session.writing();
  const offered = writing.rewritingsOf(read, range, only);
  if (session.can.resolve) return offered;
  return offered.flatMap((action) => {
    const edit = writing.rewrittenAs(read, action);
    return typeof edit === 'string' ? [] : [{ ...action, edit }];
  });
}

/** What was chosen is worked out; where it cannot be, why is said. */
export async function actionResolved(session: Session, action: CodeAction): Promise<CodeAction> {
  const uri = (action.data as { uri?: unknown } | undefined)?.uri;
  if (typeof uri !== 'string' || action.edit) return action;
  return session.on<CodeAction>(uri, action, async (read) => {
    const writing = await session.writing();
    const edit = writing.rewrittenAs(read, action);
    if (typeof edit === 'string') throw new ResponseError(LSPErrorCodes.RequestFailed, edit);
    return { ...action, edit };
  });
}
