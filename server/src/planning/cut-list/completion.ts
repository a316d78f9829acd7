/**
 * Bars of one length, proven: bar after bar is completed around the longest piece that is left, in every way that no other
 * way is at least as good as, and what was found to fail is remembered. Source: R. E. Korf, "A new algorithm for optimal
 * bin packing" (AAAI 2002), from memory.
 */
import { leastBars } from './bounds';
import type { Pattern } from './types';

/** Bars looked at, at most. */
const MOST_NODES = 20_000;

/** At most `bars` bars; undefined: `none` there is no way, `unknown` the search was cut short. */
export function completed(
  sizes: readonly number[],
  times: readonly number[],
  room: number,
  bars: number,
): readonly Pattern[] | 'none' | 'unknown' {
  const failed = new Map<string, number>();
  let nodes = 0;
  const go = (open: number[], left: number): Pattern[] | undefined => {
    const first = open.findIndex((n) => n > 0);
    if (first < 0) return [];
    if (nodes >= MOST_NODES || leastBars(sizes, open, room) > left) return undefined;
    const key = open.join(',');
    if ((failed.get(key) ?? -1) >= left) return undefined;
    const { patterns, all } = completions(sizes, open, room, first);
    for (const pattern of patterns) {
      if (++nodes >= MOST_NODES) return undefined;
      const rest = go(
        open.map((n, i) => n - pattern[i]!),
        left - 1,
      );
      if (rest) return [pattern, ...rest];
    }
    if (!all) nodes = MOST_NODES;
    if (nodes < MOST_NODES) failed.set(key, Math.max(left, failed.get(key) ?? -1));
    return undefined;
  };
  const found = go([...times], bars);
  return found ?? (nodes < MOST_NODES ? 'none' : 'unknown');
}

interface Completions {
  readonly patterns: readonly Pattern[];
  /** There are no others. */
  readonly all: boolean;
}

/** Patterns with one piece `first` to which no further piece that is left can be added, the fullest first. */
function completions(sizes: readonly number[], open: readonly number[], room: number, first: number): Completions {
  const found: { readonly pattern: Pattern; readonly load: number }[] = [];
  const counts = sizes.map(() => 0);
  const go = (at: number, left: number): void => {
    if (found.length >= MOST_COMPLETIONS) return;
    let i = at;
    while (i < sizes.length && (open[i]! - counts[i]! <= 0 || sizes[i]! > left)) i++;
    if (i === sizes.length) {
      // Maximal: what was passed over with a smaller count must not fit any more.
      if (sizes.every((size, j) => size > left || counts[j]! >= open[j]!))
        found.push({ pattern: [...counts], load: room - left });
      return;
    }
    const most = Math.min(open[i]! - counts[i]!, Math.floor(left / sizes[i]!));
    const had = counts[i]!;
    for (let n = most; n >= 0; n--) {
      counts[i] = had + n;
      go(i + 1, left - n * sizes[i]!);
    }
    counts[i] = had;
  };
  counts[first] = 1;
  go(first, room - sizes[first]!);
  return {
    patterns: found.sort((a, b) => b.load - a.load).map((f) => f.pattern),
    all: found.length < MOST_COMPLETIONS,
  };
}
/** Ways to fill one bar, at most: beyond, a search that finds nothing is told as cut short. */
const MOST_COMPLETIONS = 2_000;
