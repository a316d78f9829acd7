/** Small turns from places in a text to those an editor counts. */

import type { Span, SpanEdit } from '../text/tree';
import type { Range, TextEdit } from './shapes';
import type { Snapshot } from './snapshot';

/** A place of the text as the protocol counts: lines and UTF-16 characters from 0. */
export function rangeOf(snapshot: Snapshot, span: Span): Range {
  const { start, end } = snapshot.checked.tree.locate(span);
  return rangeBetween(snapshot, start, end);
}

export function rangeBetween(snapshot: Snapshot, start: number, end: number): Range {
  return { start: snapshot.lines.position(start), end: snapshot.lines.position(end) };
}

export function editsOf(snapshot: Snapshot, fix: { readonly edits: readonly SpanEdit[] }): TextEdit[] {
  return fix.edits.map((edit) => ({ range: rangeOf(snapshot, edit.span), newText: edit.newText }));
}

export function holds(outer: Range, inner: { line: number; character: number }): boolean {
  const after =
    inner.line > outer.start.line || (inner.line === outer.start.line && inner.character >= outer.start.character);
  const before =
    inner.line < outer.end.line || (inner.line === outer.end.line && inner.character <= outer.end.character);
  return after && before;
}

export function overlaps(a: Range, b: Range): boolean {
  return holds(a, b.start) || holds(b, a.start);
}
