/** Names of features and parameters across the files that include each other: where one stands, and who else says it. */
import type { Mention } from '../model/names';
import { addText } from '../text/edit';
import { mapAt, type Span, scalarAt, within } from '../text/tree';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import { mayInclude } from './included';
import { broughtAs, calledHere, includesOf, type NamedThere, namesThere, prefixOf, standsAt } from './included-there';
import { rangeOf } from './lsp';
import { mentionAt } from './mentioned';
import type { Location } from './shapes';
import type { PartSnapshot, Snapshot } from './snapshot';
import type { Workspace } from './workspace';

/** The name of another file at an offset of an entry of `include`. */
export function thereAt(snapshot: Snapshot, offset: number): NamedThere | undefined {
  if (snapshot.kind !== 'part') return undefined;
  return namesThere(snapshot.checked.tree).find(({ span }) => isAt(snapshot, span, offset));
}

/** A name that a part gives to what it includes: a value under `rename`. */
export function renamedAt(snapshot: Snapshot, offset: number): Mention | undefined {
  if (snapshot.kind !== 'part') return undefined;
  for (const { map } of includesOf(snapshot.checked.tree))
    for (const { value } of mapAt(map, 'rename')?.entries ?? []) {
      if (value?.type !== 'scalar') continue;
      const name = String(value.value);
      const span = within(value, 0, name.length);
      if (isAt(snapshot, span, offset)) return { kind: 'feature', name, span, definition: true };
    }
  return undefined;
}

function isAt({ checked: { tree } }: Snapshot, span: Span, offset: number): boolean {
  const { start, end } = tree.locate(span);
  return start <= offset && offset <= end;
}

/** The name of another file at an offset, by its name here or there: where it stands; null where none is. */
export function includedAt(workspace: Workspace, snapshot: Snapshot, offset: number): Location | null {
  if (snapshot.kind !== 'part') return null;
  const { tree } = snapshot.checked;
  const mention = renamedAt(snapshot, offset) ?? mentionAt(snapshot, offset);
  const isOwn = mention && hasItself(snapshot, mention.name);
  const brought = mention?.kind === 'feature' && !isOwn ? broughtAs(tree, mention.name) : undefined;
  const named = thereAt(snapshot, offset) ?? (brought && { ...brought, kind: 'feature' as const });
  const found = named && standsAt(tree, named);
  return found ? { uri: workspace.name(found.path), range: found.range } : null;
}

/** Whether a part has a feature of that name itself. */
function hasItself({ checked: { tree } }: PartSnapshot, name: string): boolean {
  return (mapAt(tree.root, 'features')?.entries ?? []).some(({ key }) => String(key.value) === name);
}

/** Whether a name is a feature’s already, of the part itself or one that it includes. */
export function isTaken(part: PartSnapshot, name: string): boolean {
  return hasItself(part, name) || broughtAs(part.checked.tree, name) !== undefined;
}

/** Where a feature of another file stands that is called so here, as deep as the files go. */
export async function originOf(
  workspace: Workspace,
  home: Snapshot,
  name: string,
): Promise<{ readonly home: Snapshot; readonly name: string }> {
  const brought = home.kind === 'part' && !hasItself(home, name) ? broughtAs(home.checked.tree, name) : undefined;
  const from = brought && scalarAt(brought.map, 'from');
  const there = from && (await workspace.snapshot(resolvePath(home.path, String(from.value))));
  return there ? originOf(workspace, there, brought!.name) : { home, name };
}

/** A part that takes something of another by its name there. */
interface Taker {
  readonly part: PartSnapshot;
  /** Places in its entries where the name there stands. */
  readonly spans: readonly Span[];
  /** The entries that take it, with what it is called here before and after; `own`: where `rename` says so. */
  readonly called: readonly { readonly before: string; readonly after: string; readonly own: Span | undefined }[];
}

/** The parts that include a feature or parameter of a part, where its name there becomes another. */
export async function takersOf(
  workspace: Workspace,
  home: Snapshot,
  { kind, name }: Pick<Mention, 'kind' | 'name'>,
  after: string,
): Promise<readonly Taker[]> {
  if (home.kind !== 'part' || (kind !== 'feature' && kind !== 'parameter')) return [];
  const found: Taker[] = [];
  for (const path of await workspace.paths('part')) {
    if (keyOf(path) === keyOf(home.path) || !mayInclude((await workspace.text(path)) ?? '')) continue;
    const part = await workspace.snapshot(path);
    if (part?.kind !== 'part') continue;
    const { tree } = part.checked;
    const entries = includesOf(tree).filter(({ file }) => resolvePath(path, file) === keyOf(home.path));
    const isOfHome = ({ by }: NamedThere) => entries.some((e) => e.by === by);
    const spans = namesThere(tree).filter((n) => n.kind === kind && n.name === name && isOfHome(n));
    const called = entries.flatMap(({ map }) => {
      const before = kind === 'feature' ? calledHere(map, name) : undefined;
      if (before === undefined) return [];
      const own = scalarAt(mapAt(map, 'rename'), name)?.span;
      return [{ before, after: own ? before : `${prefixOf(map)}${after}`, own }];
    });
    if (spans.length > 0 || called.length > 0) found.push({ part, spans: spans.map((n) => n.span), called });
  }
  return found;
}

/** A feature from another file that is called `name` here is given another name, in its entry. */
export function calledAnew(
  snapshot: Snapshot,
  name: string,
  after: string,
): { range: Location['range']; newText: string }[] | undefined {
  if (snapshot.kind !== 'part' || hasItself(snapshot, name)) return undefined;
  const { tree } = snapshot.checked;
  const brought = broughtAs(tree, name);
  if (!brought) return undefined;
  const { map, name: there } = brought;
  const renamed = mapAt(map, 'rename');
  const own = scalarAt(renamed, there);
  const edits = own
    ? [{ span: own.span, newText: after }]
    : renamed
      ? addText(tree, renamed, there, after)
      : addText(tree, map, 'rename', `{ ${there}: ${after} }`);
  return edits.map(({ span, newText }) => ({ range: rangeOf(snapshot, span), newText }));
}
