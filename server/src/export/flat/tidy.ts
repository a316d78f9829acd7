/** Loops without seams: neighbouring edges that run on in one line or on one circle are one edge. */

import { arc, circleEdge, line, sweepOf, TAU, tangentAt } from '../../geometry/2d/edge';
import type { Edge, Loop, Point2, Region } from '../../geometry/types';
import { SAME } from '../../tolerance';

/** Within this angle, radians, an edge runs on in the direction of the one before it. */
const STRAIGHT = 1e-6;

export function tidyRegion({ outer, holes }: Region): Region {
  return { outer: tidyLoop(outer), holes: holes.map(tidyLoop) };
}

function tidyLoop({ edges }: Loop): Loop {
  let out: Edge[] = [];
  for (const e of edges) {
    const last = out[out.length - 1];
    const one = last && joined(last, e);
    if (one) out[out.length - 1] = one;
    else out.push(e);
  }
  while (out.length > 1) {
    const one = joined(out[out.length - 1]!, out[0]!);
    if (!one) break;
    out = [one, ...out.slice(1, -1)];
  }
  return { edges: out };
}

/** Both as one edge, where they are. */
function joined(e: Edge, f: Edge): Edge | undefined {
  if (e.type === 'line' && f.type === 'line') {
    const [t, s] = [tangentAt(e, e.b), tangentAt(f, f.a)];
    const straight = Math.abs(t.u * s.v - t.v * s.u) < STRAIGHT && t.u * s.u + t.v * s.v > 0;
    return straight ? line(e.a, f.b, e.corner) : undefined;
  }
  if (e.type !== 'arc' || f.type !== 'arc' || e.ccw !== f.ccw) return undefined;
  if (!near(e.centre, f.centre) || Math.abs(e.radius - f.radius) > SAME) return undefined;
  const turn = Math.abs(sweepOf(e)) + Math.abs(sweepOf(f));
  if (near(e.a, f.b) && turn > TAU / 2) return circleEdge(e.centre, e.radius, e.ccw);
  return turn < TAU ? arc(e.a, f.b, e.centre, e.ccw, e.corner) : undefined;
}

function near(p: Point2, q: Point2): boolean {
  return Math.hypot(p.u - q.u, p.v - q.v) < SAME;
}
