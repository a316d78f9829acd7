/** What another part's file lacks itself: of files that it names in turn. */
import { entry, type TextTree } from '../../text/tree';
import type { Part } from '../model';

/** What is wrong with what it includes; undefined where nothing is. */
export function lackingIn(
  { part, tree }: { readonly part: Part; readonly tree: TextTree },
  under: 'include' | 'stock' = 'include',
): string | undefined {
  const group = entry(tree.root, under);
  if (!group) return undefined;
  const { start, end } = tree.locate(group.span);
  return part.problems.find(({ span }) => {
    const at = tree.locate(span);
    return start <= at.start && at.end <= end;
  })?.message;
}
