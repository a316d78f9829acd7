/**
 * The same set-ups in other orders, and with a cut made in another of them: faces with stock on them milled first, so that
 * nothing is measured from what the saw left, and what had rather be there before something else. Tried where the rules have something to say of the plan as it was found;
 * each set-up must cut then what it cut before.
 */
import { featureNameOf } from '../model/member-name';
import { againstCraft } from './craft';
import { type Item, needed } from './item';
import type { Pose } from './poses';
import type { Ask, Move, Tried } from './search';
import type { Made } from './trial';

/** So many orders are tried, those that promise most first; of each set-up in so many poses; and so many set-ups in all. */
const MOST_ORDERS = 6;
const MOST_POSES = 4;
const MOST_ATTEMPTS = 32;
/** With more set-ups there are too many orders to look at. */
const MOST_SETUPS = 5;

/** `poses`: the ways to hold it that there are; none where only hints are to be cured, and faces milled first would do. */
export function reordered(
  moves: readonly Move<Made>[],
  attempt: (ask: Ask<Made>) => Tried<Made>,
  poses: readonly Pose[],
): readonly (readonly Move<Made>[])[] {
  const orders = [
    ...(poses.length === 0 || moves.length > MOST_SETUPS ? [facesFirst(moves)] : permutations(moves)),
    ...(poses.length > 0 ? elsewhere(moves) : []),
  ]
    .filter((order) => order.some((m, i) => m !== moves[i]) && isPossible(order))
    .map((order) => ({ order, against: againstCraft(order), late: late(order) }))
    .sort((a, b) => a.against - b.against || a.late - b.late);
  let left = MOST_ATTEMPTS;
  const counted = (ask: Ask<Made>) => (left-- > 0 ? attempt(ask) : undefined);
  return orders.slice(0, MOST_ORDERS).flatMap(({ order }) => inOrder(order, counted, poses) ?? []);
}

/** Nothing is cut before what it needs. */
function isPossible(order: readonly Move<Made>[]): boolean {
  const done = new Set<number>();
  return order.every(({ cut }) => {
    for (const { index } of cut) done.add(index);
    return cut.every((i) => i.after.every((a) => done.has(a)));
  });
}

/** The same set-ups, one cut of them made in another: what a warning names, or what had rather be beside or after something. */
function* elsewhere(moves: readonly Move<Made>[]): Generator<readonly Move<Made>[]> {
  for (const from of moves) {
    const named = new Set(from.made.warnings.flatMap((w) => w.of.map((name) => featureNameOf(name))));
    for (const item of needed(from.cut)) {
      if (item.sawn || !(named.has(item.name) || item.rather || item.beside) || needed(from.cut).length < 2) continue;
      for (const to of moves) {
        if (to === from || !canBeCut(item, to.pose)) continue;
        yield moves.map((m) =>
          m === from
            ? { ...m, cut: m.cut.filter((i) => i !== item) }
            : m === to
              ? { ...m, cut: [...m.cut, item].sort((a, b) => a.index - b.index) }
              : m,
        );
      }
    }
  }
}

function inOrder(
  order: readonly Move<Made>[],
  attempt: (ask: Ask<Made>) => Tried<Made>,
  poses: readonly Pose[],
): readonly (readonly Move<Made>[])[] | undefined {
  const made: Move<Made>[] = [];
  const done = new Set<number>();
  for (const { pose, cut } of order) {
    const here = new Set(cut.map((i) => i.index));
    if (cut.some((i) => i.after.some((a) => !done.has(a) && !here.has(a)))) return undefined;
    // Seen from the other side it may be got at now; the pose that it was cut in goes first.
    const others = poses.filter((p) => p !== pose && needed(cut).every((i) => canBeCut(i, p))).sort(byLikeness(pose));
    let best: Move<Made> | undefined;
    for (const p of [pose, ...others].slice(0, MOST_POSES)) {
      const move = attempt({ before: made, done: new Set(done), pose: p, candidates: cut, enough: () => true });
      if (!move || move === 'too-little' || needed(move.cut).length < needed(cut).length) continue;
      if (!best || move.made.warnings.length < best.made.warnings.length) best = move;
      if (best.made.warnings.length === 0) break;
    }
    if (!best) return undefined;
    made.push(best);
    for (const { index } of best.cut) done.add(index);
  }
  return [made];
}

/** The same sides in the jaws of another vise first. */
function byLikeness(to: Pose): (a: Pose, b: Pose) => number {
  const unlike = (p: Pose) => (p.up === to.up ? 0 : 1) + (p.jaws[0] === to.jaws[0] ? 0 : 1);
  return (a, b) => unlike(a) - unlike(b);
}

function canBeCut({ from, face }: Item, pose: Pose): boolean {
  return (from & pose.bit) !== 0 && !(face && pose.jaws.some((j) => j === face));
}

function facesFirst(moves: readonly Move<Made>[]): readonly Move<Made>[] {
  return moves.toSorted((a, b) => Number(millsFaces(b)) - Number(millsFaces(a)));
}

/** How late faces are milled: the places of the set-ups that do, added up. */
function late(order: readonly Move<Made>[]): number {
  return order.reduce((sum, m, i) => sum + (millsFaces(m) ? i : 0), 0);
}

function millsFaces({ cut }: Move<Made>): boolean {
  return cut.some((i) => i.face !== undefined);
}

function permutations<T>(all: readonly T[]): readonly (readonly T[])[] {
  if (all.length < 2) return [all];
  return all.flatMap((first, i) => permutations(all.toSpliced(i, 1)).map((rest) => [first, ...rest]));
}
