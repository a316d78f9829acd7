/**
 * Where two edges meet: line with line, line with arc, arc with arc. Touching counts, within a tolerance: an end that
 * lies on the other edge and a tangent that misses or bites by less than the tolerance give one point.
 */

import { ROUNDING } from '../../tolerance';
import type { ArcEdge, Edge, LineEdge, Point2 } from '../types';
import { distanceTo, isFullCircle, onSweep, type Rect } from './edge';

/**
 * Adds the points where `e` and `f` meet to `out`. Of edges that run along each other: the ends of the common stretch.
 * The rectangles round them save work where they are known.
 */
export function meet(e: Edge, f: Edge, tol: number, out: Point2[], rects?: readonly [e: Rect, f: Rect]): void {
  const er = rects?.[0];
  const fr = rects?.[1];
  if (e.type === 'line') {
    if (f.type === 'line') lineLine(e, f, tol, out);
    else lineArc(e, f, tol, out);
  } else if (f.type === 'line') lineArc(f, e, tol, out);
  else arcArc(e, f, tol, out);
  // ends on the other edge: corners, T-joints and common stretches
  if (touches(f, fr, e.a, tol)) out.push(e.a);
  if (e.b !== e.a && touches(f, fr, e.b, tol)) out.push(e.b);
  if (touches(e, er, f.a, tol)) out.push(f.a);
  if (f.b !== f.a && touches(e, er, f.b, tol)) out.push(f.b);
}

function touches(e: Edge, r: Rect | undefined, p: Point2, tol: number): boolean {
  if (r && (p.u < r.u0 - tol || p.u > r.u1 + tol || p.v < r.v0 - tol || p.v > r.v1 + tol)) return false;
  return distanceTo(e, p.u, p.v) <= tol;
}

function lineLine(e: LineEdge, f: LineEdge, tol: number, out: Point2[]): void {
  const eu = e.b.u - e.a.u;
  const ev = e.b.v - e.a.v;
  const fu = f.b.u - f.a.u;
  const fv = f.b.v - f.a.v;
  const det = eu * fv - ev * fu;
  const scale = Math.sqrt((eu * eu + ev * ev) * (fu * fu + fv * fv));
  if (Math.abs(det) <= 1e-12 * scale) return;
  const gu = f.a.u - e.a.u;
  const gv = f.a.v - e.a.v;
  const t = (gu * fv - gv * fu) / det;
  const s = (gu * ev - gv * eu) / det;
  if (t < 0 || t > 1 || s < 0 || s > 1) return;
  const p = { u: e.a.u + t * eu, v: e.a.v + t * ev };
  // a crossing within tolerance of an end is that end, added by the caller
  if (!nearEnd(e, p, tol / 2) && !nearEnd(f, p, tol / 2)) out.push(p);
}

function lineArc(e: LineEdge, f: ArcEdge, tol: number, out: Point2[]): void {
  const du = e.b.u - e.a.u;
  const dv = e.b.v - e.a.v;
  const l = Math.sqrt(du * du + dv * dv);
  if (l === 0) return;
  const tu = du / l;
  const tv = dv / l;
  const ru = f.centre.u - e.a.u;
  const rv = f.centre.v - e.a.v;
  const foot = ru * tu + rv * tv;
  const off = ru * tv - rv * tu;
  const gap = Math.abs(off) - f.radius;
  if (gap > tol) return;
  const h2 = f.radius * f.radius - off * off;
  const h = Math.abs(gap) <= tol ? 0 : Math.sqrt(Math.max(0, h2));
  for (let n = h === 0 ? 1 : 0; n < 2; n++) {
    const s = n === 0 ? foot - h : foot + h;
    if (s < 0 || s > l) continue;
    const u = e.a.u + s * tu;
    const v = e.a.v + s * tv;
    if (!onSweep(f, u, v)) continue;
    const p = { u, v };
    if (!nearEnd(e, p, tol / 2) && !nearEnd(f, p, tol / 2)) out.push(p);
  }
}

function arcArc(e: ArcEdge, f: ArcEdge, tol: number, out: Point2[]): void {
  const du = f.centre.u - e.centre.u;
  const dv = f.centre.v - e.centre.v;
  const d = Math.sqrt(du * du + dv * dv);
  if (d <= tol) return; // one centre: apart, or along each other, which the ends tell
  const far = d - (e.radius + f.radius);
  const near = Math.abs(e.radius - f.radius) - d;
  if (far > tol || near > tol) return;
  const along = (d * d + e.radius * e.radius - f.radius * f.radius) / (2 * d);
  const touching = Math.abs(far) <= tol || Math.abs(near) <= tol;
  const h = touching ? 0 : Math.sqrt(Math.max(0, e.radius * e.radius - along * along));
  const reach = touching ? Math.sign(along) * e.radius : along;
  for (const s of h === 0 ? [0] : [-h, h]) {
    const p = {
      u: e.centre.u + (reach * du - s * dv) / d,
      v: e.centre.v + (reach * dv + s * du) / d,
    };
    if (onSweep(e, p.u, p.v) && onSweep(f, p.u, p.v) && !nearEnd(e, p, tol / 2) && !nearEnd(f, p, tol / 2)) out.push(p);
  }
}

function nearEnd(e: Edge, p: Point2, tol: number): boolean {
  if (e.type === 'arc' && isFullCircle(e)) return false;
  return (
    (Math.abs(p.u - e.a.u) <= tol && Math.abs(p.v - e.a.v) <= tol) ||
    (Math.abs(p.u - e.b.u) <= tol && Math.abs(p.v - e.b.v) <= tol)
  );
}

/** The points where two edges meet, each once. */
export function meetings(e: Edge, f: Edge, tol = ROUNDING): readonly Point2[] {
  const all: Point2[] = [];
  meet(e, f, tol, all);
  const once: Point2[] = [];
  for (const p of all) {
    if (!once.some((q) => Math.abs(p.u - q.u) <= 2 * tol && Math.abs(p.v - q.v) <= 2 * tol)) once.push(p);
  }
  return once;
}
