/** The findings of a document, each time an editor asks: at once what is known, and in a word where nothing changed. */
import {
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import { diagnosticsOf } from '../service/diagnostics';
import type { PartSnapshot } from '../service/snapshot';
import type { Session } from './session';

/** After so long the first findings of a text just opened are told, where the editor can be asked to ask again, ms. */
const FIRST_MS = 30;

export async function findingsOf(session: Session, asked: DocumentDiagnosticParams): Promise<DocumentDiagnosticReport> {
  const { uri } = asked.textDocument;
  const read = await session.workspace.snapshot(uri);
  if (!read) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
  if (read.kind === 'part' && !(await hasFindings(session, read))) return findingsOf(session, asked);
  if (read.kind === 'part') await lookAtJoints(session, read);
  const snapshot = read.kind === 'part' ? session.judged(read) : read;
  const { findings, lines } = snapshot;
  const last = session.answered.get(uri);
  if (last && last.id === asked.previousResultId && last.findings === findings && last.lines === lines)
    return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: last.id };
  const id = String(++session.answers);
  session.answered.set(uri, { id, findings, lines });
  const items = diagnosticsOf(snapshot, session.options.pagesUri);
  return { kind: DocumentDiagnosticReportKind.Full, resultId: id, items };
}

/**
 * Resolves when there are findings to tell: all, where the editor cannot be asked again; of a keystroke what was judged at
 * once, the text before stands for the rest. False where the text was changed meanwhile.
 */
async function hasFindings(session: Session, part: PartSnapshot): Promise<boolean> {
  const { judge, can } = session;
  if (judge.isDone(part)) return true;
  const whole = judge.whole(part);
  if (can.refresh && judge.hasBefore(part)) return true;
  return can.refresh ? ((await session.atMost(FIRST_MS, whole)) ?? true) : whole;
}

/** An editor that can be asked again hears of joints when they were looked at. */
async function lookAtJoints({ joints, can }: Session, part: PartSnapshot): Promise<void> {
  const looking = joints.look(part);
  if (!can.refresh) await looking;
}
