/**
 * Ordinates beside a picture: each place once, counted from one corner (ISO 129-1, running dimensioning). Labels of a
 * side are spread; a leader runs straight, then slanting, then stands the number. Wanted and given places have the same
 * order, so no two leaders cross; all stand outside the picture.
 */
import { ROUNDING, SAME } from '../../tolerance';
import type { Mark } from '../draw/marks';
import { polyline } from '../draw/shapes';
import { LEADING, lineMarks, linesOf, NUMBER } from '../draw/text';
import { spread } from './spread';

/** Parts of a leader, mm. */
const STRAIGHT = 2;
const SLANTING = 3.5;
const GAP = 0.8;

export interface Ordinate {
  /** On the page, along the side. */
  readonly at: number;
  readonly label: string;
  /** What is kept where not all find room: the smallest first. */
  readonly rank: number;
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
}

/** All of them; where they do not find room, those of the least rank. What is left out stands in the table. */
export function ordinatesOn(all: readonly Ordinate[], side: Side): Ordinates {
  const spacing = NUMBER * LEADING;
  const sorted = [...all].sort((a, b) => a.at - b.at);
  const merged = sorted.filter(
    (o, i) => i === 0 || o.at - sorted[i - 1]!.at > SAME || o.label !== sorted[i - 1]!.label,
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
  if (!places) return { marks: [], reach: 0 };
  const drawn = lot.map((o, k) => labelled(o, places[k]!, side));
  return { marks: drawn.flatMap((d) => d.marks), reach: Math.max(0, ...drawn.map((d) => d.reach)) };
}

function labelled({ at, label }: Ordinate, place: number, { side, edge, clear = 0 }: Side) {
  const line = linesOf(label, NUMBER)[0]!;
  const out = side === 'below' ? 1 : -1;
  const start = GAP + clear;
  const bend = start + STRAIGHT;
  const end = bend + SLANTING;
  const text = end + 0.7;
  const leader: [number, number][] = [
    [at, edge + out * start],
    [at, edge + out * bend],
    [place, edge + out * end],
  ];
  if (side === 'left') {
    const marks = [polyline(leader.map(([a, b]) => [b, a] as const))];
    return {
      marks: [...marks, ...lineMarks(line, edge - text - line.width, place + NUMBER / 2)],
      reach: text + line.width,
    };
  }
  // turned numbers read upwards; their baseline is to the right of the leader's end by half a capital
  const foot = side === 'above' ? edge - text : edge + text + line.width;
  return {
    marks: [polyline(leader), ...lineMarks(line, place + NUMBER / 2, foot, true)],
    reach: text + line.width,
  };
}
