/** The room that marks take: of words by the font's own metrics, of lines where they run. What must not meet is asked here. */
import { edgeRect, onSweep } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';
import type { Box, Mark, Words } from './marks';
import { extentOf } from './metrics';

/** Of the ink of words. */
export function boxOfWords({ x, y, words, cap, bold, width, turned }: Words): Box {
  const { above, below } = extentOf(words, cap, bold);
  return turned
    ? { x0: x - above, y0: y - width, x1: x + below, y1: y }
    : { x0: x, y0: y - above, x1: x + width, y1: y + below };
}

/** Of what is read: words and signs. */
export function boxOfSaying(mark: Mark): Box | undefined {
  if (mark.type === 'words') return boxOfWords(mark);
  return mark.type === 'sign' ? mark.box : undefined;
}

export function overlap(a: Box, b: Box, apart = 0): boolean {
  return a.x0 < b.x1 + apart && b.x0 < a.x1 + apart && a.y0 < b.y1 + apart && b.y0 < a.y1 + apart;
}

export function grown({ x0, y0, x1, y1 }: Box, by: number): Box {
  return { x0: x0 - by, y0: y0 - by, x1: x1 + by, y1: y1 + by };
}

/** Whether a line or arc comes into a box. */
export function enters(e: Edge, box: Box): boolean {
  const rect = edgeRect(e);
  if (rect.u0 > box.x1 || rect.u1 < box.x0 || rect.v0 > box.y1 || rect.v1 < box.y0) return false;
  if (within(e.a, box) || within(e.b, box)) return true;
  return e.type === 'line' ? lineEnters(e.a, e.b, box) : sidesOf(box).some(([p, q]) => crosses(e, p, q));
}

function within({ u, v }: Point2, { x0, y0, x1, y1 }: Box): boolean {
  return u > x0 && u < x1 && v > y0 && v < y1;
}

/** Liang and Barsky: what of the line is left between each pair of sides. */
function lineEnters(a: Point2, b: Point2, { x0, y0, x1, y1 }: Box): boolean {
  let [from, to] = [0, 1];
  const [du, dv] = [b.u - a.u, b.v - a.v];
  for (const [d, low, high] of [
    [du, x0 - a.u, x1 - a.u],
    [dv, y0 - a.v, y1 - a.v],
  ] as const) {
    if (d === 0) {
      if (low > 0 || high < 0) return false;
      continue;
    }
    const [t0, t1] = d > 0 ? [low / d, high / d] : [high / d, low / d];
    from = Math.max(from, t0);
    to = Math.min(to, t1);
  }
  return from < to;
}

function sidesOf({ x0, y0, x1, y1 }: Box): readonly (readonly [Point2, Point2])[] {
  const corners = [
    { u: x0, v: y0 },
    { u: x1, v: y0 },
    { u: x1, v: y1 },
    { u: x0, v: y1 },
  ];
  return corners.map((p, i) => [p, corners[(i + 1) % 4]!]);
}

function crosses(e: Extract<Edge, { type: 'arc' }>, p: Point2, q: Point2): boolean {
  const [du, dv] = [q.u - p.u, q.v - p.v];
  const [fu, fv] = [p.u - e.centre.u, p.v - e.centre.v];
  const a = du * du + dv * dv;
  const b = fu * du + fv * dv;
  const root = b * b - a * (fu * fu + fv * fv - e.radius * e.radius);
  if (a === 0 || root < 0) return false;
  return [-1, 1].some((s) => {
    const t = (-b + s * Math.sqrt(root)) / a;
    return t >= 0 && t <= 1 && onSweep(e, p.u + du * t, p.v + dv * t);
  });
}
