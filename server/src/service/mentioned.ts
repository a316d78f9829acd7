/** The names that a document mentions, and the one at a place. */
import { jobMentions, type Mention, partMentions, shopMentions } from '../model/names';
import type { Snapshot } from './snapshot';

export function mentionsOf(snapshot: Snapshot): readonly Mention[] {
  if (snapshot.kind === 'part') return partMentions(snapshot.checked.tree);
  if (snapshot.kind === 'shop') return shopMentions(snapshot.checked.tree, snapshot.checked.shop);
  return snapshot.kind === 'job' ? jobMentions(snapshot.checked.tree) : [];
}

/** The name at an offset. */
export function mentionAt(snapshot: Snapshot, offset: number): Mention | undefined {
  const { tree } = snapshot.checked;
  return mentionsOf(snapshot).find((m) => {
    const { start, end } = tree.locate(m.span);
    return start <= offset && offset <= end;
  });
}
