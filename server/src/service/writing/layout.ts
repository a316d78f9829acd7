/** A document laid out as an editor asks for it. */
import type { Layout } from '../../text/tidy';
import { tidied, tidiedWithin } from '../../text/tidy';
import type { TextEdit as Edit } from '../../text/tree';
import type { DocumentKind } from '../documents';
import { rangeBetween } from '../lsp';
import type { Range, TextEdit } from '../shapes';
import type { Snapshot } from '../snapshot';

/** Whose entries stand on lines of their own: a feature or a set-up is several facts, a tool or a joint is one. */
const OPEN: Readonly<Record<DocumentKind, readonly string[]>> = {
  part: ['features', 'setups'],
  shop: [],
  job: [],
  record: [],
};
/** More than a level would ever be. */
const MOST_STEP = 8;

/** The edits; a sentence where the text is left as it is. */
export function laidOut(snapshot: Snapshot, tabSize: number, range?: Range): TextEdit[] | string {
  const step = Number.isInteger(tabSize) && tabSize > 0 && tabSize <= MOST_STEP ? tabSize : 2;
  const layout: Layout = { step, open: OPEN[snapshot.kind] };
  const { lines } = snapshot;
  const made = range
    ? tidiedWithin(snapshot.checked.tree, layout, lines.offset(range.start), lines.offset(range.end))
    : tidied(snapshot.checked.tree, layout);
  if ('refused' in made) return made.refused;
  return made.edits.map((e: Edit) => ({ range: rangeBetween(snapshot, e.start, e.end), newText: e.newText }));
}

/** What was just closed or left is laid out: the line before an end of line, or what a bracket ends. */
export function laidOutTyped(
  snapshot: Snapshot,
  { line, character }: Range['start'],
  { typed, tabSize }: { readonly typed: string; readonly tabSize: number },
): TextEdit[] {
  const at = typed === '\n' ? line - 1 : line;
  if (at < 0) return [];
  const range = { start: { line: at, character: 0 }, end: { line: at, character: 999 } };
  const made = laidOut(snapshot, tabSize, range);
  // Nobody asked: what cannot be read yet is left without a word, and so is what stands behind the cursor.
  if (typeof made === 'string') return [];
  return made.filter((e) => e.range.end.line === at && (typed === '\n' || e.range.end.character <= character));
}
