/** A part's drawing: the sheet with its views, and sheets for what finds no room there. Pages only; `write/` makes files of them. */
import { gramsOf } from '../../planning/job';
import type { CheckedPart } from '../../rules/checked-part';
import { type Box, type Figure, HEAVY, type Mark, moved } from '../draw/marks';
import { frame } from '../draw/shapes';
import { type Language, wordsOf } from '../language';
import { fieldOf, type Page, type Sheet } from '../page';
import { lettersOf } from '../part/letters';
import type { Scale } from '../view/projected';
import { type Arranged, arranged } from './arrange';
import { type Drafted, draftOf } from './callout';
import { detailFigure } from './detail';
import { notesFigure } from './notes-figure';
import { Room } from './packing';
import { crowded, type Drawable, type Plans, plansOf } from './plans';
import type { Rows } from './point-table';
import { cutDetailFigure, cutDetails, cutFigure } from './section-view';
import { BLOCK_W, titleBlock } from './title-block';
import { type ViewPlan, viewDetails } from './view-figure';

export interface DrawingOptions {
  readonly language?: Language;
  /** A4 or Letter, A3 or Tabloid; left out: as large as it must be. */
  readonly size?: 'small' | 'large';
  /** A job's, in place of the part's. */
  readonly quantity?: number;
}

const INSET = 5;
const GAP = 3;

export function drawingOf(checked: CheckedPart, { language = 'en', size, quantity }: DrawingOptions = {}): Sheet {
  const { part, solid, shop } = checked;
  const { part: words, drawing: said } = wordsOf(language);
  const of = draftOf({ part, words, said, letters: lettersOf(part) });
  const grams = gramsOf(checked);
  const owner = shop.builtIn ? '' : shop.name;
  const block = {
    ...of,
    owner,
    quantity: quantity ?? part.quantity,
    projection: shop.projection,
    ...(grams !== undefined && { grams }),
  };
  const errors = checked.findings.filter((f) => f.severity === 'error').length;
  const blockH = titleBlock(block, '1:1', '1 / 1').h;
  const made = best({ of, solid, projection: shop.projection }, { size, errors, blockH });
  const sheets = [made.first, ...made.more];
  return {
    title: part.title ?? part.name,
    language: words.code,
    notes: made.plans.missing.map((f) => `the view of \`${f}\` is left out: its outlines are too tangled to follow.`),
    pages: sheets.map((marks, i): Page => {
      const field = fieldOf(made);
      const title = titleBlock(block, made.scale.words, `${i + 1} / ${sheets.length}`);
      return {
        number: String(i + 1),
        marks: [
          frame({ x0: 0, y0: 0, x1: field.w, y1: field.h }, HEAVY),
          ...marks,
          ...moved(title.marks, field.w - title.w, field.h - title.h),
        ],
        ...(made.large && { large: true as const }),
      };
    }),
  };
}

interface Asked {
  readonly size: DrawingOptions['size'];
  readonly errors: number;
  readonly blockH: number;
}

interface Made {
  readonly plans: Plans;
  readonly whole: boolean;
  readonly scale: Scale;
  readonly first: readonly Mark[];
  readonly more: readonly (readonly Mark[])[];
  readonly large?: true;
}

/** Small where all of it is drawn full size there, or as large as on the larger paper; a table for holes where that is clearer. */
function best(drawable: Drawable, asked: Asked): Made {
  const features = drawable.of.part.features;
  const plans = plansOf(drawable, crowded(features));
  const small = asked.size === 'large' ? undefined : onSheets(plans, drawable.of, asked, false);
  const enough = asked.size === 'small' || (small?.whole && small.scale.scale >= 1 && small.more.length === 0);
  const large = small && enough ? undefined : onSheets(plans, drawable.of, asked, true);
  const chosen = small && (!large || !better(large, small)) ? small : large!;
  if (chosen.whole && chosen.scale.scale >= LEAST_SCALE) return chosen;
  const listed = plansOf(drawable, new Set(features.map((f) => f.face)));
  const again = onSheets(listed, drawable.of, asked, chosen.large === true);
  return better(again, chosen) ? again : chosen;
}

/** Below this, tables make room for a larger picture. */
const LEAST_SCALE = 0.2;

function better(a: Made, b: Made): boolean {
  if (a.whole !== b.whole) return a.whole;
  return a.scale.scale !== b.scale.scale ? a.scale.scale > b.scale.scale : a.more.length < b.more.length;
}

/** The sheet with the views, and the tables on as many as they take. */
function onSheets(plans: Plans, of: Drafted, asked: Asked, large: boolean): Made {
  const made = onPaper(plans, of, asked, large);
  const field = fieldOf({ ...(large && { large: true as const }) });
  const first = [...made.marks];
  const more = flowed(made, plans.tables, first, { field: inner(field), taken: blockBox(field, asked.blockH) });
  const { whole, scale } = made;
  return { plans, whole, scale, first, more, ...(large && { large: true as const }) };
}

function onPaper(plans: Plans, of: Drafted, { errors, blockH }: Asked, large: boolean): Arranged {
  const field = fieldOf({ ...(large && { large: true as const }) });
  const { cut } = plans;
  const notes = notesFigure(of, plans, errors);
  const views = plans.columns.flat().filter((p): p is ViewPlan => p !== undefined);
  const beside = (scale: number) => [
    ...(cut ? [cutFigure(cut, scale, of)] : []),
    ...(cut ? cutDetails(cut, scale, of).map((d) => cutDetailFigure(d, cut, of)) : []),
    ...views.flatMap((p) => viewDetails(p, scale).map((d) => detailFigure(d, p.drawn.visible, p.drawn.hidden, of))),
    notes,
  ];
  return arranged(plans, of, beside, { field: inner(field), taken: blockBox(field, blockH) });
}

function inner({ w, h }: { readonly w: number; readonly h: number }): Box {
  return { x0: INSET, y0: INSET, x1: w - INSET, y1: h - INSET };
}

function blockBox({ w, h }: { readonly w: number; readonly h: number }, blockH: number): Box {
  return { x0: w - BLOCK_W - GAP, y0: h - blockH - GAP, x1: w, y1: h };
}

/** Figures and tables where there is room, then on sheets of their own; a table goes on from sheet to sheet. */
function flowed(
  made: Arranged,
  tables: readonly Rows[],
  first: Mark[],
  { field, taken }: { readonly field: Box; readonly taken: Box },
): readonly (readonly Mark[])[] {
  const more: Mark[][] = [];
  let [room, marks] = [made.room, first];
  const next = () => {
    room = new Room(field);
    room.take(taken);
    marks = [];
    more.push(marks);
  };
  const put = (f: Figure) => {
    const place = room.place(f.w + GAP, f.h + GAP);
    if (place) marks.push(...moved(f.marks, place.x, place.y));
    return place !== undefined;
  };
  for (const table of tables)
    for (let from = 0; from < table.count; ) {
      const to = rowsThatFit(table, from, room.highest(table.w + GAP) - GAP);
      if (to > from && put(table.figure(from, to))) from = to;
      else if (marks.length === 0) {
        // not even a row: it is put where it overhangs nothing but the page
        marks.push(...moved(table.figure(from, from + 1).marks, field.x0, field.y0));
        from++;
      } else next();
    }
  for (const f of made.leftOut) {
    if (put(f)) continue;
    next();
    if (!put(f)) marks.push(...moved(f.marks, field.x0, field.y0));
  }
  return more;
}

function rowsThatFit(table: Rows, from: number, high: number): number {
  let to = table.count;
  while (to > from && table.figure(from, to).h > high) to--;
  return to;
}
