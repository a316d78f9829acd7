/** What a view shows of the part itself: edges, axes, circles of holes, threads (ISO 6410-1), letters as they are read. */
import type { Drawn } from '../../export/flat/lines';
import type { View } from '../../export/flat/view';
import { arc, distanceTo, line } from '../../geometry/2d/edge';
import { mapEdge } from '../../geometry/2d/plane-map';
import { sectionOf, standing } from '../../geometry/solid/section';
import type { Edge, Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Feature } from '../../model/model';
import { NEAR } from '../../tolerance';
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
  const threads = [
    ...here.flatMap((f) => threadsOf(f, drawn.view, solid, place)),
    ...of.part.features.flatMap((f) => rootsOf(f, drawn, place, of)),
  ];
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

const ROOT_PITCHES = 1.22687;

/** ISO 6410-1: looked into, the thread's own diameter is a narrow arc of three quarters, open above to the right. */
function threadsOf(f: Feature, view: View, solid: Solid, place: Place): Edge[] {
  if (!('thread' in f) || !f.thread?.spec || f.tilt) return [];
  const { spec } = f.thread;
  // On a boss the narrow arc is the root: d3 of ISO 724.
  const across = 'deep' in f.thread ? spec.diameterMm - ROOT_PITCHES * spec.pitchMm : spec.diameterMm;
  const radius = (across / 2) * place.scale;
  if ('counterbore' in f && f.counterbore && f.counterbore.diameter.mm > spec.diameterMm) return [];
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

/** ISO 6410-1: from beside, a boss's thread has narrow lines at its root, as far as it is full; none where it is not seen. */
function rootsOf(f: Feature, { view, visible }: Drawn, place: Place, of: Drafted): Edge[] {
  if (!('thread' in f) || !f.thread || !('deep' in f.thread) || f.tilt) return [];
  const { spec, deep } = f.thread;
  const { axis, sign } = FACE_AXIS[f.face];
  const along = AXIS_INDEX[axis];
  if (along === view.axis) return [];
  const aside = 3 - along - view.axis;
  const size = of.part.size[along]!;
  const [a, b] = FACE_PLANE[f.face].map((x) => AXIS_INDEX[x]) as [number, number];
  const root = spec.diameterMm / 2 - (ROOT_PITCHES / 2) * spec.pitchMm;
  return f.places.flatMap(({ u, v }) => {
    const at = (out: number, down: number) => {
      const p: [number, number, number] = [0, 0, 0];
      [p[a], p[b]] = [u, v];
      p[along] = sign > 0 ? size - f.startMm - down : f.startMm + down;
      p[aside] = p[aside]! + out;
      return inPicture(view, p);
    };
    const side = at(spec.diameterMm / 2, deep.mm / 2);
    if (!visible.some((e) => e.type === 'line' && distanceTo(e, side.u, side.v) < NEAR)) return [];
    return [root, -root].map((out) => line(onPage(place, at(out, 0)), onPage(place, at(out, deep.mm))));
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
