/**
 * Lines, words and whole drawings as SVG: one unit is one millimetre, y runs down. Arcs stay arcs. Every word of the
 * user's goes through `text`.
 */
import { isFullCircle, sweepOf } from '../../geometry/2d/edge';
import type { Edge, Point2, Region } from '../../geometry/types';
import { markup } from '../../text/shown';

/** Where a view's lower left corner stands on the sheet. */
export interface Corner {
  readonly x: number;
  readonly y: number;
}

/** A length, to a tenth of a micron. */
export function n(x: number): string {
  const rounded = Number(x.toFixed(4));
  return String(rounded === 0 ? 0 : rounded);
}

/** Closed outlines, for filling: holes run the other way. */
export function outlinePath(regions: readonly Region[], at: Corner): string {
  return regions
    .flatMap(({ outer, holes }) => [outer, ...holes])
    .map(({ edges }) => `${moveTo(edges[0]!, at)}${edges.map((e) => along(e, at)).join('')}Z`)
    .join('');
}

/** Lines and arcs one by one, for drawing. */
export function strokePath(edges: readonly Edge[], at: Corner): string {
  return edges.map((e) => moveTo(e, at) + along(e, at)).join('');
}

export function text(x: number, y: number, size: number, words: string, more = ''): string {
  return `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}"${more}>${markup(words)}</text>`;
}

function point(p: Point2, at: Corner): string {
  return `${n(at.x + p.u)} ${n(at.y - p.v)}`;
}

function moveTo(e: Edge, at: Corner): string {
  return `M${point(e.a, at)}`;
}

function along(e: Edge, at: Corner): string {
  if (e.type === 'line') return `L${point(e.b, at)}`;
  // counter-clockwise as seen is against the direction of SVG's angles
  const way = e.ccw ? 0 : 1;
  const turn = (large: 0 | 1, to: Point2) => `A${n(e.radius)} ${n(e.radius)} 0 ${large} ${way} ${point(to, at)}`;
  if (!isFullCircle(e)) return turn(Math.abs(sweepOf(e)) > Math.PI ? 1 : 0, e.b);
  const across = { u: 2 * e.centre.u - e.a.u, v: 2 * e.centre.v - e.a.v };
  return turn(0, across) + turn(0, e.a);
}
