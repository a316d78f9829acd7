/** Datums and tolerances of faces: at the line that the face is where it is seen edge-on. */
import type { Drawn } from '../../export/flat/lines';
import type { Edge } from '../../geometry/types';
import { FACES, type Face } from '../../model/model';
import { SAME } from '../../tolerance';
import { datumBox, triangle } from '../draw/datum';
import { type Figure, type Mark, moved } from '../draw/marks';
import { arrowHead, polyline } from '../draw/shapes';
import { SMALL } from '../draw/text';
import { OUT, type Side, sideOf } from '../view/side-of';
import { belowFigure, type Drafted, tolerancesOf } from './callout';
import type { Note } from './lane';

/** Faces that something is said of. */
export function facesSaid({ part }: Drafted): readonly Face[] {
  const datums = [...part.datums.values()].map((d) => d.target.name);
  return FACES.filter((f) => datums.includes(f) || tolerancesOf(f, part).length > 0);
}

const LIKED: readonly (Side | undefined)[] = ['right', 'top', 'bottom', 'left'];

/** The view that shows a face best. */
export function viewFor(face: Face, views: readonly Drawn[]): Drawn | undefined {
  const all = views.filter((d) => sideOf(face, d.view));
  const rank = (d: Drawn) => LIKED.indexOf(sideOf(face, d.view)) + (longest(face, d) ? 0 : 10);
  return all.reduce<Drawn | undefined>((best, d) => (!best || rank(d) < rank(best) ? d : best), undefined);
}

/** Above and to the left of a view: the face's line drawn on, and what is said of it beside that. */
const ON = 13;
const BESIDE = 5;

/** A face that is the left side of its view: notes stand on the other side, so it has its own corner. */
export function leftFaceMarks(face: Face, drawn: Drawn, scale: number, of: Drafted): readonly Mark[] {
  if (sideOf(face, drawn.view) !== 'left') return [];
  const { figure, end } = saidOf(face, of);
  const top = -drawn.view.height * scale;
  const y = top - ON + 2;
  const foot = end === 'triangle' ? 1.7 : 0;
  return [
    polyline([
      [0, top - 1],
      [0, top - ON],
    ]),
    polyline([
      [-BESIDE, y],
      [-foot, y],
    ]),
    end === 'triangle' ? triangle(0, y, -1, 0) : arrowHead(0, y, 1, 0),
    ...moved(figure.marks, -BESIDE - figure.w, y - SMALL),
  ];
}

export function isLeft(face: Face, { view }: Drawn): boolean {
  return sideOf(face, view) === 'left';
}

export function faceNote(face: Face, drawn: Drawn, scale: number, of: Drafted): Note {
  const { view } = drawn;
  const side = sideOf(face, view)!;
  const { figure, end } = saidOf(face, of);
  const [w, h] = [view.width, view.height];
  const lies = side === 'top' || side === 'bottom';
  const [a, b] = longest(face, drawn) ?? [0, lies ? w : h];
  const along = a + (b - a) * (lies ? 0.85 : 0.5);
  const [u, v] = lies ? [along, side === 'top' ? h : 0] : [side === 'right' ? w : 0, along];
  return { figure, to: { u: u * scale, v: -v * scale }, radius: 0, end, out: OUT[side] };
}

/** Frames, with the datum below them; a datum alone is its letter, and the triangle stands on the line itself. */
function saidOf(face: Face, of: Drafted): { readonly figure: Figure; readonly end: Note['end'] } {
  const below = belowFigure(face, of);
  if (tolerancesOf(face, of.part).length > 0) return { figure: below, end: 'arrow' };
  const letters = [...of.part.datums.values()].filter((d) => d.target.name === face).map((d) => d.letter.name);
  return { figure: { marks: datumBox(letters.join(',')), w: 5, h: 5 }, end: 'triangle' };
}

/** The longest stretch of the face's line that is really there. */
export function longest(face: Face, { view, visible }: Drawn): readonly [number, number] | undefined {
  const side = sideOf(face, view);
  const lies = side === 'top' || side === 'bottom';
  const at = side === 'top' ? view.height : side === 'right' ? view.width : 0;
  const on = (e: Edge) => {
    if (e.type !== 'line') return false;
    return lies ? near(e.a.v, at) && near(e.b.v, at) : near(e.a.u, at) && near(e.b.u, at);
  };
  const found = visible.filter(on).map((e): readonly [number, number] => {
    const [p, q] = lies ? [e.a.u, e.b.u] : [e.a.v, e.b.v];
    return [Math.min(p, q), Math.max(p, q)];
  });
  return found.reduce<readonly [number, number] | undefined>(
    (best, s) => (!best || s[1] - s[0] > best[1] - best[0] ? s : best),
    undefined,
  );
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < SAME * 10;
}
