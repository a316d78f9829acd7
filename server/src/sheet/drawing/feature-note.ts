/** A feature's callout, and to which point of its picture its line goes. */
import type { Drawn } from '../../export/flat/lines';
import type { View } from '../../export/flat/view';
import type { Point2, Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_PLANE, type Feature } from '../../model/model';
import { spotsIn } from '../view/measures';
import { inPicture } from '../view/projected';
import { calloutFigure, type Drafted } from './callout';
import type { Note } from './lane';
import { locatedOf } from './points';

interface Of {
  readonly drawn: Drawn;
  readonly solid: Solid;
}

/** To the one of its members that is nearest to the notes. */
export function featureNote(f: Feature, { drawn: { view }, solid }: Of, scale: number, of: Drafted): Note {
  const spots = spotsIn(view, f, solid);
  const spot = spots.reduce((best, s) => (s.u > best.u ? s : best), spots[0] ?? { u: 0, v: 0, r: 0 });
  const figure = calloutFigure(f, of);
  const on = outlineSpot(f, view);
  if (on) return { figure, to: { u: on.u * scale, v: -on.v * scale }, radius: 0, end: 'arrow' };
  const to = { u: spot.u * scale, v: -spot.v * scale };
  const isRound = roundMm(f);
  if (isRound === undefined) return { figure, to, radius: 0, end: 'dot' };
  return { figure, to, radius: (isRound / 2) * scale, end: 'arrow' };
}

/** Of an outline given by its corners: the middle of the straight side that is nearest to the notes. */
function outlineSpot(f: Feature, view: View): Point2 | undefined {
  const { points, outline } = locatedOf(f);
  if (!outline) return undefined;
  const [a, b] = FACE_PLANE[f.face].map((x) => AXIS_INDEX[x]) as [number, number];
  const middles = points.flatMap((p, i) => {
    const next = points[(i + 1) % points.length]!;
    if (p.corner?.arc) return [];
    const at: [number, number, number] = [0, 0, 0];
    at[a] = (p.u + next.u) / 2;
    at[b] = (p.v + next.v) / 2;
    const spot = inPicture(view, at);
    const inside = spot.u > 0 && spot.v > 0 && spot.u <= view.width && spot.v <= view.height;
    return inside ? [spot] : [];
  });
  return middles.reduce<Point2 | undefined>((best, s) => (!best || s.u > best.u ? s : best), undefined);
}

/** The diameter of the outline it has in its own face, where that is a circle. */
export function roundMm(f: Feature): number | undefined {
  if ('diameter' in f && f.diameter) return widestAt(f as Extract<Feature, { diameter: unknown }>);
  return 'shape' in f && f.shape.type === 'circle' ? f.shape.diameter.mm : undefined;
}

function widestAt(f: Extract<Feature, { diameter: unknown }>): number {
  const own = f.diameter.mm;
  return Math.max(
    own,
    ...('counterbore' in f && f.counterbore ? [f.counterbore.diameter.mm] : []),
    ...('countersink' in f && f.countersink ? [f.countersink.diameter.mm] : []),
  );
}
