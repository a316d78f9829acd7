/**
 * One part in many sizes: each row of `variants` is a part of its own, whose text is the part's with other values of its
 * parameters. Lines stay where they are, so that what is found in it can be told at its place in the text as written.
 */
import { memo } from '../memo';
import { applyEdits, locateEdits, removeEntry, setText } from '../text/edit';
import {
  entry,
  type MapEntry,
  type MapNode,
  mapAt,
  type Span,
  scalarAt,
  type TextEdit,
  type TextTree,
} from '../text/tree';
import { scalarText } from '../text/write';
import { NAME } from './schema/common';

/** Where something of the text is written otherwise in a variant, and what stands for it in the table. */
interface Change extends TextEdit {
  readonly home: Span;
}

/** The rows that name a part, in text order. */
function rowsOf(root: MapNode | undefined): readonly MapEntry[] {
  const rows = mapAt(root, 'variants')?.entries ?? [];
  const names = rows.map(({ key }) => String(key.value));
  return rows.filter((row, i) => NAME.test(names[i]!) && names.indexOf(names[i]!) === i && row.value?.type !== 'list');
}

/** The part's text as this row has it: its name, its parameters, and no table. Undefined where there is no such row. */
export function variantText(tree: TextTree, name: string): string | undefined {
  const changes = changesFor(tree, name);
  return changes && applyEdits(tree.text, changes);
}

/** The text with values of these parameters, where it has them: what a job sets for all of its parts. */
export function textWith(tree: TextTree, values: ReadonlyMap<string, string>): string {
  const parameters = mapAt(tree.root, 'parameters');
  if (!parameters) return tree.text;
  const changes = [...values].flatMap(([name, text]) =>
    entry(parameters, name) ? setText(tree, parameters, name, text) : [],
  );
  return applyEdits(tree.text, locateEdits(tree, changes));
}

/** A place of a variant's text as one of the text as written. */
export function placeIn(tree: TextTree, name: string, variant: TextTree): (span: Span) => Span {
  const changes = changesFor(tree, name) ?? [];
  return (span) => {
    const { start, end } = variant.locate(span);
    const [from, to] = [start, end].map((at) => backTo(changes, at)) as [number | Span, number | Span];
    if (typeof from !== 'number') return from;
    const here = tree.locate(span);
    if (typeof to !== 'number' || (here.start === from && here.end === to)) return span;
    return { block: '', from, to };
  };
}

/** An offset of the text as written, or what stands for it in the table. */
function backTo(changes: readonly Change[], at: number): number | Span {
  let moved = 0;
  for (const { start, end, newText, home } of changes) {
    // What ends where the table began is above it.
    if (at < start + moved || (at === start + moved && newText.trim() === '')) break;
    if (at <= start + moved + newText.length && at < start + moved + Math.max(1, newText.length)) return home;
    moved += newText.length - (end - start);
  }
  return at - moved;
}

const changesFor = memo(
  (tree: TextTree, name: string): readonly Change[] | undefined => {
    const { root } = tree;
    const row = rowsOf(root).find(({ key }) => key.value === name);
    if (!root || !row) return undefined;
    const table = entry(root, 'variants')!;
    return [
      ...renamed(tree, root, row),
      ...valued(tree, root, row),
      ...withoutTable(tree, root, table).map((edit) => ({ ...edit, home: table.key.span })),
    ].sort((a, b) => a.start - b.start);
  },
  { size: 20 },
);

/** Its lines stay, empty. */
function withoutTable(tree: TextTree, root: MapNode, table: MapEntry): readonly TextEdit[] {
  if (root.flow) return locateEdits(tree, removeEntry(tree, root, table));
  const { start, end } = tree.locate(table.span);
  return [{ start, end, newText: tree.text.slice(start, end).replace(/[^\r\n]/g, '') }];
}

function renamed(tree: TextTree, root: MapNode, { key }: MapEntry): readonly Change[] {
  const part = scalarAt(root, 'part');
  if (!part || part.value === null) return [];
  const newText = scalarText(`${part.source}-${key.value}`);
  return [{ ...tree.locate(part.span), newText, home: key.span }];
}

function valued(tree: TextTree, root: MapNode, { value: row }: MapEntry): readonly Change[] {
  const parameters = mapAt(root, 'parameters');
  if (!parameters || row?.type !== 'map') return [];
  const names = row.entries.map((e) => String(e.key.value));
  return row.entries.flatMap(({ key, value }, i) => {
    const known = entry(parameters, names[i]!);
    if (!known || value?.type !== 'scalar' || value.value === null || names.indexOf(names[i]!) !== i) return [];
    const edits = setText(tree, parameters, String(known.key.value), scalarText(value.source));
    return locateEdits(tree, edits).map((edit) => ({ ...edit, home: key.span }));
  });
}
