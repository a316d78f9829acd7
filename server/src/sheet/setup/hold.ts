/** What hands do to hold it, in their order, each with a box. */
import type { Face } from '../../model/model';
import type { Side } from '../../process/passes';
import type { Figure } from '../draw/marks';
import { column, ticked } from '../draw/stack';
import { bold, type Inline, textFigure } from '../draw/text';
import { besidesJaws, onTableLines } from '../holding';
import { type Saying, shown, size } from './saying';

export function holdFigure(s: Saying, w: number): Figure {
  const { said } = s;
  const { note } = s.passes.setup;
  const lines = [...linesOfHolding(s), ...(note ? [[note]] : [])].map((l) => ticked(l, w));
  return column([textFigure(bold(said.hold), { width: w }), ...lines], 0);
}

type Parts = readonly Inline[];

function linesOfHolding(s: Saying): readonly Parts[] {
  const { said, words, units, passes } = s;
  const h = passes.holding;
  const more = {
    words: s.hold,
    face: (face: Face) => words.faces[face],
    state: (state: Side['state']) => words.states[state],
    called: s.called,
    length: (mm: number) => size(mm, units),
    place: (mm: number) => shown(mm, units),
  };
  const named = ({ face, state }: Side) => [words.faces[face], words.states[state]] as const;
  if (!h.fixed || !h.moving || !h.vise) {
    return onTableLines(h, more).map((l) => [l]);
  }
  const [face, state] = named(h.fixed);
  const [to, jaw, after] = said.toFixed;
  const rough = h.fixed.state === 'sawn' || h.fixed.state === 'raw' ? ` (${state})` : '';
  const lines: Parts[] = [
    [h.type === 'soft-jaws' ? said.softJaws : said.viseTrue],
    [bold(face), `${rough}${to}`, bold(jaw), after],
  ];
  lines.push(...besidesJaws(h, more).map((l) => [l]));
  if (h.stop) lines.push([said.toStop(...named(h.stop))]);
  for (const at of ['left', 'right'] as const) {
    const end = h.out![at];
    if (end.mm < 0.05) continue;
    const [before, out, more] = said.endOut(words.faces[end.face], size(end.mm, units, 1));
    lines.push([before, bold(out), more]);
  }
  if (h.packing) lines.push([said.offcutAt(size(h.packing.widthMm, units), h.packing.at)]);
  lines.push([h.roundBar ? bold(said.roundBar) : said.noRoundBar]);
  const [knock, tight] = said.knock;
  lines.push(h.parallelsMm ? [knock, bold(tight)] : [said.knockBed]);
  return lines;
}
