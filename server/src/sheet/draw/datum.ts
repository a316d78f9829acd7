/** A datum's sign: a filled triangle on what it is, its letter in a frame (ISO 5459). */
import { type Fill, type Mark, moved, NARROW } from './marks';
import { at, frame } from './shapes';
import { bold, SMALL, textFigure } from './text';

/** Height of the triangle, side of the frame. */
export const TRIANGLE = 1.7;
export const DATUM_BOX = 2 * SMALL;

export function datumBox(letter: string): Mark[] {
  const said = textFigure(bold(letter));
  return [
    ...moved(said.marks, (DATUM_BOX - said.w) / 2, (DATUM_BOX - SMALL) / 2 - 0.26 * SMALL),
    frame({ x0: 0, y0: 0, x1: DATUM_BOX, y1: DATUM_BOX }, NARROW),
  ];
}

/** Its foot in the middle of a line at a place, its point along (dx, dy), a unit vector. */
export function triangle(x: number, y: number, dx: number, dy: number): Fill {
  const half = TRIANGLE * 0.6;
  const corners = [
    at(x - dy * half, y + dx * half),
    at(x + dy * half, y - dx * half),
    at(x + dx * TRIANGLE, y + dy * TRIANGLE),
  ];
  return { type: 'fill', loops: [corners.map((p, i) => ({ type: 'line', a: p, b: corners[(i + 1) % 3]! }))] };
}
