/** How deep a cell lies under the surface of what is marked: its distance to the nearest cell that is not. */
import { type Grid, placeOf } from './grid';

/** Undefined where nothing unmarked is within the limit, mm. Outside the grid nothing is marked. */
export function depthAt(g: Grid, marked: (cell: number) => boolean, cell: number, limitMm: number): number | undefined {
  const at = placeOf(g, cell);
  const [x, y, z] = g.lines;
  const [cx, cy, cz] = [x.mid[at[0]]!, y.mid[at[1]]!, z.mid[at[2]]!];
  const range = (k: 0 | 1 | 2, c: number): [number, number] => {
    const { mid } = g.lines[k];
    let [lo, hi] = [at[k], at[k]];
    while (lo > 0 && mid[lo - 1]! >= c - limitMm) lo--;
    while (hi < mid.length - 1 && mid[hi + 1]! <= c + limitMm) hi++;
    return [lo, hi];
  };
  const [i0, i1] = range(0, cx);
  const [j0, j1] = range(1, cy);
  const [k0, k1] = range(2, cz);
  let least = limitMm * limitMm + 1e-12;
  let found = false;
  for (let k = k0; k <= k1; k++)
    for (let j = j0; j <= j1; j++) {
      const d = (z.mid[k]! - cz) ** 2 + (y.mid[j]! - cy) ** 2;
      if (d > least) continue;
      for (let i = i0; i <= i1; i++) {
        const e = d + (x.mid[i]! - cx) ** 2;
        if (e <= least && !marked(i + j * g.stride[1] + k * g.stride[2])) {
          least = e;
          found = true;
        }
      }
    }
  return found ? Math.sqrt(least) : undefined;
}

export interface Patch {
  readonly volumeMm3: number;
  /** Of the cell deepest below the surface. */
  readonly depthMm: number;
  readonly at: readonly [number, number, number] | undefined;
}

/** Cells that lie deeper than the tolerance, as one figure. */
export function patchOf(
  g: Grid,
  cells: readonly number[],
  marked: (cell: number) => boolean,
  toleranceMm: number,
  volume: (c: number) => number,
): Patch {
  let sum = 0;
  const deep: number[] = [];
  for (const c of cells) {
    if (depthAt(g, marked, c, toleranceMm) !== undefined) continue;
    sum += volume(c);
    deep.push(c);
  }
  if (deep.length === 0) return { volumeMm3: 0, depthMm: 0, at: undefined };
  let [depth, at] = [toleranceMm, deep[0]!];
  // Each that is deeper than the deepest so far is measured; a few are enough of thousands.
  const step = Math.max(1, Math.floor(deep.length / 200));
  for (let n = 0; n < deep.length; n += step) {
    const c = deep[n]!;
    if (depth >= 4) break;
    if (depthAt(g, marked, c, depth) !== undefined) continue;
    depth = depthAt(g, marked, c, 4) ?? 4;
    at = c;
  }
  const [i, j, k] = placeOf(g, at);
  return { volumeMm3: sum, depthMm: depth, at: [g.lines[0].mid[i]!, g.lines[1].mid[j]!, g.lines[2].mid[k]!] };
}
