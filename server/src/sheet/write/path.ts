/** Lines and arcs as path data, which SVG and the PDF writer read alike. One unit is one millimetre. */
import { isFullCircle, sweepOf } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';

/** A length, to a thousandth. */
export function n(x: number): string {
  const rounded = Number(x.toFixed(3));
  return String(rounded === 0 ? 0 : rounded);
}

export function pathOf(edges: readonly Edge[]): string {
  let out = '';
  let at: Point2 | undefined;
  for (const e of edges) {
    if (!at || at.u !== e.a.u || at.v !== e.a.v) out += `M${n(e.a.u)} ${n(e.a.v)}`;
    out += along(e);
    at = e.b;
  }
  return out;
}

export function outlineOf(loops: readonly (readonly Edge[])[]): string {
  return loops.map((edges) => `${pathOf(edges)}Z`).join('');
}

function along(e: Edge): string {
  if (e.type === 'line') return `L${n(e.b.u)} ${n(e.b.v)}`;
  const way = e.ccw ? 1 : 0;
  const turn = (large: 0 | 1, to: Point2) => `A${n(e.radius)} ${n(e.radius)} 0 ${large} ${way} ${n(to.u)} ${n(to.v)}`;
  if (!isFullCircle(e)) return turn(Math.abs(sweepOf(e)) > Math.PI ? 1 : 0, e.b);
  const across = { u: 2 * e.centre.u - e.a.u, v: 2 * e.centre.v - e.a.v };
  return turn(0, across) + turn(0, e.a);
}
