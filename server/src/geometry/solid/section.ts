/**
 * A swept outline cut by a plane normal to a part axis: the flat region it shows there, as a sheet in the plane's
 * coordinates (the two axes after the cut one, in turn). Lines and arcs where the plane is square to the sweep or runs
 * along it and the sides are straight; the curves of a cone, a fillet or a leaning cylinder are chains of arcs, close
 * enough for every digit that is told.
 */

import { heed } from '../../effort';
import { memo } from '../../memo';
import { DIGITS } from '../../tolerance';
import { chords } from '../2d/chords';
import { line } from '../2d/edge';
import { sheetOf } from '../2d/indexed-region';
import { regionEdges } from '../2d/moments';
import { directInset, insetEdges, isSteady } from '../2d/offset';
import { mapEdge, type PlaneMap } from '../2d/plane-map';
import type { Edge, Point2 } from '../types';
import type { AxisIndex } from '../vector';
import { insetAt, type Prism } from './prism';
import { flankedSection } from './section-flanks';
import { obliqueSection } from './section-oblique';
import { EMPTY, type Section } from './section-value';

/** How a prism stands to an axis: `along` it, `across` (its sweep lies in the plane) or `oblique`. */
export function standing(p: Prism, axis: AxisIndex): 'along' | 'across' | 'oblique' {
  const w = Math.abs(p.frame.w[axis]);
  return w > 1 - DIGITS ? 'along' : w < DIGITS ? 'across' : 'oblique';
}

/** The section of a prism at `at` mm along the axis. */
export function sectionOf(p: Prism, axis: AxisIndex, at: number): Section {
  heed(10);
  const stands = standing(p, axis);
  if (stands === 'along') {
    const w = (at - p.frame.origin[axis]) * p.frame.w[axis];
    if (w < p.from || w > p.to) return EMPTY;
    const inset = insetAt(p, w);
    return inset === 0 ? flatAlong(p, axis) : alongAt(p, axis, inset);
  }
  if (p.profile.type !== 'straight') return flankedSection(p, axis, at);
  return stands === 'across' ? acrossAt(p, axis, at) : obliqueSection(p, axis, at);
}

/** The same at every depth of a straight volume. */
const flatAlong = memo((p: Prism, axis: AxisIndex) => alongAt(p, axis, 0), { size: 3 });

/** Its sections are the outline's edges, moved, at every depth. */
const isSteadyPrism = memo(
  (p: Prism) => p.region.outer.edges.length > 1 && isSteady(p.region, insetAt(p, p.from), insetAt(p, p.to)),
);

function alongAt(p: Prism, axis: AxisIndex, inset: number): Section {
  const map = planeMap(p, axis);
  const edges = (inset !== 0 && isSteadyPrism(p) && directInset(p.region, inset)) || insetEdges(p.region, inset);
  // an outline too tangled to move: the unmoved one, and it is said
  const used = edges ?? regionEdges(p.region);
  return { sheet: sheetOf(used.map((e) => mapEdge(map, e))), exact: edges !== undefined };
}

/** From the prism's (u, v) to the plane's coordinates, for a prism along the axis. */
function planeMap(p: Prism, axis: AxisIndex): PlaneMap {
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const { origin, u, v } = p.frame;
  return { uu: u[i], uv: v[i], vu: u[k], vv: v[k], u0: origin[i], v0: origin[k] };
}

/** A straight volume cut along its sweep: rectangles. */
function acrossAt(p: Prism, axis: AxisIndex, at: number): Section {
  const { frame } = p;
  const d = at - frame.origin[axis];
  const edges: Edge[] = [];
  for (const [t0, t1] of chords(regionEdges(p.region), frame.u[axis], frame.v[axis], d)) {
    addRectangle(p, axis, d, [t0, t1], edges);
  }
  return edges.length === 0 ? EMPTY : { sheet: sheetOf(edges), exact: true };
}

type Corner = readonly [t: number, w: number];

/** A corner given by chord distance and depth, in the plane. */
function placeOf(p: Prism, axis: AxisIndex, d: number, [t, along]: Corner): Point2 {
  const i = ((axis + 1) % 3) as AxisIndex;
  const k = ((axis + 2) % 3) as AxisIndex;
  const { origin, u, v, w } = p.frame;
  const pu = d * u[axis] - t * v[axis];
  const pv = d * v[axis] + t * u[axis];
  return { u: origin[i] + pu * u[i] + pv * v[i] + along * w[i], v: origin[k] + pu * u[k] + pv * v[k] + along * w[k] };
}

/** Adds the four sides of a rectangle, along a chord and from end to end, counter-clockwise in the plane. */
function addRectangle(p: Prism, axis: AxisIndex, d: number, [t0, t1]: readonly [number, number], out: Edge[]): void {
  const pa = placeOf(p, axis, d, [t0, p.from]);
  const pb = placeOf(p, axis, d, [t1, p.from]);
  const pc = placeOf(p, axis, d, [t1, p.to]);
  const pe = placeOf(p, axis, d, [t0, p.to]);
  const area = (pb.u - pa.u) * (pe.v - pa.v) - (pe.u - pa.u) * (pb.v - pa.v);
  if (area > 0) out.push(line(pa, pb), line(pb, pc), line(pc, pe), line(pe, pa));
  else out.push(line(pa, pe), line(pe, pc), line(pc, pb), line(pb, pa));
}
