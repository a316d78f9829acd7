/** Before it leaves the vise: limits, with what, an empty field for each piece; then what to do if it moved, and what changed. */
import type { MeasureRow } from '../../process/passes';
import { type Figure, FRAME, HEAVY, type Mark, moved } from '../draw/marks';
import { frame } from '../draw/shapes';
import { column, table } from '../draw/stack';
import { bold, type Inline, NUMBER, textFigure } from '../draw/text';
import { measuredLimits, measuredName } from './measured';
import { type Saying, size } from './saying';

/** More pieces than these get their fields in a grid of their own, a row each. */
const FEW_PIECES = 4;
/** Pieces beyond these: on a copy of the page. */
const MOST_PIECES = 120;
const NAMES = 54;
const LIMITS = 46;
const GAUGE = 30;
const FIELD_W = 22;
const PIECE_W = 13;
const FIELD_H = 6.5;

/** What is measured, with a field for each piece; in parts that a page can hold, `least` high each row. */
export function leavingFigures(s: Saying, w: number, least: number): readonly Figure[] {
  const { measures } = s.passes;
  if (measures.length === 0) return [];
  if (s.quantity <= FEW_PIECES) return chunked(measures, ROWS).map((some) => limitsFigure(s, some, w, least));
  return [
    ...chunked(measures, ROWS).map((some) => limitsFigure({ ...s, quantity: 0 }, some, w, 0)),
    ...chunked(measures, Math.floor((w - PIECE_W) / FIELD_W)).flatMap((some) => gridFigures(s, some, w)),
  ];
}

/** Rows that one page holds. */
const ROWS = 24;

function chunked<T>(all: readonly T[], most: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(all.length / most) }, (_, i) => all.slice(i * most, (i + 1) * most));
}

function limitsFigure(s: Saying, measures: readonly MeasureRow[], w: number, least: number): Figure {
  const { said, words, quantity } = s;
  const fields = Math.min(quantity * FIELD_W, w - NAMES - LIMITS - GAUGE);
  const columns = [
    { w: w - fields - LIMITS - GAUGE },
    { w: LIMITS, align: 'middle' as const },
    { w: GAUGE },
    ...Array.from({ length: quantity }, () => ({ w: fields / quantity, align: 'middle' as const })),
  ];
  const pieces = Array.from({ length: quantity }, (_, i) => words.piece(i + 1));
  const head = [said.before, said.limits, said.withWhat, ...pieces].map((text) => ({ text: bold(text) }));
  const rows = measures.map((m) => [
    { text: measuredName(m, s) },
    { text: bold(measuredLimits(m, s)), cap: NUMBER },
    { text: said.gauges[m.with] },
    ...pieces.map(() => ({ text: '' })),
  ]);
  return column([table(columns, [head]), table(columns, rows, { least })]);
}

/** A row a piece, a column a size; several such tables beside each other where sizes are few. */
function gridFigures(s: Saying, measures: readonly MeasureRow[], w: number): readonly Figure[] {
  const { words, quantity } = s;
  const one = PIECE_W + measures.length * FIELD_W;
  const abreast = Math.max(1, Math.floor(w / one));
  const columns = Array.from({ length: abreast }, () => [
    { w: PIECE_W, align: 'middle' as const },
    ...measures.map(() => ({ w: FIELD_W, align: 'middle' as const })),
  ]).flat();
  const names = [{ text: '' }, ...measures.map((m) => ({ text: bold(measuredName(m, s)) }))];
  const head = Array.from({ length: abreast }, () => names).flat();
  const pieces = Array.from({ length: Math.min(quantity, MOST_PIECES) }, (_, i) => i + 1);
  const figures = chunked(pieces, abreast * ROWS).map((page) => {
    const high = Math.ceil(page.length / abreast);
    const rows = Array.from({ length: high }, (_, r) =>
      Array.from({ length: abreast }, (_, k) => page[k * high + r]).flatMap((piece) => [
        { text: piece === undefined ? '' : bold(String(piece)) },
        ...measures.map(() => ({ text: '' })),
      ]),
    );
    return column([table(columns, [head]), table(columns, rows, { least: FIELD_H })]);
  });
  if (quantity <= MOST_PIECES) return figures;
  return [...figures, textFigure(words.furtherPieces(MOST_PIECES), { width: w })];
}

export function movedFigure(s: Saying, w: number, more: readonly Inline[]): Figure {
  const { said, words, passes, called, units } = s;
  const bore = passes.rows.find((r) => r.kind === 'indicate');
  const [left, right] = [(w - 2) * 0.4, (w - 2) * 0.6];
  const first: Inline[] = [bold(said.moved), ' ', said.movedThen];
  if (bore?.kind === 'indicate') first.push(' ', said.movedBore(called(bore.of), size(bore.totalMm, units)));
  const second: Inline[] = [...more, bold(`${words.caution} ${said.safety}`), ' ', words.shopFirst];
  const a = textFigure(first, { width: left - 3.2 });
  const b = textFigure(second, { width: right - 3.2 });
  const h = Math.max(a.h, b.h) + 2.4;
  const box = (x: number, wide: number, f: Figure): Mark[] => [
    frame({ x0: x, y0: 0, x1: x + wide, y1: h }, HEAVY),
    ...moved(f.marks, x + 1.6, 1),
  ];
  return { marks: [...box(0, left, a), ...box(left + 2, right, b)], w, h };
}

export function changedFigure({ said }: Saying, w: number, h: number): Figure {
  const head = textFigure([bold(said.changed), ' ', said.changedWhat], { width: w - 3 });
  return { marks: [frame({ x0: 0, y0: 0, x1: w, y1: h }, FRAME), ...moved(head.marks, 1.5, 0.6)], w, h };
}
