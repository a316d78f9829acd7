/** The cut list as it is sawn: each bar drawn to length with its cuts, and a box to tick. */
import type { BarNeed } from '../../planning/bars';
import type { SawnBar } from '../../planning/cut-list/types';
import type { ReadyStock } from '../../planning/ready';
import { mmPer } from '../../text/format';
import { type Figure, FRAME, type Mark, moved, NARROW } from '../draw/marks';
import { boxEdges, frame, hatching, polyline } from '../draw/shapes';
import { column } from '../draw/stack';
import { bold, NUMBER, textFigure } from '../draw/text';
import type { Words } from '../language';
import type { JobWords } from '../language/job-en';
import { num } from '../part/numbers';
import type { JobPaper } from './data';
import { barWords, buyWords, piecesWords, readyWords } from './words';

const BAR_H = 5;
/** Between a bar's picture and the next one's words. */
const GAP = 1.6;

export function needFigures(
  need: BarNeed,
  paper: JobPaper,
  words: Pick<Words, 'job' | 'part'>,
  w: number,
): readonly Figure[] {
  const longest = Math.max(...need.list.bars.map((b) => b.lengthMm));
  const { units, saw } = paper.job;
  const drawing = { perMm: w / longest, kerfMm: saw.kerfMm, trimMm: saw.trimMm, units, words: words.job, w };
  const title = column([
    textFigure([bold(piecesWords(need, words))], { width: w }),
    textFigure(buyWords(need, paper, words.job).join(' '), { width: w }),
  ]);
  const [first, ...rest] = need.list.bars.map((bar) => barFigure(bar, drawing));
  // A title never stands alone at a page's foot.
  return first ? [column([title, first], 0.6), ...rest] : [title];
}

interface Drawing {
  readonly perMm: number;
  readonly kerfMm: number;
  readonly trimMm: number;
  readonly units: 'mm' | 'in';
  readonly words: JobWords;
  readonly w: number;
}

function barFigure(bar: SawnBar, { perMm, kerfMm, trimMm, units, words, w }: Drawing): Figure {
  const said = textFigure(`☐ ${barWords(bar, units, words)}`, { width: w });
  const marks: Mark[] = [frame({ x0: 0, y0: 0, x1: bar.lengthMm * perMm, y1: BAR_H }, FRAME)];
  let at = trimMm;
  for (const cut of bar.cutsMm) {
    const [from, to] = [at * perMm, (at + cut) * perMm];
    const label = textFigure(num(Number((cut / mmPer(units)).toFixed(units === 'in' ? 2 : 1)) * mmPer(units), units));
    if (label.w + 1 < to - from) marks.push(...moved(label.marks, (from + to - label.w) / 2, (BAR_H - label.h) / 2));
    at += cut + kerfMm;
    if (at < bar.lengthMm) marks.push(...sawn(to, Math.min(bar.lengthMm, at) * perMm));
  }
  const left = { x0: at * perMm, y0: 0, x1: bar.lengthMm * perMm, y1: BAR_H };
  if (left.x1 - left.x0 > 1) marks.push(hatching(boxEdges(left), 2));
  return column([said, { marks, w, h: BAR_H + GAP }]);
}

/** Where the saw goes: a line at each side of the kerf. */
function sawn(from: number, to: number): Mark[] {
  return [from, to].map((x) =>
    polyline(
      [
        [x, 0],
        [x, BAR_H],
      ],
      NARROW,
    ),
  );
}

/** Blanks to have at hand, with a box to tick. */
export function readyFigures(
  ready: readonly ReadyStock[],
  words: Pick<Words, 'job' | 'part'>,
  w: number,
): readonly Figure[] {
  if (ready.length === 0) return [];
  return [
    textFigure(bold(words.job.notSawn, NUMBER)),
    ...ready.map((r) => textFigure(`☐ ${readyWords(r, words)}`, { width: w })),
  ];
}
