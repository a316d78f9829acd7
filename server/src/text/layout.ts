/**
 * How a document is laid out: line ends, indentation, and places on lines.
 */
import type { Span, TextTree } from './tree';

/** The document's own line end: that of its first line. */
export function eolOf(text: string): string {
  const at = text.indexOf('\n');
  return at > 0 && text[at - 1] === '\r' ? '\r\n' : '\n';
}

/** Columns by which the document indents: those of the first entry inside a top-level map, or 2. */
export function stepOf(tree: TextTree): number {
  for (const { value } of tree.root?.entries ?? []) {
    if (value?.type !== 'map' || value.flow || !value.entries[0]) continue;
    const column = columnOf(tree.text, tree.locate(value.entries[0].span).start);
    if (column > 0 && column <= 8) return column;
  }
  return 2;
}

/** Offset of the first character of the line that `at` is on, after a byte order mark. */
export function lineStartOf(text: string, at: number): number {
  const start = at <= 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1;
  return start === 0 && text.charCodeAt(0) === 0xfeff ? 1 : start;
}

/** Offset of the end of the line that `at` is on, before its line end. */
export function lineEndOf(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return end > at && text[end - 1] === '\r' ? end - 1 : end;
}

/** How many characters stand before an offset on its line. */
export function columnOf(text: string, at: number): number {
  return at - lineStartOf(text, at);
}

/** How many spaces a line begins with. */
export function indentOf(text: string, lineStart: number): number {
  let at = lineStart;
  while (text[at] === ' ') at++;
  return at - lineStart;
}

/** A place of the document as a span of a block. */
export function spanAt(tree: TextTree, block: string, start: number, end: number): Span {
  const from = tree.blocks.get(block) ?? 0;
  return { block, from: start - from, to: end - from };
}
