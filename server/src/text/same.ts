/** Whether two trees say the same, wherever they say it. */
import type { TextNode } from './tree';

export function sameTree(a: TextNode | undefined, b: TextNode | undefined): boolean {
  if (!a || !b) return a === b;
  if (a.type === 'scalar' || b.type === 'scalar')
    return a.type === 'scalar' && b.type === 'scalar' && a.value === b.value && a.quoted === b.quoted;
  if (a.type === 'list' || b.type === 'list')
    return (
      a.type === 'list' &&
      b.type === 'list' &&
      a.items.length === b.items.length &&
      a.items.every((item, i) => sameTree(item, b.items[i]))
    );
  return (
    a.entries.length === b.entries.length &&
    a.entries.every((e, i) => {
      const other = b.entries[i]!;
      return e.key.value === other.key.value && sameTree(e.value, other.value);
    })
  );
}
