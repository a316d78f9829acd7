/** Texts laid out. What is left as it is, and why, is told beside the answer: an error would only say that there was one. */
import {
  type DocumentFormattingParams,
  type DocumentOnTypeFormattingParams,
  type DocumentRangeFormattingParams,
  type DocumentRangesFormattingParams,
  MessageType,
  ShowMessageNotification,
  type TextEdit,
} from 'vscode-languageserver';
import type { Range } from '../service/shapes';
import { line } from '../text/shown';
import type { Session } from './session';

export function formatted(
  session: Session,
  asked: DocumentFormattingParams | DocumentRangeFormattingParams,
): Promise<TextEdit[] | null> {
  return edited(session, asked, 'range' in asked ? asked.range : undefined);
}

/** Each range for itself; where two ask for one edit it is made once. */
export async function formattedRanges(
  session: Session,
  { ranges, ...asked }: DocumentRangesFormattingParams,
): Promise<TextEdit[] | null> {
  const all = new Map<string, TextEdit>();
  for (const range of ranges ?? [])
    for (const e of (await edited(session, asked, range)) ?? []) all.set(JSON.stringify(e.range), e);
  return [...all.values()];
}

export function formattedTyped(
  session: Session,
  { textDocument, position, ch, options }: DocumentOnTypeFormattingParams,
): Promise<TextEdit[] | null> {
  return session.on<TextEdit[] | null>(textDocument.uri, null, async (snapshot) => {
    const writing = await session.writing();
    return writing.laidOutTyped(snapshot, position, { typed: ch, tabSize: options.tabSize });
  });
}

function edited(
  session: Session,
  { textDocument, options }: DocumentFormattingParams,
  range: Range | undefined,
): Promise<TextEdit[] | null> {
  return session.on<TextEdit[] | null>(textDocument.uri, null, async (snapshot) => {
    const writing = await session.writing();
    const made = writing.laidOut(snapshot, options.tabSize, range);
    if (typeof made !== 'string') return made;
    const message = line(made);
    void session.connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Warning, message });
    return null;
  });
}
