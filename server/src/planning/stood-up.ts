/**
 * Work that stands high in a vise, and would stand better against an angle plate: of a plan that was found, each set-up
 * that is warned of for its height is tried so, and the better one stays.
 */
import { withCovered } from './covered';
import type { LaidDown } from './poses';
import type { Ask, Move, Tried } from './search';
import type { Made } from './trial';

const TOO_HIGH: ReadonlySet<string> = new Set(['hold/overhang', 'hold/tips-out']);

export function stoodUp(
  moves: readonly Move<Made>[],
  ways: readonly LaidDown[],
  ask: (a: Ask<Made>) => Tried<Made>,
): readonly Move<Made>[] {
  const made: Move<Made>[] = [];
  for (const move of moves) {
    const { pose, cut } = move;
    const way = ways.find((w) => w.by === 'angle-plate' && w.up === pose.up);
    const high = !pose.by && move.made.warnings.some((w) => TOO_HIGH.has(w.rule));
    const done = withCovered(made.flatMap((m) => m.cut));
    const all = (some: readonly unknown[]) => some.length === cut.length;
    const other = high && way ? ask({ before: made, done, pose: way, candidates: cut, enough: all }) : undefined;
    const better =
      other && other !== 'too-little' && all(other.cut) && other.made.warnings.length < move.made.warnings.length;
    made.push(better ? other : move);
  }
  return made;
}
