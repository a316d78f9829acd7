/** The pattern that is worth most in one bar: by the length used, or by a price on each piece. Branch and bound over counts. */
import { ROUNDING } from '../../tolerance';
import type { Pattern } from './types';

/** Looked at, at most: what is found by then is good, and need not be the best. */
const MOST_NODES = 50_000;

interface Worth {
  readonly pattern: Pattern;
  readonly value: number;
  /** Nothing in the bar is worth more. */
  readonly best: boolean;
}

/** As much of the room as can be used. */
export function fullest(sizes: readonly number[], times: readonly number[], room: number): Pattern {
  return worthMost(sizes, times, room, sizes).pattern;
}

/** Worth of a piece: `prices`, not below 0. */
export function worthMost(
  sizes: readonly number[],
  times: readonly number[],
  room: number,
  prices: readonly number[],
): Worth {
  const order = sizes
    .map((_, i) => i)
    .filter((i) => prices[i]! > 0 && times[i]! > 0 && sizes[i]! <= room)
    .sort((a, b) => prices[b]! / sizes[b]! - prices[a]! / sizes[a]! || sizes[b]! - sizes[a]!);
  const counts = new Array<number>(order.length).fill(0);
  let [best, value, nodes] = [[...counts], 0, 0];
  const go = (at: number, left: number, sum: number): void => {
    if (sum > value) [best, value] = [[...counts], sum];
    const i = order[at];
    // No more than the next piece's worth for its length, all the way.
    if (i === undefined || nodes >= MOST_NODES || sum + (left * prices[i]!) / sizes[i]! <= value + ROUNDING) return;
    for (let n = Math.min(times[i]!, Math.floor(left / sizes[i]!)); n >= 0; n--) {
      nodes++;
      counts[at] = n;
      go(at + 1, left - n * sizes[i]!, sum + n * prices[i]!);
      if (nodes >= MOST_NODES) break;
    }
    counts[at] = 0;
  };
  go(0, room, 0);
  const pattern = sizes.map(() => 0);
  for (const [k, i] of order.entries()) pattern[i] = best[k]!;
  return { pattern, value, best: nodes < MOST_NODES };
}
