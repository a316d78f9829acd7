/** What stands in the files that a part includes: the names there that its entries may use, and what each is. */
import type { OtherPart } from '../model/include/entries';
import { partThere } from '../model/part';
import { linesOf } from '../text/lines';
import { at, entry, type MapNode, mapAt, type Span, scalarAt, type TextTree, within } from '../text/tree';
import type { Range } from './shapes';

export type KindThere = 'feature' | 'parameter';

/** A name of another file, as an entry of `include` writes it. */
export interface NamedThere {
  readonly kind: KindThere;
  readonly name: string;
  readonly span: Span;
  /** The entry, by its name and what is in it. */
  readonly by: string;
  readonly map: MapNode;
}

/** The entries of `include`, each with the file that it names. */
export function includesOf({ root }: TextTree): readonly { by: string; map: MapNode; file: string }[] {
  return (mapAt(root, 'include')?.entries ?? []).flatMap(({ key, value }) => {
    const file = scalarAt(value, 'from');
    return value?.type === 'map' && file ? [{ by: String(key.value), map: value, file: String(file.value) }] : [];
  });
}

/** Every name of another file in a part’s entries. */
export function namesThere(tree: TextTree): readonly NamedThere[] {
  return includesOf(tree).flatMap(({ by, map }) => {
    const list = at(map, 'features');
    const values = [...(list?.type === 'list' ? list.items : []), scalarAt(mapAt(map, 'place'), 'by')];
    const keys = (field: string) => (mapAt(map, field)?.entries ?? []).map(({ key }) => key);
    const named = (kind: KindThere) => (node: (typeof values)[number]) =>
      node?.type === 'scalar'
        ? [{ kind, name: String(node.value), span: within(node, 0, String(node.value).length), by, map }]
        : [];
    return [
      ...[...values, ...keys('rename')].flatMap(named('feature')),
      ...keys('parameters').flatMap(named('parameter')),
    ];
  });
}

/** What a feature of the other part is called here, where an entry takes it. */
export function calledHere(map: MapNode, name: string): string | undefined {
  const list = at(map, 'features');
  if (list?.type === 'list' && !list.items.some((n) => n.type === 'scalar' && String(n.value) === name))
    return undefined;
  const own = scalarAt(mapAt(map, 'rename'), name);
  return own ? String(own.value) : `${prefixOf(map)}${name}`;
}

export function prefixOf(map: MapNode): string {
  const prefix = scalarAt(map, 'prefix');
  return prefix ? String(prefix.value) : '';
}

/** The part that an entry takes features of, as its own file has it. */
export function thereOf(tree: TextTree, by: string): OtherPart | undefined {
  const entry = includesOf(tree).find((e) => e.by === by);
  const other = entry && tree.others.get(entry.file);
  return other && 'text' in other ? partThere(other) : undefined;
}

/** The feature of another file that is called so here: its name there, and the entry that brings it. */
export function broughtAs(tree: TextTree, name: string): { by: string; map: MapNode; name: string } | undefined {
  for (const { by, map } of includesOf(tree)) {
    const there = thereOf(tree, by);
    for (const one of there?.entries.keys() ?? []) if (calledHere(map, one) === name) return { by, map, name: one };
  }
  return undefined;
}

/** Where it stands in its own file: document, place. */
export function standsAt(
  tree: TextTree,
  { by, kind, name }: Pick<NamedThere, 'by' | 'kind' | 'name'>,
): { readonly path: string; readonly range: Range } | undefined {
  const there = thereOf(tree, by);
  const span =
    kind === 'feature'
      ? there?.entries.get(name)?.key.span
      : entry(mapAt(there?.tree.root, 'parameters'), name)?.key.span;
  const file = includesOf(tree).find((e) => e.by === by)?.file;
  const other = file === undefined ? undefined : tree.others.get(file);
  if (!there || !span || !other || !('path' in other)) return undefined;
  const { start, end } = there.tree.locate(span);
  const lines = linesOf(there.tree.text);
  return { path: other.path, range: { start: lines.position(start), end: lines.position(end) } };
}
