/** What every page has: its head, its caution, its foot. */
import { type Figure, FRAME, HEAVY, type Mark, moved } from './draw/marks';
import { frame, polyline } from './draw/shapes';
import { column } from './draw/stack';
import { type Inline, linesOf, printable, SMALL, textFigure } from './draw/text';
import { FIELD } from './page';

const PAD = 1.6;
export const FOOT_H = 6;

/** A frame across the field: what the page is on the left, what it belongs to on the right. */
export function head(left: readonly Figure[], right: readonly (Inline | readonly Inline[])[], rightW: number): Figure {
  const a = column(left);
  const b = column(right.map((t) => textFigure(t, { width: rightW - 2 * PAD, align: 'right' })));
  const h = Math.max(a.h, b.h) + 2 * PAD;
  const x = FIELD.w - rightW;
  const marks: Mark[] = [
    frame({ x0: 0, y0: 0, x1: FIELD.w, y1: h }, HEAVY),
    polyline(
      [
        [x, 0],
        [x, h],
      ],
      FRAME,
    ),
    ...moved(a.marks, PAD, PAD),
    ...moved(b.marks, x + PAD, PAD),
  ];
  return { marks, w: FIELD.w, h };
}

const FOOT_LEFT = 99;
const FOOT_MIDDLE = 64;

/** `rest` is kept whole; of a file's name that is too long the end is. */
export function foot(file: string, rest: string, middle: string, right: Inline): Mark[] {
  const y = FIELD.h - FOOT_H;
  const name = [...printable(file)];
  let from = 0;
  const left = () => `${from === 0 ? '' : '…'}${name.slice(from).join('')}${rest}`;
  while (from < name.length && (linesOf(left(), SMALL)[0]?.width ?? 0) > FOOT_LEFT) from++;
  const [a, b, c] = [
    textFigure(left(), { cap: SMALL }),
    textFigure(middle, { width: FOOT_MIDDLE, align: 'middle' }),
    textFigure(right, { width: FIELD.w - FOOT_LEFT - FOOT_MIDDLE, align: 'right' }),
  ];
  return [
    polyline([
      [0, y],
      [FIELD.w, y],
    ]),
    ...moved(a.marks, 0, y + 0.5),
    ...moved(b.marks, FOOT_LEFT, y + 0.5),
    ...moved(c.marks, FOOT_LEFT + FOOT_MIDDLE, y + 0.5),
  ];
}

export function caution(text: readonly Inline[], w: number = FIELD.w): Figure {
  const said = textFigure(text, { width: w - 2 * PAD });
  const h = said.h + 2 * PAD - 1;
  return { marks: [frame({ x0: 0, y0: 0, x1: w, y1: h }, HEAVY), ...moved(said.marks, PAD, PAD - 0.5)], w, h };
}
