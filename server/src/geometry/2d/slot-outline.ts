/**
 * What a round cutter leaves when its centre follows a line: every point within half the width of it. Straight runs
 * with round ends, bands along arcs, joined where they meet; outside corners come out round, as the cutter leaves them.
 */

import { ROUNDING } from '../../tolerance';
import type { ArcEdge, Edge, Point2, Region } from '../types';
import { uniteRegions } from './assemble-loops';
import { arc, circleEdge, isFullCircle, line, sweepOf } from './edge';

/** The region within `width / 2` of the chain; several where it falls apart. Undefined when it is too tangled. */
export function thickLine(chain: readonly Edge[], width: number): readonly Region[] | undefined {
  if (!(width > 0)) return [];
  const half = width / 2;
  const runs = chain.flatMap((e) => (e.type === 'line' ? [straightRun(e.a, e.b, half)] : arcRun(e, half)));
  if (runs.length <= 1) return runs;
  return uniteRegions(runs);
}

/** A straight run with round ends; a disc where both ends are one. */
export function straightRun(a: Point2, b: Point2, half: number): Region {
  const l = Math.hypot(b.u - a.u, b.v - a.v);
  if (l < ROUNDING) return { outer: { edges: [circleEdge(a, half)] }, holes: [] };
  const nu = (-(b.v - a.v) / l) * half;
  const nv = ((b.u - a.u) / l) * half;
  const a0 = { u: a.u - nu, v: a.v - nv };
  const a1 = { u: a.u + nu, v: a.v + nv };
  const b0 = { u: b.u - nu, v: b.v - nv };
  const b1 = { u: b.u + nu, v: b.v + nv };
  return { outer: { edges: [line(a0, b0), arc(b0, b1, b, true), line(b1, a1), arc(a1, a0, a, true)] }, holes: [] };
}

/** The band along an arc; where the arc is tighter than half the width, a sector and the discs at its ends. */
function arcRun(e: ArcEdge, half: number): readonly Region[] {
  const { centre, radius } = e;
  if (isFullCircle(e)) {
    const holes = radius - half > ROUNDING ? [{ edges: [circleEdge(centre, radius - half, false)] }] : [];
    return [{ outer: { edges: [circleEdge(centre, radius + half)] }, holes }];
  }
  const from = e.ccw ? e.a : e.b;
  const to = e.ccw ? e.b : e.a;
  const out = (p: Point2, r: number) => ({
    u: centre.u + ((p.u - centre.u) / radius) * r,
    v: centre.v + ((p.v - centre.v) / radius) * r,
  });
  const far0 = out(from, radius + half);
  const far1 = out(to, radius + half);
  const rim = arc(far0, far1, centre, true);
  if (radius - half > ROUNDING) {
    const near0 = out(from, radius - half);
    const near1 = out(to, radius - half);
    const capped = Math.abs(sweepOf(e)) < Math.PI * 1.5;
    const band: Edge[] = capped
      ? [rim, arc(far1, near1, to, true), arc(near1, near0, centre, false), arc(near0, far0, from, true)]
      : [rim, line(far1, near1), arc(near1, near0, centre, false), line(near0, far0)];
    const region = { outer: { edges: band }, holes: [] };
    // nearly closed arcs may bite their own tail: ends are then joined by set operations
    return capped ? [region] : [region, disc(from, half), disc(to, half)];
  }
  const sector: Edge[] = [line(centre, far0), rim, line(far1, centre)];
  return [{ outer: { edges: sector }, holes: [] }, disc(from, half), disc(to, half)];
}

function disc(centre: Point2, radius: number): Region {
  return { outer: { edges: [circleEdge(centre, radius)] }, holes: [] };
}
