/**
 * Edits of one field of a feature, as the author wrote it: in braces or as a block, with every comment left where it is.
 * A field that is not there is written beside a neighbour; one that goes leaves its line's comment standing.
 */
import { at, descend, type MapEntry, type MapNode, type TextTree } from '../text/tree';
import type { SpanEdit } from './rule';

/** The map of a feature as written; undefined where it is not one. */
export function featureMap(tree: TextTree, feature: string): MapNode | undefined {
  const node = at(at(tree.root, 'features'), feature);
  return node?.type === 'map' ? node : undefined;
}

/**
 * Sets `features/NAME/…path` to a text. The last step of `path` may be new: it is then written after `after`, or at
 * the end. Undefined where the way there is not a map.
 */
export function setField(
  tree: TextTree,
  feature: string,
  path: string | readonly PropertyKey[],
  text: string,
  after?: string,
): SpanEdit | undefined {
  const steps = typeof path === 'string' ? [path] : path;
  const map = mapAt(tree, feature, steps.slice(0, -1));
  if (!map) return undefined;
  const key = String(steps[steps.length - 1]);
  const entry = map.entries.find((e) => e.key.source === key);
  if (entry?.value) return { span: entry.value.span, newText: text };
  if (entry) return undefined;
  return insert(tree, map, `${key}: ${text}`, after);
}

/** Takes a field out. A comment at the end of its line stays. */
export function removeField(tree: TextTree, feature: string, key: string): SpanEdit | undefined {
  const map = mapAt(tree, feature, []);
  const entry = map?.entries.find((e) => e.key.source === key);
  if (!map || !entry || map.entries.length < 2) return undefined;
  return map.flow ? removeFlow(map, entry) : removeLine(tree, entry);
}

/** Writes another name for a field, its value staying as it is. */
export function renameField(tree: TextTree, feature: string, key: string, to: string): SpanEdit | undefined {
  const entry = mapAt(tree, feature, [])?.entries.find((e) => e.key.source === key);
  return entry && { span: entry.key.span, newText: to };
}

/** Several edits of one fix; undefined where one of them could not be made. */
export function together(...edits: readonly (SpanEdit | undefined)[]): readonly SpanEdit[] | undefined {
  return edits.every((e) => e !== undefined) ? (edits as readonly SpanEdit[]) : undefined;
}

function mapAt(tree: TextTree, feature: string, path: readonly PropertyKey[]): MapNode | undefined {
  const map = featureMap(tree, feature);
  if (!map) return undefined;
  let here = map;
  for (const step of path) {
    const next = descend(here, [step]);
    if (next === here || next?.type !== 'map') return undefined;
    here = next;
  }
  return here;
}

function insert(tree: TextTree, map: MapNode, text: string, after?: string): SpanEdit | undefined {
  const index = map.entries.findIndex((e) => e.key.source === after);
  const anchor = map.entries[index >= 0 ? index : map.entries.length - 1];
  if (!anchor) return undefined;
  if (map.flow) {
    const end = (anchor.value ?? anchor.key).span;
    return { span: { ...end, from: end.to }, newText: `, ${text}` };
  }
  // Before the next entry (or, at the end, before the last): so no comment that ends a line is parted from it.
  const next = (index >= 0 && map.entries[index + 1]) || anchor;
  const indent = indentOf(tree, next);
  if (indent === undefined) return undefined;
  return { span: { ...next.key.span, to: next.key.span.from }, newText: `${text}\n${indent}` };
}

/** What stands before a key on its line; undefined where that is more than blanks. */
function indentOf(tree: TextTree, entry: MapEntry): string | undefined {
  const { start } = tree.locate(entry.key.span);
  const line = tree.text.slice(tree.text.lastIndexOf('\n', start - 1) + 1, start);
  return /^ *$/.test(line) ? line : undefined;
}

function removeFlow(map: MapNode, entry: MapEntry): SpanEdit {
  const i = map.entries.indexOf(entry);
  const next = map.entries[i + 1];
  if (next) return { span: { ...entry.span, to: next.span.from }, newText: '' };
  const before = map.entries[i - 1]!;
  return { span: { ...entry.span, from: before.span.to }, newText: '' };
}

function removeLine(tree: TextTree, entry: MapEntry): SpanEdit | undefined {
  const indent = indentOf(tree, entry);
  if (indent === undefined) return undefined;
  const { end } = tree.locate(entry.span);
  const rest = /^[ \t]*(#[^\n]*)?(\r?\n)?/.exec(tree.text.slice(end))!;
  if (rest[1] !== undefined) return { span: entry.span, newText: '' };
  return {
    span: { ...entry.span, from: entry.span.from - indent.length, to: entry.span.to + rest[0].length },
    newText: '',
  };
}
