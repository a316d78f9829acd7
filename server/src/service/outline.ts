/** The outline and what can be folded: features by kind, setups with their cuts. */

import { at, type MapEntry, type TextNode } from '../text/tree';
import { rangeOf } from './lsp';
import { type DocumentSymbol, type FoldingRange, SymbolKind } from './shapes';
import type { Snapshot } from './snapshot';

const SECTION_KIND: Readonly<Record<string, SymbolKind>> = {
  features: SymbolKind.Class,
  parameters: SymbolKind.Variable,
  variants: SymbolKind.Object,
  setups: SymbolKind.Event,
  datums: SymbolKind.Key,
  tools: SymbolKind.Object,
  machines: SymbolKind.Object,
  vises: SymbolKind.Object,
  'v-blocks': SymbolKind.Object,
  'angle-plates': SymbolKind.Object,
  holders: SymbolKind.Object,
  parts: SymbolKind.File,
};

/** Symbols beyond this many children of one section are left out, so that an outline never lags behind the text. */
const MOST_SYMBOLS = 5000;

/** The editor's outline: the top-level entries, with features, setups, tools and the like below theirs. */
export function symbolsOf(snapshot: Snapshot): DocumentSymbol[] {
  const root = snapshot.checked.tree.root;
  return (root?.entries ?? []).map((entry) => {
    const name = keyText(entry);
    const kind = SECTION_KIND[name];
    const children = kind && entry.value?.type === 'map' ? entry.value.entries.slice(0, MOST_SYMBOLS) : [];
    return {
      name,
      detail: scalarText(entry.value),
      kind: kind ? SymbolKind.Namespace : SymbolKind.Property,
      range: rangeOf(snapshot, entry.span),
      selectionRange: rangeOf(snapshot, entry.key.span),
      children: children.map((child) => ({
        name: keyText(child),
        detail: detailOf(child.value),
        kind: kind!,
        range: rangeOf(snapshot, child.span),
        selectionRange: rangeOf(snapshot, child.key.span),
      })),
    };
  });
}

/** Every entry that stands on more than one line, and runs of comments. */
export function foldsOf(snapshot: Snapshot): FoldingRange[] {
  const folds: FoldingRange[] = [];
  const visit = (node: TextNode | undefined, entry?: MapEntry): void => {
    if (!node || node.type === 'scalar') return;
    if (entry) {
      const { start, end } = rangeOf(snapshot, entry.span);
      const endLine = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
      if (endLine > start.line) folds.push({ startLine: start.line, endLine });
    }
    if (node.type === 'list') for (const item of node.items) visit(item);
    else for (const child of node.entries) visit(child.value, child);
  };
  visit(snapshot.checked.tree.root);
  return [...folds, ...commentFolds(snapshot.text)];
}

function commentFolds(text: string): FoldingRange[] {
  const folds: FoldingRange[] = [];
  let first = -1;
  const lines = text.split('\n');
  for (const [i, line] of [...lines, ''].entries()) {
    const comment = /^\s*#/.test(line);
    if (comment && first < 0) first = i;
    if (!comment && first >= 0) {
      if (i - 1 > first) folds.push({ startLine: first, endLine: i - 1, kind: 'comment' });
      first = -1;
    }
  }
  return folds;
}

function keyText(entry: MapEntry): string {
  return String(entry.key.value ?? entry.key.source) || '(no name)';
}

function scalarText(node: TextNode | undefined): string {
  return node?.type === 'scalar' ? node.source : '';
}

function detailOf(node: TextNode | undefined): string {
  if (node?.type === 'scalar') return node.source;
  const words = ['kind', 'face', 'thread', 'diameter', 'up'].map((key) => scalarText(at(node, key)));
  return words.filter(Boolean).join(' ');
}
