/**
 * Ordinates beside a picture: each place once, counted from one corner (ISO 129-1, running dimensioning). Labels of a
 * side are spread; a leader runs straight, then slanting, then stands the number. Wanted and given places have the same
 * order, so no two leaders cross; all stand outside the picture.
 */
import { ROUNDING, SAME } from '../../tolerance';
import { type Box, type Mark, NARROW } from '../draw/marks';
import { frame, polyline } from '../draw/shapes';
import { LEADING, lineMarks, linesOf, NUMBER } from '../draw/text';
import { spread } from './spread';

/** Parts of a leader, mm. */
const STRAIGHT = 1.6;
const SLANTING = 2.8;
const GAP = 0.8;

export interface Ordinate {
  /** On the page, along the side. */
  readonly at: number;
  readonly label: string;
  /** What is kept where not all find room: the smallest first. */
  readonly rank: number;
  /** Theoretically exact: in a frame (ISO 1101). */
  readonly boxed?: boolean;
}

type SideOf = 'above' | 'below' | 'left';

interface Side {
  readonly side: SideOf;
  /** Where the picture ends on this side. */
  readonly edge: number;
  /** How far labels may go along the side. */
  readonly low: number;
  readonly high: number;
  /** Free between picture and leaders. */
  readonly clear?: number;
}

export interface Ordinates {
  readonly marks: readonly Mark[];
  /** How far out of the picture they reach. */
  readonly reach: number;
  /** How many found no room. */
  readonly dropped: number;
}

/** All of them; where they do not find room, those of the least rank. What is left out stands in the table. */
export function ordinatesOn(all: readonly Ordinate[], side: Side): Ordinates {
  const spacing = NUMBER * LEADING;
  const sorted = [...all].sort((a, b) => a.at - b.at);
  const merged = sorted.filter(
    (o, i) =>
      i === 0 ||
      o.at - sorted[i - 1]!.at > SAME ||
      o.label !== sorted[i - 1]!.label ||
      o.boxed !== sorted[i - 1]!.boxed,
  );
  const room = Math.floor((side.high - side.low) / spacing + ROUNDING) + 1;
  const kept = new Set(merged.toSorted((a, b) => a.rank - b.rank).slice(0, Math.max(0, room)));
  const lot = merged.filter((o) => kept.has(o));
  const places = spread(
    lot.map((o) => o.at),
    spacing,
    side.low,
    side.high,
  );
  if (!places) return { marks: [], reach: 0, dropped: merged.length };
  const drawn = lot.map((o, k) => labelled(o, places[k]!, side));
  return {
    marks: drawn.flatMap((d) => d.marks),
    reach: Math.max(0, ...drawn.map((d) => d.reach)),
    dropped: merged.length - lot.length,
  };
}

/** Between a number and its frame. */
const PAD = 0.8;

function labelled({ at, label, boxed }: Ordinate, place: number, { side, edge, clear = 0 }: Side) {
  const line = linesOf(label, NUMBER)[0]!;
  const out = side === 'below' ? 1 : -1;
  const start = GAP + clear;
  const bend = start + STRAIGHT;
  const end = bend + SLANTING;
  const text = end + 0.7 + (boxed ? PAD : 0);
  const leader: [number, number][] = [
    [at, edge + out * start],
    [at, edge + out * bend],
    [place, edge + out * end],
  ];
  if (side === 'left') {
    const marks = [polyline(leader.map(([a, b]) => [b, a] as const))];
    const x1 = edge - text;
    const round = boxed ? [framed({ x0: x1 - line.width, x1, y0: place - NUMBER / 2, y1: place + NUMBER / 2 })] : [];
    return {
      marks: [...marks, ...lineMarks(line, x1 - line.width, place + NUMBER / 2), ...round],
      reach: text + line.width + (boxed ? PAD : 0),
    };
  }
  // turned numbers read upwards; their baseline is to the right of the leader's end by half a capital
  const foot = side === 'above' ? edge - text : edge + text + line.width;
  const [x0, x1] = [place - NUMBER / 2, place + NUMBER / 2];
  const round = boxed ? [framed({ x0, x1, y0: foot - line.width, y1: foot })] : [];
  return {
    marks: [polyline(leader), ...lineMarks(line, place + NUMBER / 2, foot, true), ...round],
    reach: text + line.width + (boxed ? PAD : 0),
  };
}

function framed({ x0, y0, x1, y1 }: Box): Mark {
  return frame({ x0: x0 - PAD, y0: y0 - PAD, x1: x1 + PAD, y1: y1 + PAD }, NARROW);
}
