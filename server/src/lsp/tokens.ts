/** Tokens of a document, whole or as the piece that changed since the last answer. */
import type {
  SemanticTokens,
  SemanticTokensDelta,
  SemanticTokensDeltaParams,
  SemanticTokensRangeParams,
} from 'vscode-languageserver';
import type { Session } from './session';

export function wholeTokens(session: Session, uri: string): Promise<SemanticTokens> {
  return session.on<SemanticTokens>(uri, { data: [] }, async (s) => {
    const writing = await session.writing();
    return remembered(session, uri, writing.tokensOf(s));
  });
}

export function someTokens(
  session: Session,
  { textDocument, range }: SemanticTokensRangeParams,
): Promise<SemanticTokens> {
  return session.on<SemanticTokens>(textDocument.uri, { data: [] }, async (s) => {
    const writing = await session.writing();
    return { data: writing.tokensOf(s, range) };
  });
}

export async function changedTokens(
  session: Session,
  { textDocument: { uri }, previousResultId }: SemanticTokensDeltaParams,
): Promise<SemanticTokens | SemanticTokensDelta> {
  const before = session.tokens.get(uri);
  const now = await wholeTokens(session, uri);
  const writing = await session.writing();
  if (before?.id !== previousResultId) return now;
  const edits = writing.tokenEdits(before.data, now.data);
  return { ...(now.resultId !== undefined && { resultId: now.resultId }), edits };
}

function remembered(session: Session, uri: string, data: number[]): SemanticTokens {
  const id = String(++session.answers);
  session.tokens.set(uri, { id, data });
  return { resultId: id, data };
}
