/** The drawing on page 1: the faces that carry features, their ordinates from one corner, a letter at each feature. */
import type { Drawn } from '../../export/flat/lines';
import type { Solid } from '../../geometry/types';
import type { Face, Feature, Part } from '../../model/model';
import { CHAIN, DASHED, type Figure, type Mark, NARROW, WIDE } from '../draw/marks';
import { Placer } from '../draw/placer';
import { stroke } from '../draw/shapes';
import { bold, lineMarks, linesOf, SMALL } from '../draw/text';
import type { SheetWords } from '../language/en';
import { gridOf } from './choice';
import { cornerSign, cuttingLine, STUB } from './cutting-line';
import { datumMarks } from './datums';
import { onOutline, placesIn, spotsIn } from './measures';
import { type Ordinates, ordinatesOn } from './ordinates';
import {
  drawable,
  edgesOnPage,
  faceView,
  inPicture,
  onPage,
  type Place,
  pictureOf,
  type Scale,
  scaleFor,
} from './projected';
import type { Section } from './section';
import { type Tagged, tagsAt } from './tags';

interface DrawingOf {
  readonly part: Part;
  readonly solid: Solid;
  readonly words: SheetWords;
  readonly faces: readonly Face[];
  readonly letters: ReadonlyMap<Feature, string>;
  readonly section?: Section;
}

export interface Drawing extends Figure {
  readonly scale: Scale;
  /** Faces whose outlines could not be followed. */
  readonly missing: readonly Face[];
}

/** Between rows of views. */
const GAP = 6;
/** What labels may be moved beyond a view's side: towards a neighbour, and where none is. */
const BETWEEN = 1;
const BEYOND = 4;

/** Of ordinates: all of them, without sides of what is milled, only the outline and what the part is located by. */
const RANKS = [3, 2, 1] as const;

interface Ranked extends DrawingOf {
  readonly rank: number;
}

interface Cell {
  readonly face: Face;
  readonly drawn: Drawn;
  readonly row: number;
}

export function drawingOf(of: DrawingOf, room: { readonly w: number; readonly h: number }): Drawing {
  const missing: Face[] = [];
  const grid = gridOf(of.faces).map((column) =>
    column.flatMap((face, row): Cell[] => {
      if (!face) return [];
      const drawn = pictureOf(drawable(of.solid), faceView(face, of.solid.body.box.max));
      if (!drawn) missing.push(face);
      return drawn ? [{ face, drawn, row }] : [];
    }),
  );
  const columns = grid.filter((c) => c.length > 0);
  let made: Figure = { marks: [], w: 0, h: 0 };
  // A larger picture goes before more numbers on it: what is left out stands in the table.
  const scale = scaleFor((s) =>
    RANKS.some((rank) => {
      made = laidOut(columns, s, { ...of, rank });
      return made.w <= room.w && made.h <= room.h;
    }),
  );
  return { ...made, scale, missing };
}

function laidOut(columns: readonly (readonly Cell[])[], scale: number, of: Ranked): Figure {
  const rows = Math.max(0, ...columns.flat().map((c) => c.row + 1));
  const heights = Array.from({ length: rows }, (_, r) =>
    Math.max(0, ...columns.flat().flatMap((c) => (c.row === r ? [c.drawn.view.height * scale] : []))),
  );
  // where the rows stand turns on how far the first one's ordinates reach up: laid out once to know, once to draw
  const ups = columns.map((c) => columnAt(c, { x: 0, top: 0, scale, heights, of }));
  const head = Math.max(1, ...ups.map((u) => u.above));
  const marks: Mark[] = [];
  let x = 0;
  let h = 0;
  for (const [i, column] of columns.entries()) {
    const { left, right } = ups[i]!;
    const made = columnAt(column, { x: x + left, top: head, scale, heights, of });
    marks.push(...made.marks);
    x += left + right + (i + 1 < columns.length ? 4 : 0);
    h = Math.max(h, made.bottom);
  }
  return { marks, w: x, h };
}

interface At {
  readonly x: number;
  readonly top: number;
  readonly scale: number;
  readonly heights: readonly number[];
  readonly of: Ranked;
}

interface ColumnMade {
  readonly marks: readonly Mark[];
  readonly above: number;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
}

/** Views below each other that share the axis to the right: its ordinates stand above the first and below the last. */
function columnAt(column: readonly Cell[], { x, top, scale, heights, of }: At): ColumnMade {
  const { part, solid, words } = of;
  const marks: Mark[] = [];
  const cutRow = column.find((c) => c.face === of.section?.through.face)?.row;
  const gapAfter = (row: number) => GAP + (row === cutRow || row + 1 === cutRow ? STUB : 0);
  const rowTop = (row: number) => top + heights.slice(0, row).reduce((sum, h, r) => sum + h + gapAfter(r), 0);
  const placed = column.map((cell): PlacedCell => {
    const y = rowTop(cell.row) + heights[cell.row]!;
    return { cell, place: { x, y, scale } };
  });
  const featuresOn = (face: Face) => part.features.filter((f) => f.face === face);
  const width = Math.max(...column.map((c) => c.drawn.view.width * scale));
  const sides = { low: x - BEYOND, high: x + width + BEYOND };
  const ends = (cells: typeof placed, side: 'above' | 'below'): Ordinates => {
    const { cell, place } = side === 'above' ? cells[0]! : cells.at(-1)!;
    const all = cells.flatMap((c) =>
      placesIn(c.cell.drawn.view, featuresOn(c.cell.face), part, solid).right.filter((p) => p.rank <= of.rank),
    );
    const edge = side === 'above' ? place.y - cell.drawn.view.height * scale : place.y;
    const clear = of.section?.through.face === cell.face ? STUB + 1 : 0;
    return ordinatesOn(
      all.map((o) => ({ ...o, at: x + o.at * scale })),
      { side, edge, clear, ...sides },
    );
  };
  const above = placed.length > 1 ? ends(placed.slice(0, 1), 'above') : undefined;
  const below = ends(placed.length > 1 ? placed.slice(1) : placed, 'below');
  let left = 0;
  let right = 0;
  const said: Mark[] = [...(above?.marks ?? []), ...below.marks];
  for (const [i, { cell, place }] of placed.entries()) {
    const { view } = cell.drawn;
    const high = view.height * scale;
    const [over, under] = [i > 0 ? BETWEEN : BEYOND, i + 1 < placed.length ? BETWEEN : BEYOND];
    const ordinates = ordinatesOn(
      placesIn(view, featuresOn(cell.face), part, solid)
        .up.filter((o) => o.rank <= of.rank)
        .map((o) => ({ ...o, at: place.y - o.at * scale })),
      { side: 'left', edge: x, low: place.y - high - over, high: place.y + under },
    );
    left = Math.max(left, ordinates.reach);
    const name = linesOf(bold(words.faces[cell.face]), SMALL)[0]!;
    said.push(...ordinates.marks, ...lineMarks(name, x + view.width * scale + 2, place.y - high + SMALL));
    right = Math.max(right, view.width * scale + 2 + name.width);
  }
  marks.push(...said, ...viewsMarks(placed, of, said));
  const last = placed.at(-1)!;
  return {
    marks,
    above: above?.reach ?? 0,
    left: left + 1,
    right: right + 2,
    bottom: last.place.y + below.reach,
  };
}

interface PlacedCell {
  readonly cell: Cell;
  readonly place: Place;
}

/** The pictures, then what finds its place among them: the cutting line's letters, the features'. */
function viewsMarks(placed: readonly PlacedCell[], of: DrawingOf, said: readonly Mark[]): Mark[] {
  const marks: Mark[] = placed.flatMap(pictureMarks);
  const placer = new Placer([...said, ...marks]);
  for (const { place, cell } of placed) {
    const { u, v } = originOf(cell, place);
    placer.block({ x0: u - 1.9, x1: u + 1.9, y0: v - 1.9, y1: v + 1.9 });
  }
  const { section } = of;
  const cutting = placed.flatMap(({ cell, place }) =>
    section?.through.face === cell.face ? cuttingLine({ section, drawn: cell.drawn, place, letter: 'A' }, placer) : [],
  );
  const datums = datumMarks(
    placed.map(({ cell, place }) => ({ drawn: cell.drawn, place })),
    of.part,
    of.solid,
    placer,
  );
  return [...marks, ...cutting, ...datums, ...placed.flatMap((p) => tagMarks(p, of, placer))];
}

function originOf({ drawn }: Cell, place: Place) {
  return onPage(place, inPicture(drawn.view, [0, 0, 0]));
}

function pictureMarks({ cell, place }: PlacedCell): Mark[] {
  const { drawn } = cell;
  const hidden = edgesOnPage(drawn.hidden, place);
  const centre = edgesOnPage(drawn.centreLines, place);
  const origin = originOf(cell, place);
  return [
    stroke(edgesOnPage(drawn.visible, place), WIDE),
    ...(hidden.length > 0 ? [stroke(hidden, NARROW, DASHED)] : []),
    ...(centre.length > 0 ? [stroke(centre, 0.18, CHAIN)] : []),
    ...cornerSign(origin.u, origin.v),
  ];
}

function tagMarks({ cell, place }: PlacedCell, { part, solid, letters }: DrawingOf, placer: Placer): Mark[] {
  const { view } = cell.drawn;
  const tagged = part.features
    .filter((f) => f.face === cell.face && letters.has(f))
    .flatMap((f): Tagged[] => {
      const on = onOutline(cell.drawn, f, solid);
      const spots = on ? [{ ...on, r: 0 }] : spotsIn(view, f, solid);
      // A long row of the same is tagged at its two ends.
      const few = spots.length > 4 ? [spots[0]!, spots.at(-1)!] : spots;
      return few.map(({ u, v, r }) => ({
        letter: letters.get(f)!,
        at: onPage(place, { u, v }),
        radius: r * place.scale,
      }));
    });
  const lane = {
    x: place.x + view.width * place.scale + 2.5,
    y: place.y - view.height * place.scale + SMALL + 2,
  };
  return tagsAt(tagged, placer, lane);
}
