/** Relief in the square corners of a pocket, and how large it is where the text does not say. */

import { formatLength } from '../../text/format';
import { entry, type MapNode, type Span, scalarAt } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import type { Length, Shape } from '../base';
import type { Evaluation } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';

/** The cutter a machinist would take for it in a pocket of ordinary size: common practice, no source. */
const USUAL_MM = 6;

export interface Relief {
  readonly style: 'corner';
  readonly diameter: Length;
  readonly span: Span;
}

/** The pocket's relief; undefined where there is none, or none that makes sense (then a problem says why). */
export function reliefOf(work: Evaluation, map: MapNode, shape: Shape, floorRadiusMm: number): Relief | undefined {
  const written = scalarAt(map, 'relief');
  const given = work.length(map, 'relief-diameter');
  const key = entry(map, 'relief-diameter')?.key;
  if (!written) {
    if (key)
      work.remark('`relief-diameter` is the size of a `relief`; without one it means nothing. Delete it.', key.span);
    return undefined;
  }
  if (key && !given) return undefined;
  if (!hasSquareCorner(shape)) {
    work.remark('`relief` cuts into square corners, and this outline has none. Delete it.', written.span);
    return undefined;
  }
  const side = smallerSideMm(shape);
  if (given && given.mm > side * (1 + ROUNDING)) {
    const most = formatLength(side, work.doc.units);
    return work.fail(
      `A relief of ${given.text} is wider than the pocket, which has a width of ${most} there. Make it smaller.`,
      given.span,
    );
  }
  const diameter = given ?? unwritten(reliefDiameterMm(side, floorRadiusMm), written.span, UNSAID);
  return { style: 'corner', diameter, span: written.span };
}

const UNSAID =
  'no `relief-diameter` is given: a quarter of the smaller side, at most 6 mm, and room for the floor radius’s cutter';

/**
 * How large a relief is where nobody says: a quarter of the outline's smaller side, at most 6 mm, but wide enough for a
 * cutter whose own corner is the floor's radius, as long as that takes no more than half the side. All in mm.
 */
function reliefDiameterMm(smallerSideMm: number, floorRadiusMm: number): number {
  return Math.max(Math.min(USUAL_MM, smallerSideMm / 4), Math.min(2 * floorRadiusMm, smallerSideMm / 2));
}

function hasSquareCorner(shape: Shape): boolean {
  if (shape.type === 'rectangle') return shape.cornerRadius.mm === 0;
  return shape.type === 'path' && shape.corners.some((c) => !c.round);
}

/** Of the outline; of a path, of the upright rectangle round its corners. */
function smallerSideMm(shape: Shape): number {
  if (shape.type === 'rectangle') return Math.min(shape.u.mm, shape.v.mm);
  if (shape.type === 'circle') return shape.diameter.mm;
  const points = shape.corners.flatMap((c) => (c.arc ? [c, c.arc] : [c]));
  const along = (axis: 'u' | 'v') => {
    const all = points.map((p) => p[axis]);
    return Math.max(...all) - Math.min(...all);
  };
  return Math.min(along('u'), along('v'));
}
