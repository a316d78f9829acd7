/** Before it leaves the vise: limits, with what, an empty field for each piece; then what to do if it moved, and what changed. */
import { type Figure, FRAME, HEAVY, type Mark, moved } from '../draw/marks';
import { frame } from '../draw/shapes';
import { column, NOTHING, table } from '../draw/stack';
import { bold, type Inline, NUMBER, textFigure } from '../draw/text';
import { pair } from '../part/numbers';
import { type Saying, size } from './saying';

/** Fields beyond these go on paper of one's own. */
const MOST_PIECES = 4;

export function leavingFigure(s: Saying, w: number, least: number): Figure {
  const { passes, said, words, units, called, quantity } = s;
  if (passes.measures.length === 0) return NOTHING;
  const pieces = Math.min(MOST_PIECES, quantity);
  const fields = pieces * (pieces > 2 ? 18 : 25);
  const columns = [
    { w: w - fields - 78 },
    { w: 46, align: 'middle' as const },
    { w: 32 },
    ...Array.from({ length: pieces }, () => ({ w: fields / pieces, align: 'middle' as const })),
  ];
  const head = [
    said.before,
    said.limits,
    said.withWhat,
    ...Array.from({ length: pieces }, (_, i) => words.piece(i + 1)),
  ];
  const rows = passes.measures.map((m) => {
    const both = pair(m.limitsMm[0], m.limitsMm[1], units).join(' … ');
    return [
      { text: [called(m.of), said.whats[m.what]].filter((t) => t !== '').join(' ') },
      { text: bold(both), cap: NUMBER },
      { text: said.gauges[m.with] },
      ...Array.from({ length: pieces }, () => ({ text: '' })),
    ];
  });
  return column([table(columns, [head.map((text) => ({ text: bold(text) }))]), table(columns, rows, { least })]);
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
