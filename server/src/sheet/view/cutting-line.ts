/** What is drawn on a view besides its edges: the corner that numbers count from, the line along which a section is cut. */
import type { Drawn } from '../../export/flat/lines';
import { HEAVY, type Mark } from '../draw/marks';
import type { Placer } from '../draw/placer';
import { arrowHead, polyline, ring } from '../draw/shapes';
import { bold, NUMBER } from '../draw/text';
import { inPicture, onPage, type Place } from './projected';
import type { Section } from './section';

/** How long a cutting line's ends outside its view are. */
export const STUB = 5;

interface Cutting {
  readonly section: Pick<Section, 'at' | 'axis'>;
  readonly drawn: Drawn;
  readonly place: Place;
  readonly letter: string;
}

/** The corner that every number counts from. */
export function cornerSign(x: number, y: number): Mark[] {
  return [ring(x, y, 1.7, 0.35), ring(x, y, 0.5, 1)];
}

/** Ends of the cutting line outside the view, with the way one looks (ISO 128-3); its letter where there is room. */
export function cuttingLine({ section: { at, axis }, drawn, place, letter }: Cutting, placer: Placer): Mark[] {
  const p: [number, number, number] = [0, 0, 0];
  p[axis] = at;
  const { u } = onPage(place, inPicture(drawn.view, p));
  const [top, foot] = [place.y - drawn.view.height * place.scale, place.y];
  return [top - STUB, foot + 1].flatMap((y): Mark[] => {
    const middle = y + (STUB - 1) / 2;
    const marks: Mark[] = [
      polyline(
        [
          [u, y],
          [u, y + STUB - 1],
        ],
        HEAVY,
      ),
      polyline([
        [u - 6, middle],
        [u - 1, middle],
      ]),
      arrowHead(u - 0.4, middle, 1, 0),
    ];
    placer.add(marks);
    const name = placer.put(bold(letter), NUMBER, ({ width }) => [
      [u - 7 - width, middle + NUMBER / 2],
      [u + 1.5, middle + NUMBER / 2],
      [u + 4, middle + NUMBER / 2],
      [u - 10 - width, middle + NUMBER / 2],
      [u + 7, middle + NUMBER / 2],
      [u - 14 - width, middle + NUMBER / 2],
    ]);
    return [...marks, ...name];
  });
}
