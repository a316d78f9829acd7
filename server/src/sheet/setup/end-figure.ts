/** The end view on a set-up's page: with the heights, the fixed jaw named, the zero of Z. */

import { type Figure, type Mark, moved } from '../draw/marks';
import { Placer } from '../draw/placer';
import { arrowHead, polyline } from '../draw/shapes';
import { bold, NUMBER, SMALL, textFigure } from '../draw/text';
import { crossed } from '../view/projected';
import { endView } from './end-view';
import type { Lying } from './lying';
import { type Saying, size } from './saying';
import { zeroSign } from './zero-sign';

const SIDE = 1.5;
/** Of its two lines of text, and the room above the picture. */
const TEXTS = 3.4 * SMALL;

export function endFigure(lying: Lying, s: Saying, room: { readonly w: number; readonly h: number }): Figure {
  const { words, said, units, passes } = s;
  const { gripMm, aboveMm } = passes.holding;
  const made = endView(lying, words, { w: room.w - 2 * SIDE, h: room.h - TEXTS });
  if (!made) return { marks: [], w: 0, h: 0 };
  const face = words.faces[crossed(lying.back, lying.seating.up)];
  const head = textFigure(bold(said.fromEnd(face, made.scale.words)), { width: room.w });
  const marks: Mark[] = moved(made.marks, SIDE, 0);
  const placer = new Placer(marks, { x0: 0, y0: -3, x1: room.w, y1: made.h + 1 });
  const { jaws, top, foot, bed } = made.at;
  const [x0, x1] = [SIDE + made.work.x0, SIDE + made.work.x1];
  const at = { jaws, top, foot, bed, x0, x1, right: room.w };
  marks.push(...heightMarks(at, s, placer), ...zeroMarks(at, s, placer), ...nameMarks(at, lying, s, placer));
  const held = gripMm !== undefined && aboveMm !== undefined;
  const under = held ? said.inJaws(size(gripMm, units), size(aboveMm, units)) : '';
  const below = textFigure(bold(under), { width: room.w, align: 'middle' });
  const shift = head.h + 3.5;
  return {
    marks: [...head.marks, ...moved(marks, 0, shift), ...moved(below.marks, 0, shift + made.h + 0.6)],
    w: room.w,
    h: shift + made.h + 0.6 + below.h,
  };
}

/** Heights and sides on the figure. */
interface At {
  readonly jaws: number;
  readonly top: number;
  readonly foot: number;
  readonly bed: number;
  readonly x0: number;
  readonly x1: number;
  readonly right: number;
}

/** What stands above the jaws. */
function heightMarks({ jaws, top, x0 }: At, { passes, units }: Saying, placer: Placer): Mark[] {
  const { aboveMm } = passes.holding;
  if (aboveMm === undefined || jaws - top <= 2) return [];
  const x = x0 - 2.5;
  const head = Math.min(2, (jaws - top) / 2.2);
  const level = (y: number) =>
    polyline([
      [x - 1.5, y],
      [x0 - 0.8, y],
    ]);
  const arrow: Mark[] = [
    level(top),
    level(jaws),
    polyline([
      [x, top],
      [x, jaws],
    ]),
    arrowHead(x, top, 0, -1, head),
    arrowHead(x, jaws, 0, 1, head),
  ];
  placer.add(arrow);
  const middle = (top + jaws + NUMBER) / 2;
  const said = placer.put(bold(size(aboveMm, units), NUMBER), NUMBER, (l) => [
    [x - 1.2 - l.width, middle],
    [x + 1.2, middle],
    [x - l.width / 2, top - 1.5],
  ]);
  return [...arrow, ...said];
}

function zeroMarks({ top, foot, x1 }: At, { passes }: Saying, placer: Placer): Mark[] {
  const z = passes.zeros.find((t) => t.axis === 'Z' && t.missing === undefined);
  if (!z) return [];
  const y = z.how === 'top' || z.how === 'leaning' ? top : foot;
  placer.block({ x0: x1 - 2.4, x1: x1 + 2.4, y0: y - 2.4, y1: y + 2.4 });
  return zeroSign(x1, y);
}

/** The face that is up, the fixed jaw, the parallels' height. */
function nameMarks(at: At, lying: Lying, { passes, said, words, units }: Saying, placer: Placer): Mark[] {
  const { jaws, top, foot, bed, x0, x1, right } = at;
  const { fixed, parallelsMm } = passes.holding;
  const up = placer.put(bold(words.faces[lying.seating.up]), SMALL, (l) => [
    [(x0 + x1 - l.width) / 2, top + Math.min(5, (foot - top + SMALL) / 2)],
    [x0 + 1.5, top + SMALL + 1.5],
    [x1 + 3, top + SMALL],
    [(x0 + x1 - l.width) / 2, top - 1],
  ]);
  const jaw = fixed
    ? placer.put(bold(said.fixedSide), SMALL, (l) => [
        [x1 + 3, jaws - 1.2],
        [right - l.width, jaws - 1.2],
        [x1 + 3, top - 1],
      ])
    : [];
  const high = parallelsMm
    ? placer.put(bold(size(parallelsMm, units), NUMBER), NUMBER, (l) => [
        [(x0 + x1 - l.width) / 2, (foot + bed + NUMBER) / 2],
        [x1 + 16, bed - 1],
        [x0 - 16 - l.width, bed - 1],
      ])
    : [];
  return [...up, ...jaw, ...high];
}
