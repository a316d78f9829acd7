/**
 * A field of unequal cells over the stock and some room round it. Every plane of the part (faces, floors, walls along the
 * axes) is a border between cells, with a layer of 0.02 mm on either side, so that such planes are known to 0.01 mm; between
 * them, where something is round or slanted, cells are `fine` wide, elsewhere coarse.
 */
export interface Line {
  /** Borders, rising; one more than cells. */
  readonly edges: Float64Array;
  /** Middles of the cells. */
  readonly mid: Float64Array;
}
export interface Grid {
  readonly lines: readonly [Line, Line, Line];
  readonly count: readonly [number, number, number];
  /** Index = i · stride[0] + j · stride[1] + k · stride[2]. */
  readonly stride: readonly [number, number, number];
  readonly size: number;
  /** Width of a fine cell, mm. */
  readonly fine: number;
}
export interface Wanted {
  readonly planes: Set<number>;
  /** Where a cell must have its middle. */
  readonly middles: Set<number>;
  readonly fine: { from: number; to: number; step: number }[];
}
export const HAIR_MM = 0.02;

export function lineOf(lo: number, hi: number, wanted: Wanted, coarse: (at: number) => number): Line {
  const borders: number[] = [lo, hi];
  const add = (x: number) => x > lo && x < hi && borders.push(x);
  for (const p of wanted.planes) {
    add(p - HAIR_MM);
    add(p);
    add(p + HAIR_MM);
  }
  for (const f of wanted.fine) {
    add(f.from);
    add(f.to);
  }
  borders.sort((a, b) => a - b);
  let kept = borders.filter((b, i) => i === 0 || b - borders[i - 1]! > 1e-7);
  for (const m of wanted.middles) {
    if (m <= lo + HAIR_MM || m >= hi - HAIR_MM) continue;
    // Beside a plane a cell has its middle within a hair of it already; other borders make room.
    if ([...wanted.planes].some((p) => Math.abs(p - m) < HAIR_MM)) continue;
    kept = kept.filter((b) => Math.abs(b - m) > HAIR_MM || b === lo || b === hi);
    kept.push(m - HAIR_MM / 2, m + HAIR_MM / 2);
    kept = kept.sort((a, b) => a - b);
  }
  const edges: number[] = [kept[0]!];
  for (let i = 1; i < kept.length; i++) {
    const [a, b] = [kept[i - 1]!, kept[i]!];
    const mid = (a + b) / 2;
    const step = wanted.fine.reduce((s, f) => (mid > f.from && mid < f.to ? Math.min(s, f.step) : s), coarse(mid));
    const n = Math.max(1, Math.ceil((b - a) / step - 1e-6));
    for (let k = 1; k <= n; k++) edges.push(a + ((b - a) * k) / n);
  }
  const mid = Float64Array.from({ length: edges.length - 1 }, (_, i) => (edges[i]! + edges[i + 1]!) / 2);
  return { edges: Float64Array.from(edges), mid };
}

export function gridOf(lines: readonly [Line, Line, Line], fine: number): Grid {
  const count = lines.map((l) => l.mid.length) as [number, number, number];
  return {
    lines,
    count,
    stride: [1, count[0], count[0] * count[1]],
    size: count[0] * count[1] * count[2],
    fine,
  };
}

/** First cell whose middle is not below x. */
export function firstAt({ mid }: Line, x: number): number {
  let [lo, hi] = [0, mid.length];
  while (lo < hi) {
    const m = (lo + hi) >> 1;
    if (mid[m]! < x) lo = m + 1;
    else hi = m;
  }
  return lo;
}

export function cellVolume(g: Grid, c: number): number {
  const [i, j, k] = placeOf(g, c);
  const w = (l: Line, n: number) => l.edges[n + 1]! - l.edges[n]!;
  return w(g.lines[0], i) * w(g.lines[1], j) * w(g.lines[2], k);
}
export function placeOf(g: Grid, c: number): [number, number, number] {
  const [n, m] = g.count;
  return [c % n, Math.floor(c / n) % m, Math.floor(c / (n * m))];
}

/** Which cell between these borders a place lies in; beyond them the first or the last. */
export function cellAt(edges: Float64Array, x: number): number {
  let [lo, hi] = [0, edges.length - 2];
  while (lo < hi) {
    const m = (lo + hi + 1) >> 1;
    if (edges[m]! <= x) lo = m;
    else hi = m - 1;
  }
  return lo;
}
