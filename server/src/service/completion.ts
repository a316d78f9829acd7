/** Completion: the keys that may stand here, the values a key may take, and names with the reason to pick them. */

import { type DocumentKind, type SchemaInfo, schemaAt } from '../model/lookup';
import { code, messageMarkdown } from '../text/markdown';
import { descend, type MapNode } from '../text/tree';
import { faceEdits } from './face-edits';
import { keysThere } from './included-suggestions';
import { rangeBetween } from './lsp';
import { type CompletionItem, CompletionItemKind, InsertTextFormat, InsertTextMode, type Range } from './shapes';
import { skeletonOf } from './skeletons';
import type { PartSnapshot, Snapshot } from './snapshot';
import { FEATURE_SNIPPETS } from './snippets';
import { eachOnce, listed, type Suggestion } from './suggestion';
import { namesFor } from './suggestions';
import { type Typing, typingAt } from './typing';

/** What could be written at an offset of the text; empty where nothing is known. */
export function completionsAt(snapshot: Snapshot, offset: number): CompletionItem[] {
  const typing = typingAt(snapshot.text, offset);
  if (!typing) return [];
  return typing.what === 'key' ? keyItems(snapshot, typing, offset) : valueItems(snapshot, typing, offset);
}

function keyItems(snapshot: Snapshot, typing: Typing, offset: number): CompletionItem[] {
  const { root } = snapshot.checked.tree;
  const info = schemaAt(snapshot.kind, typing.path, root);
  const there = descend(root, typing.path);
  const known = new Set(there?.type === 'map' ? keysOf(there, snapshot, typing) : []);
  const range = rangeBetween(snapshot, typing.from, offset);
  // The name of what is there already: another one, and no second colon or body behind it.
  const hasColon = /^[\w-]*[ \t]*:/.test(snapshot.text.slice(offset, offset + 80));
  const items: CompletionItem[] = (info?.keys ?? [])
    .filter((key) => !known.has(key.key))
    .map((key, i) => ({
      label: key.key,
      kind: CompletionItemKind.Property,
      detail: key.required ? `${listed(key.description)} (needed)` : listed(key.description),
      sortText: `${key.required ? 'a' : 'b'}${String(i).padStart(3, '0')}`,
      ...(hasColon
        ? { textEdit: { range, newText: key.key } }
        : written(key.key, skeletonOf(snapshot, typing.path, key.key, key.example), range)),
      data: { kind: snapshot.kind, path: [...typing.path, key.key] },
    }));
  for (const { label, detail } of snapshot.kind === 'part' ? namedKeys(snapshot, typing.path) : [])
    if (!known.has(label))
      items.push({
        label,
        kind: CompletionItemKind.Property,
        detail,
        textEdit: { range, newText: hasColon ? label : `${label}: ` },
      });
  if (
    snapshot.kind === 'part' &&
    typing.path.length === 1 &&
    typing.path[0] === 'features' &&
    !typing.flow &&
    !hasColon
  ) {
    for (const snippet of FEATURE_SNIPPETS) {
      items.push({
        label: snippet.label,
        kind: CompletionItemKind.Snippet,
        detail: snippet.detail,
        insertTextFormat: InsertTextFormat.Snippet,
        insertTextMode: InsertTextMode.adjustIndentation,
        textEdit: { range, newText: snippet.text },
      });
    }
  }
  return items;
}

/** Names that this text or another has, where they stand as keys. */
function namedKeys(snapshot: PartSnapshot, path: readonly string[]): readonly Pick<Suggestion, 'label' | 'detail'>[] {
  if (path.length !== 2 || path[0] !== 'variants') return keysThere(snapshot, path);
  return [...snapshot.checked.part.parameters.values()].map(({ name, text }) => ({
    label: name,
    detail: `${text} where this row does not say otherwise`,
  }));
}

/** What more there is to say of an item that somebody looks at. */
export function explained<T extends { readonly data?: unknown }>(item: T): T {
  const { kind, path } = (item.data ?? {}) as { kind?: DocumentKind; path?: readonly string[] };
  const info = kind && path && schemaAt(kind, path);
  if (!info) return item;
  const key = path.at(-1);
  const lines = [
    messageMarkdown(info.description),
    ...(info.fallback ? [`Left out: ${messageMarkdown(info.fallback)}.`] : []),
    ...(info.example ? [`For example ${code(`${key}: ${info.example}`)}`] : []),
  ];
  return { ...item, documentation: { kind: 'markdown', value: lines.filter(Boolean).join('\n\n') } };
}

/** A key with its value laid out to be filled in, or with room for the one word that comes next. */
function written(key: string, skeleton: string | undefined, range: Range) {
  if (skeleton !== undefined)
    return { insertTextFormat: InsertTextFormat.Snippet, textEdit: { range, newText: `${key}: ${skeleton}$0` } };
  return {
    textEdit: { range, newText: `${key}: ` },
    command: { title: 'Suggest', command: 'editor.action.triggerSuggest' },
  };
}

/** Keys already written in the map, less the one under the cursor. */
function keysOf(map: MapNode, snapshot: Snapshot, typing: Typing): string[] {
  const { tree } = snapshot.checked;
  return map.entries
    .filter((e) => {
      const { start, end } = tree.locate(e.key.span);
      return !(start <= typing.from + typing.prefix.length && typing.from <= end);
    })
    .map((e) => String(e.key.value ?? e.key.source));
}

function valueItems(snapshot: Snapshot, typing: Typing, offset: number): CompletionItem[] {
  const { root } = snapshot.checked.tree;
  const info = schemaAt(snapshot.kind, typing.path, root);
  if (!info) return [];
  const items = eachOnce([...valuesOf(info), ...namesFor(snapshot, info, typing)]);
  // Inside an expression only the last word is completed.
  const word = info.unit ? /[a-z][a-z0-9.-]*$/i.exec(typing.prefix)?.[0] : typing.prefix;
  const range = rangeBetween(snapshot, offset - (word?.length ?? 0), offset);
  const colon = snapshot.text[typing.from - 1] === ':' ? ' ' : '';
  const [section, name, key] = typing.path;
  const feature =
    section === 'features' && key === 'face' && name !== undefined ? descend(root, [section, name]) : undefined;
  const beside = (label: string) => {
    const edits = feature ? faceEdits(snapshot, feature, label) : [];
    return edits.length > 0 ? { additionalTextEdits: edits } : {};
  };
  return items.map((item, i) => ({
    ...beside(item.label),
    label: item.label,
    kind: item.kind,
    detail: item.detail,
    ...(item.whole && { documentation: { kind: 'markdown' as const, value: messageMarkdown(item.whole) } }),
    sortText: String(i).padStart(5, '0'),
    filterText: item.label,
    textEdit: { range, newText: colon + item.label },
  }));
}

function valuesOf(info: SchemaInfo): Suggestion[] {
  return (info.values ?? []).map(({ value, description }) => ({
    label: value,
    detail: listed(description),
    kind: CompletionItemKind.EnumMember,
    ...(listed(description) !== description && { whole: description }),
  }));
}
