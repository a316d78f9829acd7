/** What a view shows of the part itself: edges, axes, circles of holes, threads (ISO 6410-1), letters as they are read. */
import type { Drawn } from '../../export/flat/lines';
import type { View } from '../../export/flat/view';
import { arc } from '../../geometry/2d/edge';
import { mapEdge } from '../../geometry/2d/plane-map';
import { sectionOf, standing } from '../../geometry/solid/section';
import type { Edge, Solid } from '../../geometry/types';
import type { Feature } from '../../model/model';
import { CHAIN, DASHED, type Mark, NARROW, WIDE } from '../draw/marks';
import { ring, stroke } from '../draw/shapes';
import { cornerSign } from '../view/cutting-line';
import { spotsIn } from '../view/measures';
import { edgesOnPage, inPicture, onPage, type Place } from '../view/projected';
import type { Drafted } from './callout';
import { locatedOf } from './points';

interface Shown {
  readonly drawn: Drawn;
  /** Features that are cut from the face that is seen. */
  readonly here: readonly Feature[];
  readonly solid: Solid;
}

const AXIS_LINE = 0.18;

export function pictureMarks({ drawn, here, solid }: Shown, place: Place, of: Drafted): Mark[] {
  const hidden = edgesOnPage(drawn.hidden, place);
  const centre = edgesOnPage(drawn.centreLines, place);
  const p = (['x', 'y', 'z'] as const).map((a) => of.origin.at(a)) as [number, number, number];
  const origin = onPage(place, inPicture(drawn.view, p));
  const threads = here.flatMap((f) => threadsOf(f, drawn.view, solid, place));
  const letters = here.flatMap((f) => lettersOf(f, drawn.view, solid, place));
  return [
    stroke(edgesOnPage(drawn.visible, place), WIDE),
    ...(hidden.length > 0 ? [stroke(hidden, NARROW, DASHED)] : []),
    ...(centre.length > 0 ? [stroke(centre, AXIS_LINE, CHAIN)] : []),
    ...here.flatMap((f) => pitchCircle(f, drawn.view, solid, place)),
    ...(threads.length > 0 ? [stroke(threads, NARROW)] : []),
    ...(letters.length > 0 ? [stroke(letters, NARROW)] : []),
    ...cornerSign(origin.u, origin.v),
  ];
}

function pitchCircle(f: Feature, view: View, solid: Solid, place: Place): Mark[] {
  const { circle } = locatedOf(f);
  const spots = circle && spotsIn(view, f, solid);
  if (!circle || !spots || spots.length === 0) return [];
  const mean = (of: (s: { readonly u: number; readonly v: number }) => number) =>
    spots.reduce((sum, s) => sum + of(s), 0) / spots.length;
  const { u, v } = onPage(place, { u: mean((s) => s.u), v: mean((s) => s.v) });
  const made = ring(u, v, (circle.diameterMm / 2) * place.scale, AXIS_LINE);
  return [stroke(made.edges, AXIS_LINE, CHAIN)];
}

/** ISO 6410-1: looked into, the thread's own diameter is a narrow arc of three quarters, open above to the right. */
function threadsOf(f: Feature, view: View, solid: Solid, place: Place): Edge[] {
  if (!('thread' in f) || !f.thread?.spec || f.tilt) return [];
  const radius = (f.thread.spec.diameterMm / 2) * place.scale;
  if ('counterbore' in f && f.counterbore && f.counterbore.diameter.mm > f.thread.spec.diameterMm) return [];
  return spotsIn(view, f, solid).map((spot) => {
    const c = onPage(place, spot);
    // a little past the axes, so that it does not end on one
    const at = (deg: number) => {
      const t = (deg * Math.PI) / 180;
      return { u: c.u + radius * Math.cos(t), v: c.v + radius * Math.sin(t) };
    };
    return arc(at(-10), at(-80), c, true);
  });
}

/** The outlines of an engraving's strokes, the way they are read on the part. */
function lettersOf(f: Feature, view: View, solid: Solid, place: Place): Edge[] {
  return solid.voidsOf(f.name).flatMap((v) => {
    if (v.role !== 'engraving' || standing(v, view.axis) !== 'along') return [];
    const [a, b] = [v.from, v.to].map((w) => v.frame.origin[view.axis] + v.frame.w[view.axis] * w) as [number, number];
    const { edges } = sectionOf(v, view.axis, (a + b) / 2).sheet;
    return edgesOnPage(
      edges.map((e) => mapEdge(view.map, e)),
      place,
    );
  });
}
