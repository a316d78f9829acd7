/** Page 1: the finished part, what it is sawn from, what to bring, its set-ups at a glance. */

import { materialOf } from '../model/material-of';
import { SAME } from '../tolerance';
import { type Figure, type Mark, moved } from './draw/marks';
import { beside, column, framed, NOTHING, ticked } from './draw/stack';
import { bold, type Inline, LARGE, NUMBER, SMALL, textFigure } from './draw/text';
import { caution, FOOT_H, head } from './furniture';
import type { SheetWords } from './language/en';
import type { SetupWords } from './language/setup-en';
import { FIELD } from './page';
import { toBring } from './part/bring';
import { calledBy } from './part/frames';
import { glanceFigure } from './part/glance';
import { lettersOf } from './part/letters';
import { middleOf } from './part/middle';
import type { SheetPart } from './sheet-part';

interface PageOf {
  readonly made: SheetPart;
  readonly words: SheetWords;
  readonly said: SetupWords;
}

/** A page before it knows how many there are. */
export interface Draft {
  readonly number: string;
  readonly marks: (sheet: string) => readonly Mark[];
}

const RIGHT = 64;
const GAP = 2.5;
/** Columns of what to bring: the number that makes it lower. */
const ABREAST = [4, 5] as const;
const BODY = FIELD.h - FOOT_H - 1.5;

export function partPages({ made, words, said }: PageOf): readonly Draft[] {
  const letters = lettersOf(made.read.part);
  const called = calledBy({ part: made.read.part, words, letters });
  const warn = cautionFigure(made, words);
  const bring = bringFigure(toBring(made, words, said), words);
  const under = column([bring, glanceFigure(made, words, called)], GAP);
  const room = BODY - headOf(made, words, '1:1')('1').h - warn.h - 2 * GAP;
  const middle = middleOf({ made, words, letters, gap: GAP }, { together: room - under.h - GAP, alone: room });
  const { apart, later } = middle;
  const heading = headOf(made, words, middle.scale.words);
  const page = (number: string, inside: Figure, lower: Figure): Draft => ({
    number,
    marks: (sheet) => {
      const top = heading(sheet);
      return [...top.marks, ...moved(inside.marks, 0, top.h + GAP), ...moved(lower.marks, 0, BODY - lower.h)];
    },
  });
  const second = column([later, ...(apart ? [under] : [])], GAP);
  const lower = apart ? warn : column([under, warn], GAP);
  if (second.h === 0) return [page('1', middle.figure, lower)];
  return [page('1a', middle.figure, lower), page('1b', second, warn)];
}

function headOf({ read: { part, shop } }: SheetPart, words: SheetWords, scale: string): (sheet: string) => Figure {
  const material = part.material && (materialOf(part)?.title ?? part.material.name);
  const under: Inline[] = [
    part.title ? part.name : '',
    part.revision ? bold(words.revision(part.revision)) : '',
    material ?? '',
    bold(words.pieces(part.quantity)),
  ]
    .filter((t) => t !== '')
    .flatMap((t, i) => (i === 0 ? [t] : [' · ', t]));
  const left = FIELD.w - RIGHT - 4;
  return (sheet) =>
    head(
      [
        textFigure(bold(part.title ?? part.name), { width: left, cap: LARGE }),
        textFigure(under, { width: left, cap: NUMBER }),
        textFigure(['◎ ', words.countsFromHere], { width: left }),
      ],
      [
        part.tolerance ? words.general(part.tolerance.name) : words.noGeneral,
        [words.drawn(scale, part.units), ' ', { text: '⌲', cap: SMALL * 1.15 }],
        `${words.madeBy} ________ ${words.checked} ________`,
        [`${shop.name} · `, bold(sheet)],
      ],
      RIGHT,
    );
}

function bringFigure(lines: readonly string[], words: SheetWords): Figure {
  if (lines.length === 0) return NOTHING;
  const [inside] = ABREAST.map((abreast) => {
    const w = (FIELD.w - 4) / abreast;
    const columns = inColumns(
      lines.map((l) => ticked([l], w - 1)),
      abreast,
    );
    return beside(columns.map((some, i) => [i * w, column(some)] as const));
  }).sort((a, b) => a.h - b.h);
  return framed(column([textFigure(bold(words.bring)), inside!]), FIELD.w, { pad: 2 });
}

/** In their order, so that the highest column is as low as can be. */
function inColumns(items: readonly Figure[], abreast: number): readonly (readonly Figure[])[] {
  const filled = (most: number) => {
    const columns: Figure[][] = [[]];
    for (const item of items) {
      const last = columns.at(-1)!;
      if (last.length > 0 && column([...last, item]).h > most + SAME) columns.push([item]);
      else last.push(item);
    }
    return columns;
  };
  const row = Math.min(...items.map((i) => i.h));
  let most = Math.max(row, column(items).h / abreast);
  while (filled(most).length > abreast) most += row / 2;
  return filled(most);
}

function cautionFigure({ source, errors }: SheetPart, words: SheetWords): Figure {
  const said: Inline[] = [];
  if (errors > 0) said.push(bold(words.errors(errors)), ' ');
  if (source === 'planned') said.push(bold(words.planned), ' ');
  if (source === 'none') said.push(bold(words.rough), ' ');
  return caution([...said, bold(words.caution), ' ', words.shopFirst]);
}
