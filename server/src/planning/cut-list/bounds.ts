/** What no cut list can cost less than, without a search. */
import type { Problem } from './types';

/**
 * The best of three: all lengths at the cheapest price of a length, offcuts used to the full; the cheapest bar that holds
 * the longest piece; and, where bars of one length are bought, whole bars by the pieces over half a bar. Source of the
 * last: S. Martello and P. Toth, Knapsack Problems (Wiley 1990), section 8.3, bound L2.
 */
export function quickBound(problem: Problem): number {
  return Math.max(byLength(problem), forLongest(problem), inWholeBars(problem));
}

function forLongest({ sizes, times, kinds }: Problem): number {
  const longest = Math.max(0, ...sizes.filter((_, i) => times[i]! > 0));
  const costs = kinds.flatMap((k) => (longest > 0 && k.most > 0 && k.room >= longest ? [k.cost] : []));
  return costs.length === 0 ? 0 : Math.min(...costs);
}

function byLength({ sizes, times, kinds }: Problem): number {
  let open = sizes.reduce((sum, size, i) => sum + size * times[i]!, 0);
  let cost = 0;
  // The cheapest length first, as long as there is any.
  for (const kind of kinds.filter((k) => k.room > 0).toSorted((a, b) => a.cost / a.room - b.cost / b.room)) {
    const used = kind.count === undefined ? open : Math.min(open, kind.room * kind.most);
    cost += (used / kind.room) * kind.cost;
    open -= used;
    if (open <= 0) break;
  }
  return cost;
}

function inWholeBars({ sizes, times, kinds }: Problem): number {
  const bought = kinds.filter((k) => k.count === undefined);
  if (bought.length !== kinds.length || new Set(bought.map((k) => k.room)).size !== 1) return 0;
  const cost = Math.min(...bought.map((k) => k.cost));
  return cost * leastBars(sizes, times, bought[0]!.room);
}

/** Bars of one length, at least: the greatest of L2 over all thresholds. */
export function leastBars(sizes: readonly number[], times: readonly number[], room: number): number {
  const total = sizes.reduce((sum, size, i) => sum + size * times[i]!, 0);
  let least = Math.ceil(total / room);
  const halves = [...new Set([0, ...sizes.filter((s) => 2 * s <= room)])];
  for (const small of halves) {
    let [alone, half, roomLeft, load] = [0, 0, 0, 0];
    sizes.forEach((size, i) => {
      const n = times[i]!;
      // With the smallest that counts it does not share a bar.
      if (size > room - small) alone += n;
      else if (2 * size > room) {
        half += n;
        roomLeft += n * (room - size);
      } else if (size >= small) load += n * size;
    });
    least = Math.max(least, alone + half + Math.max(0, Math.ceil((load - roomLeft) / room)));
  }
  return least;
}
