/** Completion in an entry of `include`: names of the other part, with what each is there. */
import { at, entry, mapAt, type TextTree } from '../text/tree';
import { featureText } from './feature-text';
import { type KindThere, thereOf } from './included-there';
import { CompletionItemKind } from './shapes';
import type { PartSnapshot, Snapshot } from './snapshot';
import type { Suggestion } from './suggestion';

/** Names of the other part that may stand as a value at a place; of a list those that it lacks. */
export function valuesThere({ kind, checked: { tree } }: Snapshot, path: readonly string[]): readonly Suggestion[] {
  const [section, by, field, inner] = path;
  if (kind !== 'part' || section !== 'include' || path.length !== 4) return [];
  if (field === 'place' && inner === 'by') return namesOf(tree, by!, 'feature');
  if (field !== 'features') return [];
  const list = at(entry(mapAt(tree.root, 'include'), by!)?.value, 'features');
  const named = new Set(list?.type === 'list' ? list.items.map((n) => (n.type === 'scalar' ? n.source : '')) : []);
  return namesOf(tree, by!, 'feature').filter(({ label }) => !named.has(label));
}

/** The same as keys of a map. */
export function keysThere({ checked: { tree } }: PartSnapshot, path: readonly string[]): readonly Suggestion[] {
  const [section, by, field] = path;
  if (section !== 'include' || path.length !== 3) return [];
  if (field === 'rename') return namesOf(tree, by!, 'feature');
  return field === 'parameters' ? namesOf(tree, by!, 'parameter') : [];
}

function namesOf(tree: TextTree, by: string, kind: KindThere): readonly Suggestion[] {
  const there = thereOf(tree, by);
  if (!there) return [];
  const { part, entries } = there;
  const named = (label: string, detail: string) => ({ label, detail, kind: CompletionItemKind.Reference });
  if (kind === 'parameter') return [...part.parameters.values()].map((p) => named(p.name, `${p.text} there`));
  return [...entries.keys()].map((name) => {
    const feature = part.featureByName.get(name);
    return named(name, feature ? featureText(feature, part) : 'not understood there');
  });
}
