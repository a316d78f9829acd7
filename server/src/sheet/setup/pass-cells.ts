/** What stands in the cells of a pass's row: tool and cut, speed, feed, depths, what to look for. */
import type { Feed, Look, PassRow, Speed } from '../../process/passes';
import type { Figure } from '../draw/marks';
import { column } from '../draw/stack';
import { bold, type Inline, NUMBER, SMALL, textFigure } from '../draw/text';
import { toolTitle } from '../part/bring';
import { entersWords } from '../words';
import { type Saying, shown, size, turnsText } from './saying';

export function toolCell(p: PassRow, s: Saying, w: number): Figure {
  const { said, words, units, called } = s;
  const what = [said.does[p.operation.does], [...new Set(p.of.map(called))].join(', ')].join(' ');
  const lines: Inline[][] = [[bold(toolTitle(p.tool, units, words, false), NUMBER)]];
  lines.push([`${what}, ${said.outOfHolder(size(p.stickoutMm, units, 0))}`]);
  return column(lines.map((l) => textFigure(l, { width: w })));
}

export function speedCell({ rpm, setBy, ask }: Speed, { said }: Saying, w: number): Figure {
  const middle = (text: Inline, cap = SMALL) => textFigure(text, { width: w, cap, align: 'middle' });
  if (setBy === 'hand') return middle(said.byHand);
  return column([
    middle(bold(String(rpm), NUMBER), NUMBER),
    ...(setBy === 'step' ? [middle(said.step)] : []),
    ...(ask ? [middle(said.orLess)] : []),
  ]);
}

export function feedCell(p: PassRow, s: Saying, w: number): Figure {
  const lines = [feedText(p.feed, s), s.said.ways[p.direction]].filter((l) => l !== '');
  return column(lines.map((l) => textFigure(l, { width: w, align: 'middle' })));
}

function feedText(feed: Feed, { said, units }: Saying): string {
  if (feed.by === 'feel') return said.byFeel;
  if (feed.by === 'program') return said.perMinute(size(feed.mmPerMin, units, units === 'in' ? 1 : 0));
  if (feed.mmPerS >= 2) return said.perSecond(size(feed.mmPerS, units, units === 'in' ? 2 : 1), units);
  return said.inSeconds(size(feed.strokeMm, units, 1), String(Math.max(1, Math.round(feed.secondsAStroke))));
}

/** More tips than these are told by the first, the step and the last. */
const MOST_TIPS = 5;

export function depthCell(p: PassRow, s: Saying, w: number, stops: boolean): Figure {
  const { said, units } = s;
  const parts: Inline[] = [];
  if (p.offs) parts.push(`${said.offs(p.offs.axis, p.offs.mm.map((mm) => size(mm, units)).join(', '))};`, ' ');
  if (p.liftEachMm !== undefined) parts.push(`${said.liftEach(size(p.liftEachMm, units, 1))};`, ' ');
  if (p.diametersMm && p.diametersMm.length > 0) parts.push(...boredParts(p.diametersMm, stops, s), ' ');
  const last = p.tipsZ.at(-1);
  const before = p.tipsZ.slice(0, -1);
  const listed = before.length > MOST_TIPS ? [before[0]!, before[1]!, undefined, before.at(-1)!] : before;
  if (listed.length > 0)
    parts.push(`Z ${listed.map((z) => (z === undefined ? '…' : shown(z, units))).join(', ')}`, ' ');
  if (last !== undefined) parts.push(`${said.toDepth} Z\u00a0`, bold(shown(last, units), NUMBER));
  if (p.leavesMm > 0 && !p.looks.some((l) => l.look === 'left-a-side'))
    parts.push(` ${said.leaves(size(p.leavesMm, units))}`);
  // a number of its own, below the one it says once more
  const turns = last !== undefined && s.passes.dial ? [textFigure(turnsText(last, s), { width: w })] : [];
  return column([textFigure(parts, { width: w }), ...turns]);
}

/** Before the last of a fit the hand stops and measures: what the row below says. */
function boredParts(diameters: readonly number[], stops: boolean, { said, units }: Saying): readonly Inline[] {
  const all = diameters.map((d) => size(d, units));
  if (!stops || all.length < 2) return [`⌀ ${all.join(', ')};`];
  return [`⌀ ${all.slice(0, -1).join(', ')}, `, bold(said.stopAndMeasure), `, ${all.at(-1)};`];
}

export function lookCell(p: PassRow, s: Saying, w: number): Figure {
  const lines = [...entersWords(p, s.said), ...p.looks.map((l) => lookText(l, s))];
  const programmed = s.passes.machine?.control === 'program';
  if (programmed) return column(lines.map((l) => textFigure(l, { width: w })));
  if (p.byHandMm && p.byHandMm.length > 0) {
    lines.push(s.said.needsProgram, s.said.insteadBore(p.byHandMm.map((d) => size(d, s.units)).join(', ')));
  } else if (p.needsProgram) lines.push(s.said.needsProgram);
  return column(lines.map((l) => textFigure(l, { width: w })));
}

function lookText(l: Look, { said, units }: Saying): string {
  switch (l.look) {
    case 'clean-all-over':
      return said.looks['clean-all-over'](l);
    case 'this-wide':
      return said.thisWide(size(l.diameterMm, units, 1));
    case 'left-a-side':
      return said.leftASide(size(l.mm, units));
    case 'even-width':
      return said.evenWidth(size(l.mm, units));
    case 'over-tabs':
      return said.overTabs(shown(l.z, units), size(l.mm, units));
    case 'no-parallel-hit':
    case 'chips-clear':
    case 'square-start':
    case 'smooth':
    case 'clamp-free':
      return said.looks[l.look];
    default:
      return l satisfies never;
  }
}
