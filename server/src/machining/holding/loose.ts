/** What a cut right round the part leaves: where it stays, and which sides of the body are still those of the part. */
import { lengthOf } from '../../geometry/edge';
import { windingOf } from '../../geometry/inside';
import type { Point2 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { keptLoops } from '../../geometry/voids/contours';
import {
  type Contour,
  FACE_AXIS,
  FACE_PLANE,
  FACES,
  type Face,
  type Feature,
  OPPOSITE,
  type Part,
} from '../../spec/model';

/** Everything outside its shapes goes, down to the far side. */
export function isThroughContour(feature: Feature | undefined): feature is Contour {
  return feature?.kind === 'contour' && feature.depth.through;
}

/** Whether a place in the plane of a contour's face stays. */
export function stays(contour: Contour, { u, v }: Point2): boolean {
  return keptLoops(contour).some((l) => windingOf(l.edges, u, v) !== 0);
}

/** Less than this of a side is a corner, no side. mm. */
const SIDE_MM = 3;

/** Sides of the body along which what stays still lies. */
export function sidesKept(contour: Contour, part: Pick<Part, 'size'>): readonly Face[] {
  const plane = FACE_PLANE[contour.face];
  return FACES.filter((face) => {
    const { axis, sign } = FACE_AXIS[face];
    const which = plane.indexOf(axis);
    if (which < 0) return false;
    const at = sign > 0 ? part.size[AXIS_INDEX[axis]] : 0;
    const on = (p: Point2) => Math.abs((which === 0 ? p.u : p.v) - at) < 1e-3;
    const edges = keptLoops(contour).flatMap((l) => l.edges);
    return edges.reduce((sum, e) => sum + (e.type === 'line' && on(e.a) && on(e.b) ? lengthOf(e) : 0), 0) >= SIDE_MM;
  });
}

/** A vise finds two opposite sides of what stays. */
export function jawsFor(contour: Contour, part: Pick<Part, 'size'>): readonly [Face, Face] | undefined {
  const kept = sidesKept(contour, part);
  const first = kept.find((face) => kept.includes(OPPOSITE[face]));
  return first && [first, OPPOSITE[first]];
}
