/** A page of its own behind the set-ups: what is done beside the mill. None where nothing is. */
import { benchLists } from './bench';
import { column, ticked } from './draw/stack';
import { bold, HUGE, LARGE, NUMBER, textFigure } from './draw/text';
import { caution, FOOT_H, head } from './furniture';
import type { Words } from './language';
import { FIELD } from './page';
import { calledBy } from './part/frames';
import { lettersOf } from './part/letters';
import type { Draft } from './part-page';
import type { SheetPart } from './sheet-part';

const GAP = 2.5;
const RIGHT = 66;
const BODY = FIELD.h - FOOT_H - 1.5;

export function benchPages({ read, setups }: SheetPart, words: Words): readonly Draft[] {
  const { part } = read;
  const letters = lettersOf(part);
  const lists = benchLists(read, words, calledBy({ part, words: words.part, letters }));
  if (lists.length === 0) return [];
  const { bench: said } = words;
  const top = head(
    [
      textFigure([bold(said.heading, HUGE), ' ', { text: said.after, cap: LARGE }], {
        width: FIELD.w - RIGHT - 4,
        cap: NUMBER,
      }),
    ],
    [[part.name, part.revision ? ' · ' : '', part.revision ? bold(words.part.revision(part.revision)) : '']],
    RIGHT,
  );
  const careful = caution([bold(said.caution)]);
  const figures = lists.map(({ title, lines }) =>
    column([textFigure(bold(title, NUMBER), { width: FIELD.w }), ...lines.map((l) => ticked([l], FIELD.w))], 1),
  );
  const room = BODY - top.h - careful.h - 2 * GAP;
  const pages: (typeof figures)[] = [[]];
  for (const figure of figures) {
    const last = pages.at(-1)!;
    if (last.length > 0 && column([...last, figure], GAP).h > room) pages.push([figure]);
    else last.push(figure);
  }
  const number = String(setups.length + 2);
  return pages.map((some, i) => ({
    number: pages.length > 1 ? `${number}${String.fromCharCode(97 + i)}` : number,
    marks: () => column([top, careful, ...some], GAP).marks,
  }));
}
