/** Page 1: the finished part, what it is sawn from, what to bring, its set-ups at a glance. */

import { findMaterial } from '../tables/materials';
import { SAME } from '../tolerance';
import { type Figure, type Mark, moved } from './draw/marks';
import { beside, column, framed, NOTHING } from './draw/stack';
import { bold, type Inline, LARGE, NUMBER, SMALL, textFigure } from './draw/text';
import { caution, FOOT_H, head } from './furniture';
import type { SheetWords } from './language/en';
import type { SetupWords } from './language/setup-en';
import { FIELD } from './page';
import { toBring } from './part/bring';
import { calledBy, notesFigure } from './part/frames';
import { glanceFigure } from './part/glance';
import { lettersOf } from './part/letters';
import { sawFigure } from './part/saw';
import { featureTables } from './part/table';
import type { SheetPart } from './sheet-part';
import { facesShown } from './view/choice';
import { drawingOf } from './view/drawing';
import { closestBore, sectionThrough } from './view/section';
import { sectionFigure } from './view/section-figure';

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

/** Least and most of what stands beside the drawing. */
const SIDE = 66;
const MOST_SIDE = 92;
const RIGHT = 64;
const GAP = 2.5;
/** Columns of what to bring. */
const ABREAST = 4;
const BODY = FIELD.h - FOOT_H - 1.5;
/** With less than this for the drawing, what stands below it goes to a page of its own. */
const LEAST_DRAWING = 95;

export function partPages({ made, words, said }: PageOf): readonly Draft[] {
  const { part, shop, solid } = made.read;
  const letters = lettersOf(part);
  const of = { part, solid, words, letters };
  const called = calledBy(of);
  const warn = cautionFigure(made, words);
  const bring = bringFigure(toBring(made, words, said), words);
  const glance = glanceFigure(made, words, called);
  const headH = headOf(made, words, '1:1')('1').h;
  const under = column([bring, glance], GAP);
  const apart = BODY - headH - under.h - warn.h - 3 * GAP < LEAST_DRAWING;
  const room = BODY - headH - warn.h - 2 * GAP - (apart ? 0 : under.h + GAP);
  const bore = closestBore(part);
  const section = bore && sectionThrough(bore, part, solid);
  const faces = facesShown(part, section ? bore.face : undefined);
  const drawing = drawingOf({ ...of, faces, ...(section && { section }) }, { w: FIELD.w - SIDE - GAP, h: room });
  const w = Math.min(MOST_SIDE, Math.max(SIDE, FIELD.w - drawing.w - 2 * GAP));
  const saw = sawFigure(part, shop, words, w);
  const cut = section
    ? sectionFigure(section, part, words, { most: drawing.scale, w, h: Math.max(25, (room - saw.h) * 0.45) })
    : NOTHING;
  const notes = notesFigure({ ...of, w });
  const hidden = drawing.missing.map((f) => words.faces[f]).join(', ');
  const missing = hidden === '' ? NOTHING : textFigure(words.notShown(hidden), { width: w });
  const below = [missing, notes].filter((f) => f.h > 0);
  const free = room - [saw, cut, ...below].reduce((sum, f) => sum + (f.h > 0 ? f.h + GAP : 0), 0);
  const [listed, rest] = featureTables(of, w, free);
  const side: Figure[] = [saw];
  const later: Figure[] = [];
  for (const f of [cut, listed, ...below, rest])
    if (f !== rest && column([...side, f], GAP).h <= room + SAME) side.push(f);
    else if (f.h > 0) later.push(f);
  const middle = beside([
    [0, drawing],
    [FIELD.w - w, column(side, GAP)],
  ]);
  const heading = headOf(made, words, drawing.scale.words);
  const first: Draft = {
    number: later.length > 0 || apart ? '1a' : '1',
    marks: (sheet) => {
      const top = heading(sheet);
      const lower = apart ? warn : column([under, warn], GAP);
      return [...top.marks, ...moved(middle.marks, 0, top.h + GAP), ...moved(lower.marks, 0, BODY - lower.h)];
    },
  };
  const second = column([...(later.length > 0 ? [twoColumns(later)] : []), ...(apart ? [under] : [])], GAP);
  if (second.h === 0) return [first];
  return [
    first,
    {
      number: '1b',
      marks: (sheet) => {
        const top = heading(sheet);
        return [...top.marks, ...moved(second.marks, 0, top.h + GAP), ...moved(warn.marks, 0, BODY - warn.h)];
      },
    },
  ];
}

function twoColumns(figures: readonly Figure[]): Figure {
  const [a, ...rest] = figures;
  if (rest.length === 0) return a!;
  return beside([
    [0, a!],
    [FIELD.w / 2 + 2, column(rest, GAP)],
  ]);
}

function headOf({ read: { part, shop } }: SheetPart, words: SheetWords, scale: string): (sheet: string) => Figure {
  const material = part.material && (findMaterial(part.material.name)?.title ?? part.material.name);
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
  const w = (FIELD.w - 4) / ABREAST;
  const each = Math.ceil(lines.length / ABREAST);
  const columns = Array.from({ length: ABREAST }, (_, i) => i).map((i): readonly [number, Figure] => [
    i * w,
    column(lines.slice(i * each, (i + 1) * each).map((l) => textFigure(`☐ ${l}`, { width: w - 1 }))),
  ]);
  return framed(column([textFigure(bold(words.bring)), beside(columns)]), FIELD.w, { pad: 2 });
}

function cautionFigure({ source, errors }: SheetPart, words: SheetWords): Figure {
  const said: Inline[] = [];
  if (errors > 0) said.push(bold(words.errors(errors)), ' ');
  if (source === 'planned') said.push(bold(words.planned), ' ');
  if (source === 'none') said.push(bold(words.rough), ' ');
  return caution([...said, bold(words.caution), ' ', words.shopFirst]);
}
