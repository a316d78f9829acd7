/** Free room on a sheet: the largest rectangles that nothing stands in; figures take the uppermost, then the leftmost. */

import { ROUNDING } from '../../tolerance';
import { overlap } from '../draw/boxes';
import type { Box } from '../draw/marks';

export class Room {
  #free: Box[];

  constructor(field: Box) {
    this.#free = [field];
  }

  /** Its upper left corner; undefined where it fits nowhere. */
  place(w: number, h: number): { readonly x: number; readonly y: number } | undefined {
    const fits = this.#free.filter((f) => f.x1 - f.x0 >= w - ROUNDING && f.y1 - f.y0 >= h - ROUNDING);
    const best = fits.reduce<Box | undefined>(
      (b, f) => (!b || f.y0 < b.y0 - ROUNDING || (f.y0 < b.y0 + ROUNDING && f.x0 < b.x0) ? f : b),
      undefined,
    );
    if (!best) return undefined;
    this.take({ x0: best.x0, y0: best.y0, x1: best.x0 + w, y1: best.y0 + h });
    return { x: best.x0, y: best.y0 };
  }

  take(box: Box): void {
    const parts = this.#free.flatMap((f) => (overlap(f, box) ? around(f, box) : [f]));
    this.#free = parts.filter((a, i) => !parts.some((b, k) => k !== i && holds(b, a) && (k < i || !holds(a, b))));
  }

  /** The highest free room of such a width. */
  highest(w: number): number {
    return Math.max(0, ...this.#free.filter((f) => f.x1 - f.x0 >= w - ROUNDING).map((f) => f.y1 - f.y0));
  }
}

function around(f: Box, b: Box): Box[] {
  const parts: Box[] = [
    { ...f, x1: b.x0 },
    { ...f, x0: b.x1 },
    { ...f, y1: b.y0 },
    { ...f, y0: b.y1 },
  ];
  return parts.filter((p) => p.x1 - p.x0 > 1 && p.y1 - p.y0 > 1);
}

function holds(a: Box, b: Box): boolean {
  return a.x0 <= b.x0 && a.y0 <= b.y0 && a.x1 >= b.x1 && a.y1 >= b.y1;
}
