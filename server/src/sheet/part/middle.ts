/** The middle of page 1: the views, and beside or below them the saw, the section, the table, the notes. */
import type { Feature } from '../../model/model';
import { SAME } from '../../tolerance';
import { type Figure, moved } from '../draw/marks';
import { beside, column, NOTHING } from '../draw/stack';
import { textFigure } from '../draw/text';
import type { SheetWords } from '../language/en';
import { FIELD } from '../page';
import type { SheetPart } from '../sheet-part';
import { facesShown } from '../view/choice';
import { type Drawing, drawingOf } from '../view/drawing';
import type { Scale } from '../view/projected';
import { closestBore, type Section, sectionThrough } from '../view/section';
import { sectionFigure } from '../view/section-figure';
import { notesFigure } from './frames';
import { sawFigure } from './saw';
import { featureTables } from './table';

interface MiddleOf {
  readonly made: SheetPart;
  readonly words: SheetWords;
  readonly letters: ReadonlyMap<Feature, string>;
  readonly gap: number;
}

/** Heights: with what to bring and the set-ups on the same page, or without. */
interface Rooms {
  readonly together: number;
  readonly alone: number;
}

interface Middle {
  readonly figure: Figure;
  readonly scale: Scale;
  /** What to bring and the set-ups go to a page of their own. */
  readonly apart: boolean;
  /** What found no room here. */
  readonly later: Figure;
}

/** What stands beside the drawing: narrow where that makes the drawing larger, at most so wide. */
const SIDES = [66, 60] as const;
const MOST_SIDE = 92;
/** With less than this for the drawing, or a drawing smaller than half its size, what stands below it goes to a page of its own. */
const LEAST_DRAWING = 95;
const LEAST_SCALE = 0.5;

export function middleOf(of: MiddleOf, { together, alone }: Rooms): Middle {
  const { part, solid } = of.made.read;
  const bore = closestBore(part);
  const section = bore && sectionThrough(bore, part, solid);
  const faces = facesShown(part, section ? bore.face : undefined);
  const drawn = (w: number, h: number) =>
    drawingOf(
      { part, solid, words: of.words, letters: of.letters, faces, ...(section && { section }) },
      { w: FIELD.w - w, h },
    );
  const ways = (h: number, lie: readonly number[]) =>
    lie
      .map((w) => ({ drawing: drawn(w, h), h }))
      .reduce((a, b) => (b.drawing.scale.scale > a.drawing.scale.scale ? b : a));
  const narrow = SIDES.map((w) => w + of.gap);
  const near = together >= LEAST_DRAWING ? ways(together, narrow) : undefined;
  const apart = !near || near.drawing.scale.scale < LEAST_SCALE;
  const { drawing, h } = apart ? ways(alone, [...narrow, 0]) : near;
  const side = FIELD.w - drawing.w - of.gap;
  const parts = { of, drawing, section, h };
  const laid = side >= SIDES[1] - SAME ? besideIt(parts, Math.min(MOST_SIDE, side)) : belowIt(parts);
  return { ...laid, scale: drawing.scale, apart };
}

interface Parts {
  readonly of: MiddleOf;
  readonly drawing: Drawing;
  readonly section: Section | undefined;
  readonly h: number;
}

type Laid = Pick<Middle, 'figure' | 'later'>;

function sectionAt({ of, drawing, section }: Parts, w: number, h: number): Figure {
  if (!section) return NOTHING;
  return sectionFigure(section, of.made.read.part, of.words, { most: drawing.scale, w, h });
}

function notesAt({ of, drawing }: Parts, w: number): readonly Figure[] {
  const { words } = of;
  const hidden = drawing.missing.map((f) => words.faces[f]).join(', ');
  const missing = hidden === '' ? NOTHING : textFigure(words.notShown(hidden), { width: w });
  const notes = notesFigure({ part: of.made.read.part, words, letters: of.letters, w });
  return [missing, notes].filter((f) => f.h > 0);
}

function tableOf({ of }: Parts) {
  const { part, solid } = of.made.read;
  return { part, solid, words: of.words, letters: of.letters };
}

function besideIt(parts: Parts, w: number): Laid {
  const { of, drawing, h } = parts;
  const { gap } = of;
  const saw = sawFigure(of.made.read.part, of.made.read.shop, of.words, w);
  const cut = sectionAt(parts, w, Math.max(25, (h - saw.h) * 0.45));
  const notes = notesAt(parts, w);
  const free = h - [saw, cut, ...notes].reduce((sum, f) => sum + (f.h > 0 ? f.h + gap : 0), 0);
  const [listed, rest] = featureTables(tableOf(parts), w, free);
  const side: Figure[] = [saw];
  const later: Figure[] = [];
  for (const f of [cut, listed, ...notes, rest])
    if (f !== rest && column([...side, f], gap).h <= h + SAME) side.push(f);
    else if (f.h > 0) later.push(f);
  const figure = beside([
    [0, drawing],
    [FIELD.w - w, column(side, gap)],
  ]);
  return { figure, later: abreast(later, gap) };
}

/** A drawing as wide as the page: the rest in two columns below it, or on the next page where there is no room. */
function belowIt(parts: Parts): Laid {
  const { of, drawing, h } = parts;
  const { gap } = of;
  const w = (FIELD.w - 4) / 2;
  const saw = sawFigure(of.made.read.part, of.made.read.shop, of.words, w);
  const free = h - drawing.h - gap;
  const cut = sectionAt(parts, w, 70);
  const table = featureTables(tableOf(parts), w, Number.POSITIVE_INFINITY)[0];
  const rest = beside([
    [0, column([saw, ...notesAt(parts, w)], gap)],
    [FIELD.w - w, column([cut, table], gap)],
  ]);
  if (rest.h <= free) return { figure: column([drawing, rest], gap), later: NOTHING };
  if (saw.h > free) return { figure: drawing, later: rest };
  const others = beside([
    [0, column([cut, ...notesAt(parts, w)], gap)],
    [FIELD.w - w, table],
  ]);
  const x = cut.h > 0 && cut.h <= free ? FIELD.w - w : 0;
  if (x === 0) return { figure: column([drawing, saw], gap), later: others };
  const lower: Figure = { marks: [...saw.marks, ...moved(cut.marks, x, 0)], w: FIELD.w, h: Math.max(saw.h, cut.h) };
  return { figure: column([drawing, lower], gap), later: abreast([table, ...notesAt(parts, w)], gap) };
}

/** The first on the left, the others beside it. */
function abreast(figures: readonly Figure[], gap: number): Figure {
  const [a, ...rest] = figures;
  if (!a) return NOTHING;
  if (rest.length === 0) return a;
  return beside([
    [0, a],
    [FIELD.w / 2 + 2, column(rest, gap)],
  ]);
}
