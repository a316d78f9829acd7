/** A line across an outline: the stretches of it that lie inside. */

import { heed } from '../../effort';
import { DIGITS } from '../../tolerance';
import type { Edge } from '../types';
import { windingOf } from './inside';

/** The stretches of the line `nu·u + nv·v = d` inside the edges, by the distance t along (−nv, nu). */
export function chords(edges: readonly Edge[], nu: number, nv: number, d: number): [number, number][] {
  heed(edges.length);
  const ts: number[] = [];
  for (const e of edges) {
    if (e.type === 'line') {
      const ha = e.a.u * nu + e.a.v * nv - d;
      const hb = e.b.u * nu + e.b.v * nv - d;
      if (ha > 0 === hb > 0) continue;
      const s = ha / (ha - hb);
      ts.push(-(e.a.u + (e.b.u - e.a.u) * s) * nv + (e.a.v + (e.b.v - e.a.v) * s) * nu);
      continue;
    }
    const off = e.centre.u * nu + e.centre.v * nv - d;
    const h2 = e.radius * e.radius - off * off;
    if (h2 <= 0) continue;
    const foot = -e.centre.u * nv + e.centre.v * nu;
    const h = Math.sqrt(h2);
    ts.push(foot - h, foot + h); // points off the sweep only cut a stretch in two
  }
  ts.sort((a, b) => a - b);
  const out: [number, number][] = [];
  for (let n = 0; n + 1 < ts.length; n++) {
    const t0 = ts[n]!;
    const t1 = ts[n + 1]!;
    if (t1 - t0 < DIGITS) continue;
    const m = (t0 + t1) / 2;
    if (windingOf(edges, d * nu - m * nv, d * nv + m * nu) === 0) continue;
    const last = out[out.length - 1];
    if (last && t0 - last[1] < DIGITS) last[1] = t1;
    else out.push([t0, t1]);
  }
  return out;
}
