/**
 * Tabs as a sheet prints them: so many places on the outline, each with stock beyond the way that is printed, and every pass
 * that goes below their tops lifted there. Afterwards the frame is gone: cut at the tabs, filed.
 */
import type { Field } from './field';
import { placeOf } from './grid';
import type { View } from './view';

export interface PrintedTabs {
  readonly count: number;
  readonly wide: number;
  readonly high: number;
}

/** From the words of a set-up. */
export function readTabs(told: string): PrintedTabs | undefined {
  const [, count, wide, high] = /(\d+) tabs stay, ([\d.]+) wide, ([\d.]+) high/.exec(told) ?? [];
  return count ? { count: Number(count), wide: Number(wide), high: Number(high) } : undefined;
}

/** Heights over the tabs that passes are lifted to, by the words of the table. */
export function liftsIn(row: string): readonly (readonly [z: number, mm: number])[] {
  const said = /up to Z (-?[\d.]+) over each tab, within ([\d.]+) of its middle/.exec(row);
  return said ? [[Number(said[1]), Number(said[2])]] : [];
}

/** A frame so wide holds beyond the cutter, mm. Common practice, no source. */
const FRAME_MM = 6;
const NEAR_MM = 1.5;

/** What is wrong with them: one thing for each place. `view`: the work when all passes are done. */
export function wrongTabs(
  { count, wide, high }: PrintedTabs,
  places: readonly (readonly [number, number])[],
  widestMm: number,
  view: View,
): readonly string[] {
  const wrong: string[] = [];
  if (count < 2 || places.length !== count) wrong.push(`${places.length} places for ${count} tabs`);
  if (!(wide > 0) || !(high > 0)) wrong.push('tabs of nothing');
  const n = view.na * view.nb;
  const at = (a: number, b: number, of: Uint8Array) => {
    const [i, j] = [cellIn(view.edgeA, a), cellIn(view.edgeB, b)];
    if (i < 0 || j < 0) return false;
    for (let k = 0; k < view.layers; k++) if (of[i + j * view.na + k * n]) return true;
    return false;
  };
  for (const [a, b] of places) {
    const ring = Array.from({ length: 32 }, (_, k) => (k * Math.PI) / 16);
    const seen = (mm: number, of: Uint8Array) => ring.filter((t) => at(a + mm * Math.cos(t), b + mm * Math.sin(t), of));
    const [inside, outside] = [seen(NEAR_MM, view.finished), seen(NEAR_MM, view.finished).length < ring.length];
    if (inside.length === 0 || !outside) wrong.push(`no outline at ${a} ${b}`);
    // Straight out of the part, beyond the cutter's way.
    const [x, y] = inside.reduce<[number, number]>(([p, q], t) => [p + Math.cos(t), q + Math.sin(t)], [0, 0]);
    const long = Math.hypot(x, y) || 1;
    const out = widestMm + FRAME_MM - 0.5;
    if (!at(a - (x / long) * out, b - (y / long) * out, view.work)) wrong.push(`no frame beyond ${a} ${b}`);
  }
  return wrong;
}

function cellIn(edges: Float64Array, x: number): number {
  if (x < edges[0]! || x >= edges[edges.length - 1]!) return -1;
  let i = 0;
  while (edges[i + 1]! <= x) i++;
  return i;
}

/** What is not joined to the part any more, once the tabs are cut: all that no way through metal leads to from inside. */
export function withoutFrame({ grid, finished }: Field, work: Uint8Array): void {
  const reached = new Uint8Array(work.length);
  const open: number[] = [];
  const take = (c: number) => {
    if (!work[c] || reached[c]) return;
    reached[c] = 1;
    open.push(c);
  };
  const first = finished.findIndex((f, c) => f === 1 && work[c] === 1);
  if (first >= 0) take(first);
  while (open.length > 0) {
    const c = open.pop()!;
    const at = placeOf(grid, c);
    for (const k of [0, 1, 2] as const) {
      if (at[k]! > 0) take(c - grid.stride[k]!);
      if (at[k]! + 1 < grid.count[k]!) take(c + grid.stride[k]!);
    }
  }
  for (let c = 0; c < work.length; c++) if (!reached[c]) work[c] = 0;
}
