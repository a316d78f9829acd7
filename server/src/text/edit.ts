/**
 * Minimal edits that keep comments and layout.
 */
import type { Span, TextEdit, TextTree } from './tree';

/** A replacement whose place is block-relative, so that it stays true while other blocks change. */
export interface SpanEdit {
  readonly span: Span;
  readonly newText: string;
}

/** Places of a tree's spans, as document offsets. */
export function locateEdits(tree: TextTree, edits: readonly SpanEdit[]): TextEdit[] {
  return edits.map(({ span, newText }) => ({ ...tree.locate(span), newText }));
}

/** The text with all edits made. Offsets are those of `text`; edits may not overlap, and their order is free. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const ordered = edits.map((edit, i) => ({ edit, i })).sort((a, b) => a.edit.start - b.edit.start || a.i - b.i);
  let result = '';
  let at = 0;
  for (const { edit } of ordered) {
    if (edit.start < at || edit.end < edit.start) throw new RangeError('edits overlap');
    result += text.slice(at, edit.start) + edit.newText;
    at = edit.end;
  }
  return result + text.slice(at);
}
