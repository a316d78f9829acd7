/** A feature's callout, and to which point of its picture its line goes. */
import type { Drawn } from '../../export/flat/lines';
import type { View } from '../../export/flat/view';
import type { Point2, Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_PLANE, type Feature } from '../../model/model';
import { spotsIn } from '../view/measures';
import { edgesOnPage, inPicture } from '../view/projected';
import { calloutFigure, type Drafted } from './callout';
import type { Note } from './lane';
import { isIn, type Outline, obstaclesIn, outlineIn, passes } from './obstacles';
import { locatedOf } from './points';

interface Of {
  readonly drawn: Drawn;
  readonly solid: Solid;
}

/** Where its line begins, in the picture's millimetres. */
interface Anchor {
  readonly at: Point2;
  readonly end: 'arrow' | 'dot';
  /** Of a circle: the line begins on its rim. */
  readonly rim: number;
  /** How far about it there is room for its letter. */
  readonly reach: number;
}

export function featureNote(f: Feature, { drawn: { view }, solid }: Of, scale: number, of: Drafted): Note {
  const outlines = obstaclesIn(view, solid);
  const { at, end, rim, reach } = anchorOf(f, view, solid, outlines);
  const letter = of.letters.get(f);
  const to = { u: at.u * scale, v: -at.v * scale };
  const place = { x: 0, y: 0, scale };
  return {
    figure: calloutFigure(f, of),
    to,
    radius: rim * scale,
    end,
    // its own outline is where the line begins
    avoids: outlines
      .filter((o) => !isIn(o, at) && (rim > 0 || end === 'dot' || o.feature !== f.name))
      .map((o) => ({ ...o, edges: edgesOnPage(o.edges, place) })),
    ...(letter && { tag: { letter, at: to, radius: reach * scale } }),
  };
}

/** The point of it from which a line meets no other opening on its way to the notes, the nearest to those first. */
function anchorOf(f: Feature, view: View, solid: Solid, outlines: readonly Outline[]): Anchor {
  const on = outlineSpot(f, view) ?? letterEnd(f, view, solid);
  if (on) return { at: on, end: 'arrow', rim: 0, reach: 0 };
  const spots = spotsIn(view, f, solid).toSorted((a, b) => b.u - a.u);
  const [first] = spots;
  if (!first) return { at: { u: 0, v: 0 }, end: 'dot', rim: 0, reach: 0 };
  const isFree = (p: Point2) => !outlines.some((o) => passes(p, { u: view.width, v: p.v }, o));
  const round = roundMm(f);
  if (round !== undefined)
    return { at: spots.find(isFree) ?? first, end: 'arrow', rim: round / 2, reach: Math.max(first.r, round / 2) };
  const places = placesIn(f, view, solid);
  const own = places.filter((p) => !outlines.some((o) => o.feature !== f.name && isIn(o, p)));
  const at = own.find(isFree) ?? own[0] ?? places.find(isFree) ?? first;
  return { at, end: 'dot', rim: 0, reach: first.r };
}

/** Shares of a feature's width and height at which it is tried, the middle first. */
const SHARES = [0.5, 0.75, 0.88, 0.25, 0.12] as const;

/** Points within it, of the member nearest to the notes first. */
function placesIn(f: Feature, view: View, solid: Solid): readonly Point2[] {
  const members = solid.voidsOf(f.name).flatMap((v) => {
    const edges = outlineIn(v, view);
    if (edges.length === 0) return [];
    const [p, q] = [inPicture(view, v.bounds.min), inPicture(view, v.bounds.max)];
    const [u0, u1] = [Math.max(0, Math.min(p.u, q.u)), Math.min(view.width, Math.max(p.u, q.u))];
    const [v0, v1] = [Math.max(0, Math.min(p.v, q.v)), Math.min(view.height, Math.max(p.v, q.v))];
    const at = SHARES.flatMap((s) => SHARES.map((t) => ({ u: u0 + (u1 - u0) * t, v: v0 + (v1 - v0) * s })));
    return [{ u1, at: at.filter((spot) => isIn({ edges }, spot)) }];
  });
  return members.toSorted((a, b) => b.u1 - a.u1).flatMap((m) => m.at);
}

/** Of letters: the end of their line that is nearest to the notes. */
function letterEnd(f: Feature, view: View, solid: Solid): Point2 | undefined {
  const cuts = solid.voidsOf(f.name).filter((v) => v.role === 'engraving');
  if (cuts.length === 0) return undefined;
  const ends = cuts.flatMap(({ bounds }) => [inPicture(view, bounds.min), inPicture(view, bounds.max)]);
  const [low, high] = [Math.min(...ends.map((p) => p.v)), Math.max(...ends.map((p) => p.v))];
  return { u: Math.min(view.width, Math.max(...ends.map((p) => p.u)) + 0.5), v: (low + high) / 2 };
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
