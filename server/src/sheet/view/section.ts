/** A section through the bore that is held closest: where it is cut, and what is seen there. */

import type { Drawn } from '../../export/flat/lines';
import { tidyRegion } from '../../export/flat/tidy';
import type { View } from '../../export/flat/view';
import { line } from '../../geometry/2d/edge';
import { mapRegion } from '../../geometry/2d/plane-map';
import { rectLoop } from '../../geometry/2d/shape-outline';
import type { Box, Edge, Region, Solid, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { breaksEdges } from '../../model/feature-kinds';
import { FACE_AXIS, FACE_PLANE, FACES, type Face, type Hole, type Part } from '../../model/model';
import { crossOf } from '../../process/stock/in-process-stock';
import { SAME } from '../../tolerance';
import { faceView, inPicture, pictureOf } from './projected';

/** What a section is cut through: where it is, on which face. */
export type Through = Pick<Hole, 'face' | 'places'>;

export interface Section<T extends Through = Hole> {
  readonly through: T;
  /** The cutting plane: normal to this axis, at this place, mm. */
  readonly axis: AxisIndex;
  readonly at: number;
  readonly view: View;
  /** What is cut. */
  readonly cut: readonly Region[];
  /** What is seen behind it; absent where it could not be followed. */
  readonly behind?: Drawn;
}

/** The one with the closest limits; of those without, the one with a counterbore or countersink, then the widest. */
export function closestBore(part: Part): Hole | undefined {
  const holes = part.features.filter((f): f is Hole => f.kind === 'hole' && !f.tilt && f.places.length > 0);
  const band = ({ diameter: { tolerance } }: Hole) =>
    tolerance?.upperMm !== undefined && tolerance.lowerMm !== undefined
      ? tolerance.upperMm - tolerance.lowerMm
      : Number.POSITIVE_INFINITY;
  const recessed = (h: Hole) => (h.counterbore || h.countersink ? 1 : 0);
  const before = (a: Hole, b: Hole) => {
    const [p, q] = [band(a), band(b)];
    if (p !== q) return p < q;
    return recessed(a) !== recessed(b) ? recessed(a) > recessed(b) : a.diameter.mm > b.diameter.mm;
  };
  return holes.reduce<Hole | undefined>((best, h) => (!best || before(h, best) ? h : best), undefined);
}

/** Square to the axis of the face that runs to the right as the face is seen; looked at from the left. */
export function sectionThrough<T extends Through>(hole: T, part: Part, solid: Solid): Section<T> | undefined {
  const size = solid.body.box.max;
  const { right } = faceView(hole.face, size);
  const axis = AXIS_INDEX[right.axis];
  const place = hole.places[0]!;
  const at = FACE_PLANE[hole.face][0] === right.axis ? place.u : place.v;
  if (!(at > SAME && at < size[axis] - SAME)) return undefined;
  const from = FACES.find((f) => FACE_AXIS[f].axis === right.axis && FACE_AXIS[f].sign === -right.sign) as Face;
  const view = faceView(from, size);
  const { regions } = crossOf(solid, axis, at);
  if (!regions || regions.length === 0) return undefined;
  const cut = regions.map((r) => tidyRegion(mapRegion(view.map, r)));
  const seen = beyond(part, solid, { axis, at, view });
  const behind = seen && { ...seen, visible: [...seen.visible, ...grooveEdges(part, { axis, at, view })] };
  return { through: hole, axis, at, view, cut, ...(behind && { behind }) };
}

/** A hair off the axis, mm: in its own plane a bore is of two minds. */
const BESIDE = 1e-3;

/** The part without what stands before the cutting plane. */
function beyond(
  part: Part,
  { body, voids }: Solid,
  { axis, at, view }: Pick<Section, 'axis' | 'at' | 'view'>,
): Drawn | undefined {
  const min = [...body.box.min] as [number, number, number];
  const max = [...body.box.max] as [number, number, number];
  if (view.looks > 0) min[axis] = at + BESIDE;
  else max[axis] = at - BESIDE;
  // Broken edges are told in the table; behind a section they are lines beside lines.
  const edges = new Set(part.features.filter(breaksEdges).map((f) => f.name));
  const kept = voids.filter((v) => !edges.has(v.feature));
  // Of a round body cut along its axis no box is left: what stands before the plane is taken off it.
  if (body.form === 'round' && body.axis !== axis)
    return pictureOf({ body, voids: [...kept, halfBefore(body.box, { axis, at, view })] }, view);
  return pictureOf({ body: { ...body, box: { min, max } }, voids: kept }, view);
}

/** Edges of grooves in bores that the plane halves: circles seen edge-on, as wide as their bore. */
function grooveEdges(part: Part, { axis, at, view }: Pick<Section, 'axis' | 'at' | 'view'>): readonly Edge[] {
  return part.features.flatMap((f): Edge[] => {
    const home = 'in' in f && f.in ? part.featureByName.get(f.in.name) : undefined;
    const place = home?.places[0];
    if (!home || !place || home.tilt || !('diameter' in home) || !('below' in f) || !f.below) return [];
    const [a, b] = FACE_PLANE[home.face].map((x) => AXIS_INDEX[x]) as [AxisIndex, AxisIndex];
    if (axis !== a && axis !== b) return [];
    if (Math.abs((axis === a ? place.u : place.v) - at) > SAME) return [];
    const { axis: deep, sign } = FACE_AXIS[home.face];
    const top = sign > 0 ? part.size[AXIS_INDEX[deep]] : 0;
    const point = (side: number, below: number) => {
      const p: [number, number, number] = [0, 0, 0];
      p[a] = place.u;
      p[b] = place.v;
      p[AXIS_INDEX[deep]] = top - sign * below;
      p[axis === a ? b : a] += (side * home.diameter.mm) / 2;
      return inPicture(view, p);
    };
    return [f.below.mm, f.below.mm + f.width.mm].map((w) => line(point(-1, w), point(1, w)));
  });
}

/** All that stands between the eye and the cutting plane. */
function halfBefore({ min, max }: Box, { axis, at, view }: Pick<Section, 'axis' | 'at' | 'view'>): Void {
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const [from, to] = view.looks > 0 ? [min[axis] - 1, at + BESIDE] : [at - BESIDE, max[axis] + 1];
  const unit = (n: AxisIndex) => [0, 1, 2].map((m) => (m === n ? 1 : 0)) as unknown as Vec3;
  const bound = (all: Vec3, by: number, end: number) =>
    all.map((x, n) => (n === axis ? end : x + by)) as unknown as Vec3;
  const bounds = { min: bound(min, -1, from), max: bound(max, 1, to) };
  const outer = rectLoop(bounds.min[i], bounds.min[k], bounds.max[i], bounds.max[k]);
  return {
    feature: '',
    member: 0,
    role: 'pocket',
    frame: { origin: [0, 0, 0], u: unit(i), v: unit(k), w: unit(axis) },
    region: { outer, holes: [] },
    from,
    to,
    profile: { type: 'straight' },
    through: true,
    bounds,
  };
}
