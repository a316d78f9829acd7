/**
 * What a drawing of one face shows, worked out slice by slice from the eye on: where a face that looks at the eye
 * begins, where a wall stands edge-on, where a slanted side has a ridge, and the part's outline.
 */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { line, reachOf, tangentAt } from '../../geometry/2d/edge';
import { sheetOf } from '../../geometry/2d/indexed-region';
import { regionEdges, regionMoments } from '../../geometry/2d/moments';
import { mapEdge, mapPoint } from '../../geometry/2d/plane-map';
import { insetAt } from '../../geometry/solid/prism';
import { sectionOf, standing } from '../../geometry/solid/section';
import type { Box, Edge, Point2, Region, Solid, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { NEAR, ROUNDING, SAME } from '../../tolerance';
import { ofSlices, type Slice, sheetOfAll, united, without } from './slices';
import { Strokes, wallsBetween } from './strokes';
import { tidyRegion } from './tidy';
import { type View, viewOf } from './view';

export interface Drawn {
  readonly view: View;
  /** Everything that is material in this direction. */
  readonly shadow: readonly Region[];
  readonly visible: readonly Edge[];
  /** Outlines of cuts that are out of sight. */
  readonly hidden: readonly Edge[];
  readonly centreLines: readonly Edge[];
}

/** One face as it is seen; lengths in mm. Undefined where an outline is too tangled to follow. */
export function drawFace(solid: Solid, face: View['face']): Drawn | undefined {
  return drawView(solid, viewOf(face, solid.body.box.max));
}

/** A solid or a workpiece, which may reach beyond the finished body that the view is of. */
export function drawView(solid: Pick<Solid, 'body' | 'voids'>, view: View): Drawn | undefined {
  const whole = areaAcross(solid.body.box, view.axis);
  const seen = ofSlices(solid, view, (slices) => visibleIn(slices, whole));
  if (!seen) return undefined;
  const hidden = new Strokes();
  const stays = sheetOfAll(seen.shadow);
  for (const v of solid.voids) {
    if (v.role === 'edge' || v.role === 'engraving') continue;
    const outline = shapeOf(v, view);
    if (outline) hidden.addAll(boundaryOf([stays, sheetOf(outline, true)], []));
  }
  return {
    view,
    shadow: seen.shadow.map(tidyRegion),
    visible: seen.strokes.edges(),
    hidden: hidden.less(seen.strokes),
    centreLines: solid.voids.flatMap((v) => (v.role === 'bore' ? centreOf(v, view) : [])),
  };
}

function areaAcross({ min, max }: Box, axis: AxisIndex): number {
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  return (max[i] - min[i]) * (max[k] - min[k]);
}

/** `whole`: the area of the outline of the body. */
function visibleIn(slices: Iterable<Slice | undefined>, whole: number): Omit<Seen, 'covered'> | undefined {
  const strokes = new Strokes();
  let seen: Seen = { strokes, shadow: [], covered: 0 };
  for (const slice of slices) {
    const next = slice && deeper(seen, slice);
    if (!next) return undefined;
    seen = next;
    // behind what fills the whole outline of the body there is nothing more to see
    if (seen.covered > whole * (1 - ROUNDING)) break;
  }
  strokes.addAll(seen.shadow.flatMap(regionEdges));
  return seen;
}

interface Seen {
  readonly strokes: Strokes;
  /** Everything that stands in the way of what lies deeper, and its area. */
  readonly shadow: readonly Region[];
  readonly covered: number;
}

function deeper({ strokes, shadow }: Seen, { near, far, half }: Slice): Seen | undefined {
  const face = without(near, shadow);
  const before = face?.length === 0 ? shadow : united(shadow, near);
  if (!face || !before) return undefined;
  strokes.addAll(face.flatMap(regionEdges));
  const growth = far === near ? [] : without(far, before);
  const after = growth?.length === 0 ? before : united(before, far);
  if (!growth || !after) return undefined;
  const first = before.flatMap(regionEdges);
  // a wall that stands along the line of sight stays where it is from one end of the slice to the other
  if (before === after) strokes.addAll(first);
  else {
    strokes.addAll(wallsBetween(first, after.flatMap(regionEdges), () => edgesBetween(before, half())));
    const corners = cornersOf(before);
    const between = corners.length > 0 ? half() : undefined;
    const middle = between && united(before, between);
    if (middle) strokes.addAll(ridges(corners, cornersOf(after), cornersOf(middle)));
  }
  return { strokes, shadow: after, covered: after.reduce((sum, r) => sum + regionMoments(r).area, 0) };
}

function edgesBetween(before: readonly Region[], half: readonly Region[] | undefined): readonly Edge[] {
  return ((half && united(before, half)) ?? []).flatMap(regionEdges);
}

/** Where two flat sides meet: a corner of the outline that runs straight from one end of the slice to the other. */
function ridges(from: readonly Point2[], to: readonly Point2[], half: readonly Point2[]): readonly Edge[] {
  return from.flatMap((p) =>
    to.flatMap((q) => {
      if (apart(p, q) < NEAR) return [];
      const m = { u: (p.u + q.u) / 2, v: (p.v + q.v) / 2 };
      return half.some((h) => apart(h, m) < SAME) ? [line(p, q)] : [];
    }),
  );
}

/** Below this angle (sine) an outline runs on smoothly. */
const SMOOTH = 0.02;

function cornersOf(regions: readonly Region[]): readonly Point2[] {
  return regions.flatMap(({ outer, holes }) =>
    [outer, ...holes].flatMap(({ edges }) =>
      edges.flatMap((e, i) => {
        const next = edges[(i + 1) % edges.length]!;
        const [t, s] = [tangentAt(e, e.b), tangentAt(next, next.a)];
        return e !== next && Math.abs(t.u * s.v - t.v * s.u) > SMOOTH ? [e.b] : [];
      }),
    ),
  );
}

/** The outline of a removed volume as it would be seen through the material; none for one that leans. */
function shapeOf(v: Void, view: View): readonly Edge[] | undefined {
  const stands = standing(v, view.axis);
  if (stands === 'along') {
    const [a, b] = [v.from, v.to].map((w) => v.frame.origin[view.axis] + v.frame.w[view.axis] * w) as [number, number];
    const widest = insetAt(v, v.from) <= insetAt(v, v.to) ? ROUNDING : 1 - ROUNDING;
    return sectionOf(v, view.axis, a + (b - a) * widest).sheet.edges.map((e) => mapEdge(view.map, e));
  }
  if (stands === 'oblique') return undefined;
  const { u, v: v3 } = v.frame;
  const [cu, cv] = [-v3[view.axis], u[view.axis]];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const e of v.region.outer.edges) {
    const [l, h] = reachOf(e, cu, cv);
    low = Math.min(low, l);
    high = Math.max(high, h);
  }
  const at = (t: number, w: number) => pointOf(v, view, cu * t, cv * t, w);
  const [near, far] = [insetAt(v, v.from), insetAt(v, v.to)];
  const corners = [at(low + near, v.from), at(high - near, v.from), at(high - far, v.to), at(low + far, v.to)];
  const edges = corners.map((p, i) => line(p, corners[(i + 1) % 4]!)).filter((e) => apart(e.a, e.b) > SAME);
  const loops = chainLoops(edges);
  const regions = loops && (regionsOfLoops(loops) ?? []);
  if (regions && regions.length > 0) return edges;
  return edges.map((e) => line(e.b, e.a)).reverse();
}

/** A hole's: a cross where it is looked into, its axis where it lies across. */
function centreOf(v: Void, view: View): readonly Edge[] {
  const stands = standing(v, view.axis);
  if (stands === 'oblique') return [];
  const first = v.region.outer.edges[0];
  if (first?.type !== 'arc') return [];
  const { centre, radius } = first;
  const over = Math.min(3, 1 + radius * 0.2);
  const at = (w: number) => pointOf(v, view, centre.u, centre.v, w);
  if (stands === 'across') {
    const [a, b] = [at(v.from), at(v.to)];
    const l = apart(a, b) || 1;
    const [du, dv] = [((b.u - a.u) / l) * over, ((b.v - a.v) / l) * over];
    return [line({ u: a.u - du, v: a.v - dv }, { u: b.u + du, v: b.v + dv })];
  }
  const c = at(v.from);
  const r = radius + over;
  return [line({ u: c.u - r, v: c.v }, { u: c.u + r, v: c.v }), line({ u: c.u, v: c.v - r }, { u: c.u, v: c.v + r })];
}

function pointOf(v: Void, view: View, pu: number, pv: number, w: number): Point2 {
  const { origin, u, v: v3, w: w3 } = v.frame;
  const at = (i: AxisIndex) => origin[i] + pu * u[i] + pv * v3[i] + w * w3[i];
  const i = ((view.axis + 1) % 3) as AxisIndex;
  const k = ((view.axis + 2) % 3) as AxisIndex;
  return mapPoint(view.map, { u: at(i), v: at(k) });
}

function apart(p: Point2, q: Point2): number {
  return Math.hypot(p.u - q.u, p.v - q.v);
}
