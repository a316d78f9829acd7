/**
 * The same set-ups in another order: faces with stock on them milled first, so that nothing is measured from what the saw left.
 * Tried where the rules have something to say of the plan as it was found; each set-up must cut then what it cut before.
 */

import type { Ask, Move, Tried } from './search';
import type { Made } from './trial';

export function reordered(
  moves: readonly Move<Made>[],
  attempt: (ask: Ask<Made>) => Tried<Made>,
): readonly Move<Made>[] | undefined {
  const order = moves.toSorted((a, b) => Number(millsFaces(b)) - Number(millsFaces(a)));
  if (order.every((m, i) => m === moves[i])) return undefined;
  const made: Move<Made>[] = [];
  const done = new Set<number>();
  for (const { pose, cut } of order) {
    const here = new Set(cut.map((i) => i.index));
    if (cut.some((i) => i.after.some((a) => !done.has(a) && !here.has(a)))) return undefined;
    const move = attempt({ before: made, done: new Set(done), pose, candidates: cut, enough: () => true });
    if (!move || move === 'too-little' || move.cut.length < cut.length) return undefined;
    made.push(move);
    for (const { index } of cut) done.add(index);
  }
  return made;
}

function millsFaces({ cut }: Move<Made>): boolean {
  return cut.some((i) => i.face !== undefined);
}
