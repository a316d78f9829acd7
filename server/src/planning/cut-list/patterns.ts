/** Every way to cut one bar to which no further piece that is asked for can be added. */
import type { Pattern, Problem } from './types';

/** Undefined where there are more than `most`. */
export function maximalPatterns({ sizes, times }: Problem, room: number, most: number): readonly Pattern[] | undefined {
  const found: Pattern[] = [];
  const counts = sizes.map(() => 0);
  const go = (at: number, left: number): boolean => {
    if (at === sizes.length) {
      if (sizes.every((size, i) => size > left || counts[i]! >= times[i]!)) found.push([...counts]);
      return found.length <= most;
    }
    for (let n = Math.min(times[at]!, Math.floor(left / sizes[at]!)); n >= 0; n--) {
      counts[at] = n;
      // What is left out here and does not fit into what the shorter ones can leave is found at the end.
      if (!go(at + 1, left - n * sizes[at]!)) return false;
    }
    counts[at] = 0;
    return true;
  };
  return go(0, room) ? found : undefined;
}
