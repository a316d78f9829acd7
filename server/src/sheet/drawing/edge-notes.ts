/**
 * Edges that have a mark of their own (ISO 13715; their size as ISO 129-1 has it): a line to one of them, in a view where
 * it is a corner or an outline. All other edges are told by the mark in the title block.
 */
import type { Drawn } from '../../export/flat/lines';
import { pointAt } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';
import { breaksEdges, type EdgeChoice } from '../../model/feature-kinds';
import type { Face, Feature } from '../../model/model';
import { NEAR } from '../../tolerance';
import { textFigure } from '../draw/text';
import { type Side, sideOf } from '../view/side-of';
import { type Drafted, isToldAtRims, textOf } from './callout';
import { longest } from './face-notes';
import type { Note } from './lane';

/** In the picture's millimetres. */
export interface MarkedEdge {
  readonly feature: Feature;
  readonly at: Point2;
}

interface Marked {
  readonly of: ReadonlyMap<Drawn, readonly MarkedEdge[]>;
  /** Those that are seen in no view: they are told in words. */
  readonly unseen: readonly Feature[];
}

const EDGE_W = 46;

export function markedEdges(of: Drafted, views: readonly Drawn[]): Marked {
  const found = new Map<Drawn, MarkedEdge[]>();
  const unseen: Feature[] = [];
  for (const feature of of.part.features.filter(breaksEdges)) {
    if (isToldAtRims(feature, of)) continue;
    const places = feature.edges.flatMap((e) => placesOf(e, feature, views));
    const best = places.reduce<Place | undefined>((b, p) => (!b || p.rank < b.rank ? p : b), undefined);
    if (!best) unseen.push(feature);
    else found.set(best.drawn, [...(found.get(best.drawn) ?? []), best]);
  }
  return { of: found, unseen };
}

export function edgeNote({ feature, at }: MarkedEdge, scale: number, of: Drafted): Note {
  const figure = textFigure(['⌞\u00a0', textOf(feature, of)], { width: EDGE_W });
  return { figure, to: { u: at.u * scale, v: -at.v * scale }, radius: 0, end: 'arrow' };
}

interface Place extends MarkedEdge {
  readonly drawn: Drawn;
  readonly rank: number;
}

function placesOf(edge: EdgeChoice, feature: Feature, views: readonly Drawn[]): readonly Place[] {
  if (edge.type === 'rim') return [];
  const faces = edge.type === 'face' ? [edge.face] : edge.faces;
  return views.flatMap((drawn) => {
    const at = cornerIn(faces, drawn);
    return at ? [{ feature, drawn, at, rank: drawn.view.face === 'front' ? 0 : 1 }] : [];
  });
}

/** Sides whose corner a line reaches from the notes without running over the picture. */
const REACHED: readonly Side[] = ['top', 'bottom', 'right'];

/** Where an edge is a corner of the outline: of one face its end nearest to the notes, of two the one between them. */
function cornerIn(faces: readonly Face[], drawn: Drawn): Point2 | undefined {
  const { view } = drawn;
  const sides = faces.map((f) => sideOf(f, view));
  const [first] = sides;
  const stretch = first && longest(faces[0]!, drawn);
  if (!first || !stretch || sides.includes(undefined)) return undefined;
  const end = (side: Side, along: number) =>
    side === 'top' || side === 'bottom'
      ? { u: along, v: side === 'top' ? view.height : 0 }
      : { u: side === 'right' ? view.width : 0, v: along };
  if (sides.length === 1) return REACHED.includes(first) ? end(first, stretch[1]) : undefined;
  if (!sides.includes('right')) return undefined;
  const corner = { u: view.width, v: sides.includes('top') ? view.height : 0 };
  if (stretch.some((s) => distance(end(first, s), corner) < NEAR)) return corner;
  return brokenAt(corner, drawn);
}

/** What is broken wider than a line is drawn as it is: the middle of the line or arc in place of the corner. */
function brokenAt(corner: Point2, { view, visible }: Drawn): Point2 | undefined {
  const far = Math.min(view.width, view.height) / 2;
  const joins = ({ a, b }: Edge) =>
    [a, b].some((p) => Math.abs(p.u - corner.u) < NEAR) && [a, b].some((p) => Math.abs(p.v - corner.v) < NEAR);
  const found = visible.find((e) => joins(e) && [e.a, e.b].every((p) => distance(p, corner) < far));
  return found && pointAt(found, 0.5);
}

function distance(p: Point2, q: Point2): number {
  return Math.hypot(p.u - q.u, p.v - q.v);
}
