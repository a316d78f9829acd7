/**
 * The section of a leaning prism by a plane that is neither square to it nor along it: the outline's polygon, cut off
 * at both ends of the sweep and laid into the plane. Exact for straight sides without arcs.
 */
import { line, pointAt, sweepOf } from './edge';
import { insetRegion } from './inset';
import { insetAt, type Prism } from './prism';
import type { Section } from './section';
import { sheetOf } from './sheet';
import type { Edge, Loop, Point2, Region } from './types';
import type { AxisIndex } from './vector';

export function obliqueSection(p: Prism, axis: AxisIndex, at: number, layers: number): Section {
  const edges: Edge[] = [];
  if (p.profile.type === 'straight') {
    layer(p, p.region, p.from, p.to, axis, at, edges);
    const arcs = [p.region.outer, ...p.region.holes].some((l) => l.edges.some((e) => e.type === 'arc'));
    return { sheet: sheetOf(edges, true), exact: !arcs };
  }
  for (let n = 0; n < layers; n++) {
    const w0 = p.from + ((p.to - p.from) * n) / layers;
    const w1 = p.from + ((p.to - p.from) * (n + 1)) / layers;
    for (const r of insetRegion(p.region, insetAt(p, (w0 + w1) / 2)) ?? []) layer(p, r, w0, w1, axis, at, edges);
  }
  return { sheet: sheetOf(edges, true), exact: false };
}

function layer(p: Prism, region: Region, from: number, to: number, axis: AxisIndex, at: number, out: Edge[]): void {
  const { origin, u, v, w } = p.frame;
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const depth = (q: Point2) => (at - origin[axis] - q.u * u[axis] - q.v * v[axis]) / w[axis];
  const place = (q: Point2) => {
    const s = depth(q);
    return { u: origin[i] + q.u * u[i] + q.v * v[i] + s * w[i], v: origin[k] + q.u * u[k] + q.v * v[k] + s * w[k] };
  };
  // (u, v) → plane turns the other way round when its determinant is negative
  const uu = u[i] - (u[axis] / w[axis]) * w[i];
  const uv = v[i] - (v[axis] / w[axis]) * w[i];
  const vu = u[k] - (u[axis] / w[axis]) * w[k];
  const vv = v[k] - (v[axis] / w[axis]) * w[k];
  const flips = uu * vv - uv * vu < 0;
  for (const loop of [region.outer, ...region.holes]) {
    let poly = polygonOf(loop);
    poly = cutOff(poly, (q) => depth(q) - from);
    poly = cutOff(poly, (q) => to - depth(q));
    if (poly.length < 3) continue;
    const placed = poly.map(place);
    if (flips) placed.reverse();
    for (let n = 0; n < placed.length; n++) {
      const a = placed[n]!;
      const b = placed[(n + 1) % placed.length]!;
      if (Math.abs(a.u - b.u) > 1e-12 || Math.abs(a.v - b.v) > 1e-12) out.push(line(a, b));
    }
  }
}

/** Corners of the loop; an arc becomes chords of equal area (a little outside and inside of it in turn). */
export function polygonOf(loop: Loop, perTurn = 96): Point2[] {
  const out: Point2[] = [];
  for (const e of loop.edges) {
    out.push(e.a);
    if (e.type === 'line') continue;
    const sweep = Math.abs(sweepOf(e));
    const n = Math.max(2, Math.ceil((sweep / (2 * Math.PI)) * perTurn));
    const step = sweep / n;
    const grow = Math.sqrt(step / Math.sin(step));
    for (let j = 1; j < n; j++) {
      const q = pointAt(e, j / n);
      out.push({ u: e.centre.u + (q.u - e.centre.u) * grow, v: e.centre.v + (q.v - e.centre.v) * grow });
    }
  }
  return out;
}

function cutOff(poly: readonly Point2[], keep: (q: Point2) => number): Point2[] {
  const out: Point2[] = [];
  for (let n = 0; n < poly.length; n++) {
    const a = poly[n]!;
    const b = poly[(n + 1) % poly.length]!;
    const ha = keep(a);
    const hb = keep(b);
    if (ha >= 0) out.push(a);
    if (ha >= 0 === hb >= 0) continue;
    const s = ha / (ha - hb);
    out.push({ u: a.u + (b.u - a.u) * s, v: a.v + (b.v - a.v) * s });
  }
  return out;
}
