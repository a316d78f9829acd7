/** Figures below and beside each other, in frames, in tables: what pages are laid out with. */
import { type Box, type Figure, FRAME, type Mark, moved, NARROW } from './marks';
import { frame, polyline } from './shapes';
import { type Inline, SMALL, textFigure } from './text';

export const NOTHING: Figure = { marks: [], w: 0, h: 0 };

/** Below each other. */
export function column(figures: readonly Figure[], gap = 0): Figure {
  let y = 0;
  const marks: Mark[] = [];
  for (const f of figures) {
    if (f.h === 0) continue;
    if (y > 0) y += gap;
    marks.push(...moved(f.marks, 0, y));
    y += f.h;
  }
  return { marks, w: Math.max(0, ...figures.map((f) => f.w)), h: y };
}

/** Beside each other, each starting where it is told. */
export function beside(figures: readonly (readonly [x: number, figure: Figure])[]): Figure {
  return {
    marks: figures.flatMap(([x, f]) => moved(f.marks, x, 0)),
    w: Math.max(0, ...figures.map(([x, f]) => x + f.w)),
    h: Math.max(0, ...figures.map(([, f]) => f.h)),
  };
}

/** A frame as wide as told, round what is in it. */
export function framed(inside: Figure, w: number, { pad = 1.5, width = FRAME, high = 0 } = {}): Figure {
  const h = Math.max(high, inside.h + 2 * pad);
  const box: Box = { x0: 0, y0: 0, x1: w, y1: h };
  return { marks: [frame(box, width), ...moved(inside.marks, pad, pad)], w, h };
}

/** Words behind a box to be ticked off; further lines stand below the first word. */
export function ticked(text: readonly Inline[], w: number): Figure {
  const box = textFigure('☐ ');
  return beside([
    [0, box],
    [box.w + 1, textFigure(text, { width: w - box.w - 1 })],
  ]);
}

interface Column {
  readonly w: number;
  readonly align?: 'left' | 'right' | 'middle';
}
interface Cell {
  readonly text: Inline | readonly Inline[];
  readonly cap?: number;
}

const PAD = 0.9;

/** Rows of cells with lines between them; each row as high as its highest cell, or as `least`. */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly (Cell | Figure)[])[],
  { least = 0, width = NARROW } = {},
): Figure {
  const w = columns.reduce((sum, c) => sum + c.w, 0);
  const marks: Mark[] = [];
  let y = 0;
  for (const row of rows) {
    const cells = row.map((cell, i) => cellFigure(cell, columns[i]!));
    const h = Math.max(least, ...cells.map((c) => c.h + 2 * PAD));
    let x = 0;
    for (const [i, cell] of cells.entries()) {
      marks.push(...moved(cell.marks, x + PAD, y + PAD));
      x += columns[i]!.w;
    }
    y += h;
    marks.push(
      polyline(
        [
          [0, y],
          [w, y],
        ],
        width,
      ),
    );
  }
  let x = 0;
  for (const c of columns.slice(0, -1)) {
    x += c.w;
    marks.push(
      polyline(
        [
          [x, 0],
          [x, y],
        ],
        width,
      ),
    );
  }
  marks.push(frame({ x0: 0, y0: 0, x1: w, y1: y }, width));
  return { marks, w, h: y };
}

function cellFigure(cell: Cell | Figure, { w, align }: Column): Figure {
  if ('marks' in cell) return cell;
  return textFigure(cell.text, { cap: cell.cap ?? SMALL, width: w - 2 * PAD, ...(align && { align }) });
}
