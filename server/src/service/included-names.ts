/** Names of features that stand in another part's file: where that is, and why they are not renamed from here. */
import type { Mention } from '../model/names';
import { mapAt, scalarAt } from '../text/tree';
import { cursorAt } from './cursor';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import { mentionAt } from './mentioned';
import type { Location } from './shapes';
import type { PartSnapshot, Snapshot } from './snapshot';
import type { Workspace } from './workspace';

/** The feature of another file that is named at an offset, by its name here or there; null where none is. */
export function includedAt(workspace: Workspace, snapshot: Snapshot, offset: number): Location | null {
  if (snapshot.kind !== 'part') return null;
  const { part, tree } = snapshot.checked;
  const mention = mentionAt(snapshot, offset);
  const { path, scalar } = cursorAt(tree, offset);
  const [section, by, field] = path;
  const isNamedThere = section === 'include' && path.length > 3 && (field === 'features' || field === 'rename');
  const found = part.features.find(({ name, included }) => {
    if (!included) return false;
    if (mention?.kind === 'feature' && mention.name === name) return true;
    return isNamedThere && included.by === by && (included.name === scalar?.source || name === scalar?.source);
  })?.included;
  return found ? { uri: workspace.name(found.path), range: found.range } : null;
}

/** A sentence where a name is bound to one in another file, so that it cannot be changed in one of them alone. */
export async function boundElsewhere(
  workspace: Workspace,
  home: Snapshot,
  { kind, name }: Mention,
): Promise<string | undefined> {
  if (home.kind !== 'part' || (kind !== 'feature' && kind !== 'parameter')) return undefined;
  const own = kind === 'feature' ? home.checked.part.featureByName.get(name)?.included : undefined;
  if (own) return `\`${name}\` comes from ${own.file}. Give it another name under \`rename\` of \`${own.by}\`.`;
  for (const path of await workspace.paths('part')) {
    if (keyOf(path) === keyOf(home.path)) continue;
    const part = await workspace.snapshot(path);
    if (part?.kind === 'part' && binds(part, keyOf(home.path), { kind, name }))
      return `\`${name}\` is included by ${path}, where it is named as well. Change both by hand.`;
  }
  return undefined;
}

function binds(
  { path, checked: { part, tree } }: PartSnapshot,
  home: string,
  { kind, name }: Pick<Mention, 'kind' | 'name'>,
): boolean {
  if (kind === 'feature')
    return part.features.some((f) => f.included?.name === name && keyOf(f.included.path) === home);
  return (mapAt(tree.root, 'include')?.entries ?? []).some(({ value }) => {
    const from = scalarAt(value, 'from');
    return from && resolvePath(path, from.source) === home && scalarAt(mapAt(value, 'parameters'), name);
  });
}
