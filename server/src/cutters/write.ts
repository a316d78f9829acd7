/** Writes new tools into the text of a shop, below those that are there; the shop is then read again, and must be what it was and more. */
import { resolveShop } from '../model/shop';
import type { Shop } from '../model/shop-model';
import { addTexts, applyEdits, locateEdits, setText } from '../text/edit';
import { readText } from '../text/read';
import { entry as entryOf } from '../text/tree';
import { type Imported, isNew } from './into-shop';

/** The new text, or why it cannot be written. */
export function withTools(
  text: string,
  rows: readonly Imported[],
): { readonly text: string } | { readonly why: string } {
  const fresh = rows.filter(isNew).map(({ name, entry }) => [name ?? '', entry ?? ''] as const);
  const tree = readText(text);
  const broken = tree.problems[0];
  if (!tree.root || broken) return { why: `cannot be read: ${broken?.message ?? 'it is empty.'} Correct that first` };
  const tools = entryOf(tree.root, 'tools');
  if (tools?.value && tools.value.type !== 'map')
    return { why: 'has tools that are no names with entries. Write them like `em-6: { kind: end-mill, diameter: 6 }`' };
  const [first, ...rest] = fresh;
  if (!first) return { text };
  // Of a shop without tools the first opens the list, and the others follow it.
  const opened =
    tools?.value?.type === 'map' && tools.value.entries.length > 0
      ? undefined
      : applyEdits(text, locateEdits(tree, setText(tree, tree.root, 'tools', `{ ${first.join(': ')} }`)));
  const next = opened === undefined ? tree : readText(opened);
  const map = next.root && entryOf(next.root, 'tools')?.value;
  if (map?.type !== 'map') return { why: 'has no place for tools' };
  const left = opened === undefined ? fresh : rest;
  const written = left.length === 0 ? next.text : applyEdits(next.text, locateEdits(next, addTexts(next, map, left)));
  const [before, after] = [resolveShop(tree), resolveShop(readText(written))];
  return isMore(before, after, fresh.length) ? { text: written } : { why: 'would not read as it did with them in it' };
}

/** All tools that were there, as they were, and so many more; nothing more to complain of. */
function isMore(before: Shop, after: Shop, count: number): boolean {
  const told = ({ tools }: Shop) => new Map(tools.map(({ span: _, ...tool }) => [tool.name, JSON.stringify(tool)]));
  const [old, now] = [told(before), told(after)];
  return (
    now.size === old.size + count &&
    [...old].every(([name, tool]) => now.get(name) === tool) &&
    after.problems.length === before.problems.length
  );
}
