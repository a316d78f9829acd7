import { ROUNDING } from '../../tolerance';
/**
 * Labels along one side of a picture: kept apart, between two ends, moved as little as can be (least squares). With
 * y = x − (the spacings before it) this is isotonic regression: neighbours that would change places are pooled to their
 * mean (pool adjacent violators, Ayer et al. 1955); what lies beyond an end is put there, which is still the optimum.
 */

/** `wanted` in order. Undefined where they do not fit between the ends. */
export function spread(
  wanted: readonly number[],
  spacing: number,
  low: number,
  high: number,
): readonly number[] | undefined {
  return spreadApart(
    wanted,
    wanted.map((_, i) => i * spacing),
    low,
    high,
  );
}

/** The same for labels of several sizes: `before` is how far each must stand after the first. */
export function spreadApart(
  wanted: readonly number[],
  before: readonly number[],
  low: number,
  high: number,
): readonly number[] | undefined {
  const last = wanted.length - 1;
  if (last < 0) return [];
  if (before[last]! > high - low + ROUNDING) return undefined;
  const pools: { sum: number; count: number }[] = [];
  for (const [i, x] of wanted.entries()) {
    let pool = { sum: x - before[i]!, count: 1 };
    for (let first = pools.at(-1); first && mean(first) > mean(pool); first = pools.at(-1)) {
      pool = { sum: first.sum + pool.sum, count: first.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  }
  const most = high - before[last]!;
  return pools
    .flatMap((pool) => Array<number>(pool.count).fill(mean(pool)))
    .map((y, i) => Math.min(most, Math.max(low, y)) + before[i]!);
}

function mean({ sum, count }: { readonly sum: number; readonly count: number }): number {
  return sum / count;
}
