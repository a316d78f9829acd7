/** A page for each set-up, in the order of the hands: hold, zero, passes, what is measured, what to do if it moved. */
import { passesOfPart } from '../process/passes';
import { type Figure, moved } from './draw/marks';
import { beside, column, NOTHING } from './draw/stack';
import { bold, HUGE, type Inline, LARGE, NUMBER, textFigure } from './draw/text';
import { caution, FOOT_H, head } from './furniture';
import type { Words } from './language';
import type { SheetWords } from './language/en';
import { FIELD } from './page';
import { calledBy } from './part/frames';
import { lettersOf } from './part/letters';
import type { Draft } from './part-page';
import { aboveView } from './setup/above-view';
import { endFigure } from './setup/end-figure';
import { holdFigure } from './setup/hold';
import { changedFigure, leavingFigures, movedFigure } from './setup/leaving';
import { lyingOf } from './setup/lying';
import { drawTable, grouped, passTable, type TableRow } from './setup/passes-table';
import type { Saying } from './setup/saying';
import { zeroFigure } from './setup/zero-box';
import type { SheetPart } from './sheet-part';
import { dialWords } from './words';

const GAP = 2;
const BODY = FIELD.h - FOOT_H - 1.5;
const SIDE = 58;
const RIGHT = 66;
const PICTURE_H = 70;

export function setupPages(made: SheetPart, { part: words, setup: said, hold }: Words): readonly Draft[] {
  const { read } = made;
  const letters = lettersOf(read.part);
  const called = calledBy({ part: read.part, words, letters });
  return passesOfPart(read).flatMap((passes) => {
    const s: Saying = { passes, units: read.part.units, words, said, hold, quantity: read.part.quantity, called };
    return pagesOf(s, made);
  });
}

/** Empty fields shrink first; then what does not fit goes to a second sheet. Letters never shrink. */
function pagesOf(s: Saying, made: SheetPart): readonly Draft[] {
  const { said } = s;
  const { index } = s.passes;
  const warn = warning(made, s.words);
  const top = (part: string) => headOf(s, made, part);
  const { dial } = s.passes;
  const dials = dial ? [textFigure(said.dials(...dialWords(dial)), { width: FIELD.w })] : [];
  const opening = column([pictures(s, made), zeroFigure(s, FIELD.w), ...dials], GAP);
  const { rows, places } = passTable(s);
  const leaving = (least: number) => leavingFigures(s, FIELD.w, least);
  const closing = (changed: number) => column([movedFigure(s, FIELD.w, warn), changedFigure(s, FIELD.w, changed)], GAP);
  const listed = column(places, 0.6);
  const whole = top('').h + opening.h + drawTable(rows, s).h + listed.h + 4 * GAP;
  const number = String(index + 2);
  for (const [least, changed] of [
    [9, 12],
    [7, 9],
    [6, 6],
  ] as const) {
    const end = column([...leaving(least), closing(changed)], GAP);
    if (whole + end.h > BODY) continue;
    const figure = column([top(''), opening, drawTable(rows, s), listed, end], GAP);
    return [{ number, marks: () => figure.marks }];
  }
  const inTurn = [...places, ...leaving(7)];
  return several({ s, top, opening, rows, inTurn, end: closing(10), number });
}

interface Parts {
  readonly s: Saying;
  readonly top: (part: string) => Figure;
  readonly opening: Figure;
  readonly rows: readonly TableRow[];
  /** Ways and places, then what is measured: in their order, where there is room. */
  readonly inTurn: readonly Figure[];
  readonly end: Figure;
  readonly number: string;
}

function several({ s, top, opening, rows, inTurn, end, number }: Parts): readonly Draft[] {
  const { words } = s;
  const careful = caution([bold(words.caution), ' ', words.shopFirst]);
  const body = BODY - careful.h - GAP;
  const pages: Figure[][] = [];
  let left = grouped(rows);
  let first = true;
  while (left.length > 0 || first) {
    const room = body - top('a').h - GAP - (first ? opening.h + GAP : 0);
    let n = left.length;
    while (n > 1 && drawTable(left.slice(0, n).flat(), s).h > room) n--;
    const fits = left.length > 0 && drawTable(left.slice(0, n).flat(), s).h <= room;
    const taken = fits || !first ? left.slice(0, n) : [];
    pages.push([...(first ? [opening] : []), ...(taken.length > 0 ? [drawTable(taken.flat(), s)] : [])]);
    left = left.slice(taken.length);
    first = false;
  }
  for (const figure of [...inTurn, end]) {
    if (figure.h === 0) continue;
    const last = pages.at(-1)!;
    const used = column([top('a'), ...last, figure], GAP).h;
    if (used <= (figure === end ? BODY : body)) last.push(figure);
    else pages.push([figure]);
  }
  return pages.map((figures, i) => {
    const part = String.fromCharCode(97 + i);
    const lower = figures.includes(end) ? [] : moved(careful.marks, 0, BODY - careful.h);
    return { number: `${number}${part}`, marks: () => [...column([top(part), ...figures], GAP).marks, ...lower] };
  });
}

function headOf(s: Saying, { read, time }: SheetPart, part: string): Figure {
  const { passes, said, words, quantity, called } = s;
  const { setup, index, count, then, machine } = passes;
  const up = then.up ? words.up(words.faces[then.up]) : setup.name;
  const left = FIELD.w - RIGHT - 4;
  const cuts = [...new Set(setup.cuts.map((c) => called(c.name)))].join(' · ');
  const spent = time?.setups[index];
  const minutes = (low: number, high: number) => words.minutes(String(Math.round(low)), String(Math.round(high)));
  const first =
    spent &&
    said.firstPiece(
      minutes(
        spent.cutting[0] + spent.settingUp[0] + spent.changing[0],
        spent.cutting[1] + spent.settingUp[1] + spent.changing[1],
      ),
    );
  const next =
    spent && quantity > 1
      ? `, ${said.nextPiece(minutes(spent.cutting[0] + spent.loading[0] + (spent.tools.length > 1 ? spent.changing[0] : 0), spent.cutting[1] + spent.loading[1] + (spent.tools.length > 1 ? spent.changing[1] : 0)))}`
      : '';
  const boxes =
    quantity <= 3
      ? Array.from({ length: quantity }, (_, i) => `☐\u00a0${words.piece(i + 1).replaceAll(' ', '\u00a0')}`).join('  ')
      : `☐ ${words.eachPiece(quantity)}`;
  const title: Inline[] = [
    bold(said.setup(index + 1), HUGE),
    ' ',
    { text: said.of(count), cap: LARGE },
    ' · ',
    bold(up, LARGE),
  ];
  const again = part !== '' && part !== 'a' ? `${said.continued} · ` : '';
  const { name, revision } = read.part;
  return head(
    [
      textFigure(title, { width: left, cap: NUMBER }),
      textFigure(`${again}${setup.name}: ${cuts}`, { width: left, cap: NUMBER }),
    ],
    [
      [
        name,
        revision ? ' · ' : '',
        revision ? bold(words.revision(revision)) : '',
        machine ? ` · ${machine.name}` : '',
      ],
      ...(first ? [`${first}${next}`] : []),
      { text: boxes, cap: NUMBER },
    ],
    RIGHT,
  );
}

function pictures(s: Saying, { read }: SheetPart): Figure {
  const lying = lyingOf(s.passes.setup, read);
  const hold = holdFigure(s, SIDE);
  if (!lying) return hold;
  const { words, said, units, passes } = s;
  const above = aboveView({ lying, passes, words, units }, { w: FIELD.w - SIDE - 2, h: PICTURE_H });
  const left = above ? column([textFigure(bold(said.fromAbove(above.scale.words))), above], 1) : NOTHING;
  const end = endFigure(lying, s, { w: SIDE, h: Math.max(26, Math.min(42, PICTURE_H + 8 - hold.h)) });
  return beside([
    [0, left],
    [FIELD.w - SIDE, column([hold, end], 1.5)],
  ]);
}

function warning({ source, errors }: SheetPart, words: SheetWords): readonly Inline[] {
  const said: Inline[] = [];
  if (errors > 0) said.push(bold(words.errors(errors)), ' ');
  if (source === 'planned') said.push(bold(words.planned), ' ');
  return said;
}
