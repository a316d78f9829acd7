/** How deep a milling cut goes: the heights of the floors that the text gives, as this set-up sees them. */

import type { Face } from '../../server/src/spec/model';
import { axisOf, intoOf, type Taken } from './frame';
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

export function looksUp(face: Face, view: View): boolean {
  return axisOf(face) === view.axes[2] && intoOf(face)[view.axes[2]] * view.sign < 0;
}
