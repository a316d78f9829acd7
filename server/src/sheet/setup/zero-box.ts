/** Zero: each axis, what is touched, with what, and what the read-out shows at that moment. */
import type { Touch } from '../../process/passes';
import { type Figure, FRAME, type Mark, moved } from '../draw/marks';
import { frame } from '../draw/shapes';
import { column } from '../draw/stack';
import { bold, type Inline, LARGE, textFigure } from '../draw/text';
import { type Saying, shown, size, turnsText } from './saying';

const HEAD = 29;
const PAD = 1.5;

export function zeroFigure(s: Saying, w: number): Figure {
  const { zeros } = s.passes;
  const { said } = s;
  const head = column([
    textFigure(bold(said.zero), { width: HEAD }),
    ...toolsOf(s).map((t) => textFigure(t, { width: HEAD })),
  ]);
  const each = (w - HEAD - 2 * PAD) / Math.max(1, zeros.length);
  const cells =
    zeros.length > 0
      ? zeros.map((t) => zeroCell(t, s, each - 2))
      : [textFigure(bold(said.noZero), { width: w - HEAD - 4 })];
  const h = Math.max(head.h, ...cells.map((c) => c.h)) + 2 * PAD - 0.5;
  const marks: Mark[] = [
    frame({ x0: 0, y0: 0, x1: w, y1: h }, FRAME),
    ...moved(head.marks, PAD, PAD - 0.4),
    ...cells.flatMap((c, i) => moved(c.marks, HEAD + PAD + i * each, PAD - 0.4)),
  ];
  return { marks, w, h };
}

/** What touches, each once. */
function toolsOf({ passes, said, units }: Saying): readonly string[] {
  const lines = passes.zeros
    .filter((t) => t.missing === undefined)
    .map((t) => {
      const name = t.axis === 'Z' ? `Z: ${said.with[t.with]}` : said.with[t.with];
      return t.tipMm > 0 ? `${name} ⌀${size(t.tipMm, units)}` : name;
    });
  return [...new Set(lines)];
}

function zeroCell(t: Touch, s: Saying, w: number): Figure {
  const { said, units } = s;
  if (t.missing !== undefined) return textFigure([bold(`${t.axis} `), said.cannotTouch(t.missing)], { width: w });
  const label: Inline[] = [`☐ ${touched(t, s)}`];
  if (t.afterPass > 0) label.push(' ', bold(said.afterPass(t.afterPass)));
  return column([
    textFigure(label, { width: w }),
    textFigure(bold(`${t.axis} ${shown(t.showsMm, units)}`), { cap: LARGE, width: w }),
    ...(s.passes.dial ? [textFigure(turnsText(t.showsMm, s), { width: w })] : []),
  ]);
}

export function touched(t: Touch, { said, called, units }: Saying): string {
  switch (t.how) {
    case 'bore':
      return said.swept(called(t.of));
    case 'parallels':
      return said.eachTool;
    case 'top':
      return said.eachToolTop;
    case 'leaning': {
      const [x, y] = (t.leans?.at ?? [0, 0]).map((mm) => shown(mm, units));
      const where = t.leans?.begins === undefined ? `X ${x} Y ${y}` : called(t.leans.begins);
      const sum = `${shown(t.placeMm, units)} + ${shown(t.leans?.topMm ?? 0, units)}`;
      return said.eachToolLeaning(called(t.of), where, sum);
    }
    case 'face':
      return [said.face(called(t.of)), t.cameFrom && t.afterPass === 0 ? said.cameFrom[t.cameFrom] : '']
        .filter((p) => p !== '')
        .join(', ');
    default:
      return t.how satisfies never;
  }
}
