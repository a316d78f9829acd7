/** What hands do to hold it, in their order, each with a box. */
import type { Side } from '../../process/passes';
import type { Figure } from '../draw/marks';
import { column } from '../draw/stack';
import { bold, type Inline, textFigure } from '../draw/text';
import { type Saying, size, stationText } from './saying';

export function holdFigure(s: Saying, w: number): Figure {
  const { said } = s;
  const lines = linesOfHolding(s).map((l) => textFigure(['☐ ', ...l], { width: w }));
  return column([textFigure(bold(said.hold), { width: w }), ...lines], 0);
}

type Parts = readonly Inline[];

function linesOfHolding(s: Saying): readonly Parts[] {
  const { said, words, units, passes } = s;
  const h = passes.holding;
  const named = ({ face, state }: Side) => [words.faces[face], words.states[state]] as const;
  if (!h.fixed || !h.moving || !h.vise) {
    return [
      [h.type ? said.heldBy(words.holders[h.type]) : said.heldBy('?')],
      ...(h.seat ? [[said.seat(...named(h.seat))]] : []),
      ...(h.places ? [[said.places(h.places.map((p) => stationText(p, units)).join('; '))]] : []),
    ];
  }
  const [face, state] = named(h.fixed);
  const [to, jaw, after] = said.toFixed;
  const rough = h.fixed.state === 'sawn' || h.fixed.state === 'raw' ? ` (${state})` : '';
  const lines: Parts[] = [
    [h.type === 'soft-jaws' ? said.softJaws : said.viseTrue],
    [bold(face), `${rough}${to}`, bold(jaw), after],
  ];
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
