/** How deep a milling cut goes: the heights of the floors that the text gives, as this set-up sees them. */

import type { Taken } from './frame';
import type { View } from './view';

/** `low`, `high`: of what is to be taken. */
export function floorsOf(taken: readonly Taken[], view: View, low: number, high: number): readonly number[] {
  const c = view.axes[2];
  const found = new Set<number>();
  for (const t of taken) {
    const down = t.frame.w[c] * view.sign;
    const ends: number[] = [];
    if (Math.abs(down) > 0.999) {
      const at = (d: number) => (t.frame.origin[c] + d * t.frame.w[c]) * view.sign;
      ends.push(Math.min(at(t.from), at(t.to)));
    } else if (Math.abs(down) < 1e-9) {
      const [u0, v0, u1, v1] = t.outline.box;
      const [d, lo, hi] = Math.abs(t.frame.u[c]) > 0.5 ? [t.frame.u, u0, u1] : [t.frame.v, v0, v1];
      ends.push(
        ...[lo, hi]
          .map((x) => (t.frame.origin[c] + x * d[c]) * view.sign)
          .sort((a, b) => a - b)
          .slice(0, 1),
      );
    }
    for (const h of ends) if (h < high) found.add(Math.max(low, h));
  }
  if (found.size === 0) found.add(low);
  return [...found];
}

/** Every border of layers within what is to be taken: for cutters that have the shape themselves. */
export function layersIn(view: View, low: number, high: number): readonly number[] {
  return [...view.bottom].filter((h) => h >= low - 1e-9 && h < high - 1e-9);
}

/** A height that so many of the columns end at is a floor. */
const SHARE = 0.05;

/** Where the columns of cells end that are to be taken: the heights that many of them share. */
export function bottomsOf(cells: readonly number[], view: View): readonly number[] {
  const n = view.na * view.nb;
  const deepest = new Map<number, number>();
  for (const c of cells) {
    const k = Math.floor(c / n);
    if (k > (deepest.get(c % n) ?? -1)) deepest.set(c % n, k);
  }
  const count = new Map<number, number>();
  for (const k of deepest.values()) count.set(k, (count.get(k) ?? 0) + 1);
  return [...count].filter(([, many]) => many > SHARE * deepest.size).map(([k]) => view.bottom[k]!);
}
