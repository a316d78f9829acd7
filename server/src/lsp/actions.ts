/** What may be done at a place: fixes and plans, for the text as it is now. */
import { type CodeAction, type CodeActionParams, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { actionsOf, asOffered, wantsPlan } from '../service/actions';
import type { OnGone } from '../service/asker';
import type { Session } from './session';

export function actionsFor(session: Session, asked: CodeActionParams, onGone: OnGone): Promise<CodeAction[]> {
  const { textDocument, range, context } = asked;
  const { only } = context;
  return session.on<CodeAction[]>(textDocument.uri, [], async (read) => {
    if (read.kind !== 'part') return actionsOf(read, range, only);
    const part = session.judged(read);
    const isPlanned = wantsPlan(part, range, only);
    if (isPlanned) await session.soon.planned(part);
    const offered = asOffered(await session.asker.answer('actions', part, { range, only }, onGone), session.can);
    // Planning takes a while: what is offered is offered for the text as it is now, or not at all.
    if (isPlanned && (await session.workspace.text(read.path)) !== read.text)
      throw new ResponseError(LSPErrorCodes.ContentModified, 'the text was changed while it was planned');
    return offered;
  });
}
