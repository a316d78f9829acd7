/** Sums of ranges: low ends with low ends, high with high. */
export type Range = readonly [low: number, high: number];

export function add(...all: readonly Range[]): Range {
  return sum(all);
}

export function sum(all: readonly Range[]): Range {
  return all.reduce<Range>((a, b) => [a[0] + b[0], a[1] + b[1]], [0, 0]);
}

export function scaled([low, high]: Range, by: number): Range {
  return [low * by, high * by];
}

/** What one takes less than another, both by the same hands; the smaller difference first. */
export function saved(before: Range, after: Range): Range {
  const [a, b] = [before[0] - after[0], before[1] - after[1]];
  return a <= b ? [a, b] : [b, a];
}
