/** Tokens of a document, whole or as the piece that changed since the last answer. */
import type { SemanticTokens, SemanticTokensDelta, SemanticTokensDeltaParams } from 'vscode-languageserver';
import { tokenEdits, tokensOf } from '../service/tokens';
import type { Session } from './session';

export function wholeTokens(session: Session, uri: string): Promise<SemanticTokens> {
  return session.on<SemanticTokens>(uri, { data: [] }, (s) => remembered(session, uri, tokensOf(s)));
}

export async function changedTokens(
  session: Session,
  { textDocument: { uri }, previousResultId }: SemanticTokensDeltaParams,
): Promise<SemanticTokens | SemanticTokensDelta> {
  const before = session.tokens.get(uri);
  const now = await wholeTokens(session, uri);
  if (before?.id !== previousResultId) return now;
  return { ...(now.resultId !== undefined && { resultId: now.resultId }), edits: tokenEdits(before.data, now.data) };
}

function remembered(session: Session, uri: string, data: number[]): SemanticTokens {
  const id = String(++session.answers);
  session.tokens.set(uri, { id, data });
  return { resultId: id, data };
}
