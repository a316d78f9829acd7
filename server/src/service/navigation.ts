/** Places of a document beyond its names: what means the same here, where its links lead, what is round the cursor. */
import type { MapEntry, Span, TextNode } from '../text/tree';
import { kindOf, resolvePath } from './documents';
import { rangeOf } from './lsp';
import { mentionAt, mentionsOf } from './mentioned';
import type { Range } from './shapes';
import type { Snapshot } from './snapshot';
import type { Workspace } from './workspace';

/** As the protocol counts them. */
const READ = 2;
const WRITE = 3;

/** The name at an offset, everywhere in this document: written where it is defined, read elsewhere. */
export function highlightsAt(snapshot: Snapshot, offset: number): { range: Range; kind: 2 | 3 }[] {
  const mention = mentionAt(snapshot, offset);
  if (!mention) return [];
  return mentionsOf(snapshot)
    .filter((m) => m.kind === mention.kind && m.name === mention.name)
    .map((m) => ({ range: rangeOf(snapshot, m.span), kind: m.definition ? WRITE : READ }));
}

/** A name that is typed over where it stands changes wherever it stands in this document, as it is typed. */
export function linkedAt(snapshot: Snapshot, offset: number): { ranges: Range[]; wordPattern: string } | null {
  const ranges = highlightsAt(snapshot, offset).map(({ range }) => range);
  return ranges.length > 1 ? { ranges, wordPattern: '[a-zA-Z][a-zA-Z0-9-]*' } : null;
}

/** Names of files in a document that lead to one of ours. */
export async function linksOf(
  workspace: Workspace,
  snapshot: Snapshot,
): Promise<{ range: Range; target: string; tooltip: string }[]> {
  const root = snapshot.checked.tree.root;
  const found: { range: Range; target: string; tooltip: string }[] = [];
  const add = async (entry: MapEntry | undefined, tooltip: string) => {
    if (entry?.value?.type !== 'scalar' || typeof entry.value.value !== 'string') return;
    const target = resolvePath(snapshot.path, entry.value.source);
    if (!kindOf(target) || (await workspace.text(target)) === undefined) return;
    found.push({ range: rangeOf(snapshot, entry.value.span), target: workspace.name(target), tooltip });
  };
  const entryOf = (node: TextNode | undefined, key: string) =>
    node?.type === 'map' ? node.entries.find((e) => e.key.value === key) : undefined;
  if (snapshot.kind !== 'shop') await add(entryOf(root, 'shop'), 'Open the shop');
  const groups = entryOf(root, 'include')?.value;
  for (const group of snapshot.kind === 'part' && groups?.type === 'map' ? groups.entries : [])
    await add(entryOf(group.value, 'from'), 'Open the part');
  if (snapshot.kind === 'part') await add(entryOf(entryOf(root, 'stock')?.value, 'from'), 'Open the blank');
  if (snapshot.kind !== 'job') return found;
  const parts = entryOf(root, 'parts')?.value;
  for (const part of parts?.type === 'map' ? parts.entries : [])
    await add(entryOf(part.value, 'spec'), 'Open the part');
  return found;
}

interface SelectionRange {
  range: Range;
  parent?: SelectionRange;
}

/** What stands round an offset, from the smallest to the whole document. */
export function selectionAt(snapshot: Snapshot, offset: number): SelectionRange {
  const { tree } = snapshot.checked;
  const holds = (span: Span) => {
    const { start, end } = tree.locate(span);
    return start <= offset && offset <= end;
  };
  const whole = { start: snapshot.lines.position(0), end: snapshot.lines.position(snapshot.text.length) };
  let around: SelectionRange = { range: whole };
  const into = (span: Span) => {
    const range = rangeOf(snapshot, span);
    const last = around.range;
    const isSame = JSON.stringify(range) === JSON.stringify(last);
    if (!isSame) around = { range, parent: around };
  };
  for (let node: TextNode | undefined = tree.root; node && holds(node.span); ) {
    into(node.span);
    if (node.type === 'scalar') break;
    if (node.type === 'list') {
      node = node.items.find((item) => holds(item.span));
      continue;
    }
    const entry: MapEntry | undefined = node.entries.find((e) => holds(e.span));
    if (!entry) break;
    into(entry.span);
    node = holds(entry.key.span) ? entry.key : entry.value;
  }
  return around;
}

/** More are no answer to a question. */
const MOST_FOUND = 300;

/** Parts of the workspace and their features by a few letters of the name, in that order of the letters. */
export async function foundInWorkspace(
  workspace: Workspace,
  query: string,
): Promise<{ name: string; kind: 1 | 5; containerName?: string; location: { uri: string; range: Range } }[]> {
  const letters = query.toLowerCase();
  const fits = (name: string) => {
    let at = 0;
    for (const c of name.toLowerCase()) if (c === letters[at]) at++;
    return at === letters.length;
  };
  const found: { name: string; kind: 1 | 5; containerName?: string; location: { uri: string; range: Range } }[] = [];
  for (const path of await workspace.paths('part')) {
    const snapshot = await workspace.snapshot(path);
    if (snapshot?.kind !== 'part') continue;
    const { part } = snapshot.checked;
    const at = (span: Span) => ({ uri: workspace.name(snapshot.path), range: rangeOf(snapshot, span) });
    if (fits(part.name)) found.push({ name: part.name, kind: 1, location: at(part.nameSpan) });
    for (const f of part.features)
      if (fits(f.name)) found.push({ name: f.name, kind: 5, containerName: part.name, location: at(f.nameSpan) });
    if (found.length >= MOST_FOUND) return found.slice(0, MOST_FOUND);
  }
  return found;
}
