/**
 * Small edits of a document: what is not meant stays as it is, comments and layout included. Each function answers
 * edits with block-relative places; `locateEdits` and `applyEdits` bring them into the text.
 *
 * Edits of one call never overlap. Edits of several calls on the same tree may: make one, read again, make the next.
 */
import { commentsBeside } from './comments';
import { cutFlow, putFlow } from './edit-flow';
import { columnOf, eolOf, indentOf, lineEndOf, lineStartOf, spanAt } from './layout';
import type { ListNode, MapEntry, MapNode, Span, SpanEdit, TextEdit, TextNode, TextTree } from './tree';
import { entry as entryOf, isElsewhere } from './tree';
import { flowText, scalarText, type Writing } from './write';

export type { SpanEdit };

/** Places of a tree's spans, as document offsets. */
export function locateEdits(tree: TextTree, edits: readonly SpanEdit[]): TextEdit[] {
  // What stands in another document is changed there: a change of it is none here, nor what goes with it.
  if (edits.some(({ span }) => isElsewhere(span))) return [];
  return edits.map(({ span, newText }) => ({ ...tree.locate(span), newText }));
}

/** The text with all edits made. Offsets are those of `text`; the order is free. Throws where edits overlap. */
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

/** Sets a key of a map to a value written as YAML on one line: replaces it, fills it in, or adds the key. */
export function setText(tree: TextTree, map: MapNode, key: string, value: string): SpanEdit[] {
  const entry = entryOf(map, key);
  if (!entry) return addText(tree, map, key, value);
  if (!entry.value) return fillIn(tree, map, entry, value);
  if (entry.value.type !== 'scalar' && !entry.value.flow) return foldIn(tree, entry, entry.value, value);
  const { start, end } = tree.locate(entry.value.span);
  // A text in `|` style ends with its last line's end, which has to stay.
  const newline = /\r?\n$/.exec(tree.text.slice(start, end))?.[0] ?? '';
  return [{ span: entry.value.span, newText: value + newline }];
}

/** Adds a key at the end of a map, its value written as YAML on one line: on a line of its own, or before the closing brace. */
export function addText(tree: TextTree, map: MapNode, key: string, value: string): SpanEdit[] {
  return addTexts(tree, map, [[key, value]]);
}

/** The same of several keys, in one edit. */
export function addTexts(
  tree: TextTree,
  map: MapNode,
  entries: readonly (readonly [key: string, value: string])[],
): SpanEdit[] {
  const texts = entries.map(([key, value]) => `${scalarText(key)}: ${value}`);
  if (map.flow) return putFlow(tree, map, map.entries, texts.join(', '));
  const first = map.entries[0];
  if (!first) return [];
  const column = columnOf(tree.text, tree.locate(first.key.span).start);
  return [newLine(tree, lastSpan(map), column, texts.join(eolOf(tree.text) + ' '.repeat(column)))];
}

/**
 * Takes an entry out of its map: its lines, or its piece between the commas. Comments stay, on lines of their own. A map
 * in block style that loses its last entry leaves its own key without a value.
 */
export function removeEntry(tree: TextTree, map: MapNode, entry: MapEntry): SpanEdit[] {
  const at = map.entries.indexOf(entry);
  if (at < 0) return [];
  if (map.flow) return cutFlow(tree, map, map.entries, at);
  return cutLines(tree, entry.span, entry.value, tree.locate(entry.span).start, map.entries.length === 1 ? '{}' : '');
}

/** Takes an item out of a list, as `removeEntry` does. */
export function removeItem(tree: TextTree, list: ListNode, at: number): SpanEdit[] {
  const item = list.items[at];
  if (!item) return [];
  if (list.flow) return cutFlow(tree, list, list.items, at);
  const { start } = tree.locate(item.span);
  const dash = tree.text.lastIndexOf('-', start - 1);
  return cutLines(tree, item.span, item, dash, list.items.length === 1 ? '[]' : '- ~');
}

/** A list of maps as a map of them, each under a name; a name that an item began with is taken out of it. */
export function nameItems(tree: TextTree, list: ListNode, names: readonly string[], nameKey?: RegExp): SpanEdit[] {
  const edit = (block: string, from: number, to: number, newText: string) => ({
    span: spanAt(tree, block, from, to),
    newText,
  });
  const whole = tree.locate(list.span);
  const edits = list.items.flatMap((item, i) => {
    if (item.type !== 'map') return [];
    const [first, second] = item.entries;
    const isNamed = first && second && nameKey?.test(String(first.key.value));
    const { start } = tree.locate(item.span);
    if (list.flow) return [edit(item.span.block, start, start, `${names[i]}: `)];
    const dash = tree.text.lastIndexOf('-', start - 1);
    const own = isNamed ? tree.locate(second.key.span).start : start;
    return [
      edit(item.span.block, dash, own, `${names[i]}:${eolOf(tree.text)}${' '.repeat(columnOf(tree.text, start))}`),
    ];
  });
  if (!list.flow) return edits;
  const { block } = list.span;
  return [edit(block, whole.start, whole.start + 1, '{'), ...edits, edit(block, whole.end - 1, whole.end, '}')];
}

/** Adds an item at the end of a list. */
export function addItem(tree: TextTree, list: ListNode, value: Writing): SpanEdit[] {
  if (list.flow) return putFlow(tree, list, list.items, flowText(value));
  const first = list.items[0];
  if (!first) return [];
  const dash = tree.text.lastIndexOf('-', tree.locate(first.span).start - 1);
  return [newLine(tree, lastSpan(list), columnOf(tree.text, dash), `- ${flowText(value)}`)];
}

/** Writes a value after a colon that has none. */
function fillIn(tree: TextTree, map: MapNode, entry: MapEntry, value: string): SpanEdit[] {
  const { end } = tree.locate(entry.span);
  const colon = tree.text[end - 1] === ':';
  const text = `${colon ? '' : ':'} ${value}`;
  const after = tree.text[end];
  const apart = after === undefined || /[\s,}\]]/.test(after) ? '' : ' ';
  return [{ span: spanAt(tree, entry.span.block, end, end), newText: map.flow ? text : text + apart }];
}

/** Writes a value behind the colon instead of the lines below it. A comment behind the key stays. */
function foldIn(tree: TextTree, entry: MapEntry, old: TextNode, value: string): SpanEdit[] {
  const { text } = tree;
  const colon = text.indexOf(':', tree.locate(entry.key.span).end) + 1;
  const { end } = tree.locate(lastSpan(old));
  const ended = text[end - 1] === '\n';
  const stop = ended ? end - (text[end - 2] === '\r' ? 2 : 1) : lineEndOf(text, end);
  const { block } = entry.span;
  return [
    { span: spanAt(tree, block, colon, colon), newText: ` ${value}` },
    { span: spanAt(tree, block, lineEndOf(text, colon), stop), newText: '' },
  ];
}

/** A line after the line that a span ends on, below its trailing comment. */
function newLine(tree: TextTree, after: Span, column: number, line: string): SpanEdit {
  const { text } = tree;
  const { end } = tree.locate(after);
  const eol = eolOf(text);
  const indented = ' '.repeat(column) + line;
  // A text in `|` style already ends with its line's end.
  if (end > 0 && text[end - 1] === '\n') return { span: spanAt(tree, after.block, end, end), newText: indented + eol };
  const at = lineEndOf(text, end);
  return { span: spanAt(tree, after.block, at, at), newText: eol + indented };
}

/**
 * Takes out the lines of an entry that begins at `from`. Where something else stands before it on its line (a dash, or
 * a key), only the entry goes, and `instead` is left.
 */
function cutLines(tree: TextTree, span: Span, value: TextNode | undefined, from: number, instead: string): SpanEdit[] {
  const { text } = tree;
  const { end } = tree.locate(span);
  const start = lineStartOf(text, from);
  const alone = from - start === indentOf(text, start);
  const ended = end > 0 && text[end - 1] === '\n' && end > from;
  const stop = ended ? end : lineEndOf(text, end);
  if (alone) {
    const next = ended ? stop : stop + (text.startsWith('\r\n', stop) ? 2 : stop < text.length ? 1 : 0);
    const kept = commentsBeside(tree, value, from, next).map((c) => text.slice(start, from) + c + eolOf(text));
    return [{ span: spanAt(tree, span.block, start, next), newText: kept.join('') }];
  }
  if (instead !== '') {
    const keep = ended ? (/\r?\n$/.exec(text.slice(from, end))?.[0] ?? '') : '';
    return [{ span: spanAt(tree, span.block, from, end), newText: instead + keep }];
  }
  // The first of several entries behind a dash: the next one moves up to it.
  const rest = /^(?:\s|#[^\n]*(?=\n))*/.exec(text.slice(stop))?.[0] ?? '';
  const comments = rest.match(/#[^\r\n]*/g);
  if (!comments) return [{ span: spanAt(tree, span.block, from, stop + rest.length), newText: '' }];
  const blank = /^\s*/.exec(text.slice(stop))?.[0].length ?? 0;
  return [{ span: spanAt(tree, span.block, from, stop + blank), newText: '' }];
}

/** The innermost last thing in block style: its end is where the next line goes, and its block is that place's. */
function lastSpan(node: TextNode): Span {
  if (node.type === 'scalar' || node.flow) return node.span;
  if (node.type === 'list') return node.items.length > 0 ? lastSpan(node.items.at(-1)!) : node.span;
  const last = node.entries.at(-1);
  if (!last) return node.span;
  return last.value ? lastSpan(last.value) : last.span;
}
