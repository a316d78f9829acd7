/**
 * The section of a straight volume by a plane that is neither square to its sweep nor along it: the outline's strip
 * between the two ends of the sweep, laid into the plane. Lines stay lines; arcs become arcs of ellipses.
 */

import { spend } from '../../effort';
import { DIGITS, ROUNDING } from '../../tolerance';
import { chords } from '../2d/chords';
import { arcsAlong } from '../2d/curve';
import { line, paramOf, pointAt, sweepOf } from '../2d/edge';
import { sheetOf } from '../2d/indexed-region';
import { momentsOf, regionEdges } from '../2d/moments';
import type { Edge, Point2 } from '../types';
import type { AxisIndex } from '../vector';
import type { Prism } from './prism';
import { CURVE_SHARE, type Section } from './section-value';

export function obliqueSection(p: Prism, axis: AxisIndex, at: number): Section {
  const { origin, u, v, w } = p.frame;
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const l = Math.hypot(u[axis], v[axis]);
  const nu = u[axis] / l;
  const nv = v[axis] / l;
  // how far along (nu, nv) the plane cuts the ends of the sweep
  const endAt = (s: number) => (at - origin[axis] - s * w[axis]) / l;
  const [d0, d1] = [endAt(p.from), endAt(p.to)].sort((a, b) => a - b) as [number, number];
  const depth = (q: Point2) => (at - origin[axis] - q.u * u[axis] - q.v * v[axis]) / w[axis];
  const place = (q: Point2): Point2 => {
    const s = depth(q);
    return { u: origin[i] + q.u * u[i] + q.v * v[i] + s * w[i], v: origin[k] + q.u * u[k] + q.v * v[k] + s * w[k] };
  };
  const own = regionEdges(p.region);
  const edges: Edge[] = [];
  let exact = true;
  for (const piece of between(own, nu, nv, d0, d1)) {
    if (piece.type === 'line') {
      edges.push(line(place(piece.a), place(piece.b)));
      continue;
    }
    const { a, b } = { a: place(piece.a), b: place(piece.b) };
    const point = (s: number) => (s === 0 ? a : s === 1 ? b : place(pointAt(piece, s)));
    const quarters = Math.max(1, Math.ceil(Math.abs(sweepOf(piece)) / (Math.PI / 2) - ROUNDING));
    for (let n = 0; n < quarters; n++) {
      const ok = arcsAlong(point, n / quarters, (n + 1) / quarters, CURVE_SHARE * piece.radius, edges);
      exact &&= ok;
    }
  }
  // where an end of the sweep cuts across: the outline's own side is kept on the left
  for (const [d, sign] of [
    [d0, 1],
    [d1, -1],
  ] as const) {
    for (const [t0, t1] of chords(own, nu, nv, d)) {
      const a = place({ u: d * nu - t0 * nv, v: d * nv + t0 * nu });
      const b = place({ u: d * nu - t1 * nv, v: d * nv + t1 * nu });
      edges.push(sign > 0 ? line(b, a) : line(a, b));
    }
  }
  spend(edges.length);
  const turned = momentsOf(edges).area < 0 ? edges.map(backwards) : edges;
  return { sheet: sheetOf(turned), exact };
}

function backwards(e: Edge): Edge {
  return e.type === 'line' ? line(e.b, e.a) : { ...e, a: e.b, b: e.a, ccw: !e.ccw };
}

/** What of the edges lies between two parallel lines. */
function between(edges: readonly Edge[], nu: number, nv: number, d0: number, d1: number): readonly Edge[] {
  return edges.flatMap((e) => {
    const cuts = [d0, d1].flatMap((d) => onLine(e, nu, nv, d)).map((q) => paramOf(e, q.u, q.v));
    const stops = [0, ...cuts.filter((t) => t > DIGITS && t < 1 - DIGITS).sort((a, b) => a - b), 1];
    const isBetween = (from: number, to: number) => {
      const m = pointAt(e, (from + to) / 2);
      const across = m.u * nu + m.v * nv;
      return across >= d0 && across <= d1;
    };
    if (stops.length === 2) return isBetween(0, 1) ? [e] : [];
    return stops.flatMap((to, n) => {
      const from = stops[n - 1];
      return from !== undefined && to - from > DIGITS && isBetween(from, to) ? [stretchOf(e, from, to)] : [];
    });
  });
}

/** A stretch of an edge, which keeps the ends it shares with it. */
function stretchOf(e: Edge, from: number, to: number): Edge {
  const a = from === 0 ? e.a : pointAt(e, from);
  const b = to === 1 ? e.b : pointAt(e, to);
  return e.type === 'line' ? line(a, b) : { ...e, a, b };
}

/** Where an edge meets the line nu·u + nv·v = d. */
function onLine(e: Edge, nu: number, nv: number, d: number): readonly Point2[] {
  if (e.type === 'line') {
    const ha = e.a.u * nu + e.a.v * nv - d;
    const hb = e.b.u * nu + e.b.v * nv - d;
    if (ha > 0 === hb > 0) return [];
    const s = ha / (ha - hb);
    return [{ u: e.a.u + (e.b.u - e.a.u) * s, v: e.a.v + (e.b.v - e.a.v) * s }];
  }
  const off = d - e.centre.u * nu - e.centre.v * nv;
  if (Math.abs(off) >= e.radius) return [];
  const reach = Math.sqrt(e.radius ** 2 - off ** 2);
  return [-reach, reach].map((t) => ({
    u: e.centre.u + off * nu - t * nv,
    v: e.centre.v + off * nv + t * nu,
  }));
}
