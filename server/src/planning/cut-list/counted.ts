/**
 * Where nothing can be bought, whether all pieces go into the bars that there are: each piece into the fullest bar that has
 * room first, and back where the rest then finds none.
 */
import { heed } from '../../effort';
import type { Cutting, Problem } from './types';

const MOST_LOOKS = 50_000;

/** `none`: there is no way; `unknown`: none was found in so many looks. */
export function allIntoCounted({ sizes, times, kinds }: Problem): readonly Cutting[] | 'none' | 'unknown' {
  const bars = kinds.flatMap((k, kind) =>
    Array.from({ length: k.most }, () => ({ kind, left: k.room, pattern: sizes.map(() => 0) })),
  );
  const pieces = sizes.flatMap((_, i) => Array.from({ length: times[i]! }, () => i));
  const need = pieces.reduce((sum, i) => sum + sizes[i]!, 0);
  if (need > bars.reduce((sum, b) => sum + b.left, 0)) return 'none';
  if (pieces.length > MOST_PIECES) return 'unknown';
  let looks = 0;
  const put = (n: number): boolean => {
    if (n === pieces.length) return true;
    const i = pieces[n]!;
    const tried = new Set<number>();
    for (const bar of bars.filter((b) => b.left >= sizes[i]!).sort((a, b) => a.left - b.left)) {
      if (tried.has(bar.left)) continue;
      tried.add(bar.left);
      heed(bars.length);
      if (++looks > MOST_LOOKS) return false;
      bar.left -= sizes[i]!;
      bar.pattern[i]! += 1;
      if (put(n + 1)) return true;
      bar.left += sizes[i]!;
      bar.pattern[i]! -= 1;
    }
    return false;
  };

  if (!put(0)) return looks > MOST_LOOKS ? 'unknown' : 'none';
  return bars.filter((b) => b.pattern.some((k) => k > 0)).map(({ kind, pattern }) => ({ kind, pattern, bars: 1 }));
}

/** More are not put one inside the other. */
const MOST_PIECES = 200;
