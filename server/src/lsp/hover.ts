/** Whoever points at a word is not kept waiting for figures that take long. */
import type { Hover, HoverParams } from 'vscode-languageserver';
import type { OnGone } from '../service/asker';
import { findingsAt, hoverAt, type Unwritten } from '../service/hover';
import { metText } from '../service/hover-joints';
import type { Snapshot } from '../service/snapshot';
import type { Session } from './session';

/** So long a hover may keep someone who points at a word waiting; then it is shown without its figures, ms. */
const HOVER_MS = 300;

/** `without`: what the editor's settings leave out; other editors do not send it. */
type Asked = HoverParams & { readonly without?: readonly Unwritten[] };

export function hoverFor(session: Session, asked: Asked, onGone: OnGone): Promise<Hover | null> {
  const { textDocument } = asked;
  return session.on<Hover | null>(textDocument.uri, null, (s) => hover(session, s, asked, onGone));
}

async function hover(session: Session, read: Snapshot, asked: Asked, onGone: OnGone): Promise<Hover | null> {
  const { pagesUri } = session.options;
  const { without } = asked;
  const snapshot = session.soFar(read);
  const offset = snapshot.lines.offset(asked.position);
  if (snapshot.kind !== 'part') return hoverAt(snapshot, offset, { pagesUri }) ?? null;
  session.leaveHover();
  const met = metText(snapshot, offset, await session.workspace.jobsOf(snapshot.path));
  const told = {
    offset,
    findings: findingsAt(snapshot, offset),
    met,
    without,
    ...(pagesUri !== undefined && { pagesUri }),
  };
  const leave = (left: () => void) => {
    session.leaveHover = left;
    onGone(left);
  };
  const whole = session.asker.answer('hover', snapshot, told, leave).catch(() => undefined);
  const answer = await session.atMost(HOVER_MS, whole);
  return answer === undefined ? (hoverAt(snapshot, offset, { pagesUri, met, without, quick: true }) ?? null) : answer;
}
