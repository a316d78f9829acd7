/**
 * Toleranced distances as dimension lines (ISO 129-1): below their view, or to its left, the shortest nearest to it, between
 * the view and its running numbers. A number stands on its line where there is room, else at its end; no line from an end
 * that stands further out runs through it.
 */
import type { Drawn } from '../../export/flat/lines';
import { AXIS_INDEX } from '../../geometry/vector';
import { readMemberName } from '../../model/member-name';
import type { GeometricTolerance } from '../../model/model';
import { axisOfDistance, endsAlong } from '../../process/stackup/distance-axis';
import { SAME } from '../../tolerance';
import { type Mark, moved } from '../draw/marks';
import { arrowHead, polyline } from '../draw/shapes';
import { type Line, lineMarks, linesOf, NUMBER } from '../draw/text';
import { sized } from '../part/numbers';
import type { Drafted } from './callout';

/** In the picture's millimetres, along its right or its up axis. */
export interface Distance {
  readonly along: 'right' | 'up';
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

interface Placed {
  readonly of: ReadonlyMap<Drawn, readonly Distance[]>;
  /** Those that are lines. */
  readonly drawn: ReadonlySet<GeometricTolerance>;
}

/** Each in the view of one of its features where that shows it, else in the first that does. */
export function distancesIn(of: Drafted, views: readonly Drawn[]): Placed {
  const { part } = of;
  const found = new Map<Drawn, Distance[]>();
  const drawn = new Set<GeometricTolerance>();
  for (const t of part.tolerances.filter((t) => t.characteristic === 'distance')) {
    const axis = axisOfDistance(t, part);
    const ends = axis && endsAlong(t, axis, part);
    if (!axis || !ends || Math.abs(ends[0] - ends[1]) < SAME) continue;
    const faces = t.of.map((n) => part.featureByName.get(readMemberName(n.name).feature)?.face);
    const shown = views.filter(({ view }) => view.right.axis === axis || view.up.axis === axis);
    const home = shown.find((d) => faces.includes(d.view.face)) ?? shown[0];
    if (!home) continue;
    const along = home.view.right.axis === axis ? 'right' : 'up';
    const size = part.size[AXIS_INDEX[axis]];
    const at = (mm: number) => (home.view[along].sign > 0 ? mm : size - mm);
    const [from, to] = [at(ends[0]), at(ends[1])].sort((a, b) => a - b) as [number, number];
    found.set(home, [...(found.get(home) ?? []), { along, from, to, text: sized(t.value, part.units) }]);
    drawn.add(t);
  }
  return { of: found, drawn };
}

/** From the view to the first line, from line to line, beyond the last. */
const FIRST = 9;
const ROW = 7.5;
const LAST = 6;
const CLEAR = 1;
const ON_LINE = 0.8;
const ARROWS = 7;
const TAIL = 5;

interface Lines {
  readonly marks: readonly Mark[];
  /** How far out of the view they reach. */
  readonly depth: number;
}

interface Side {
  readonly along: Distance['along'];
  /** What stands there before them. */
  readonly base: number;
  /** At which end numbers stand that find no room on their line. */
  readonly beyond: 'low' | 'high';
}

/** About the view's lower left corner. */
export function distanceLines(all: readonly Distance[], scale: number, side: Side): Lines {
  const { along, base } = side;
  const rows = all
    .filter((d) => d.along === along)
    .map((d): Row => ({ from: d.from * scale, to: d.to * scale, line: linesOf(d.text, NUMBER)[0]! }))
    .toSorted((a, b) => a.to - a.from - (b.to - b.from));
  if (rows.length === 0) return { marks: [], depth: 0 };
  const marks = rows.flatMap((row, k) => {
    const later = rows.slice(k + 1).flatMap((r) => [r.from, r.to]);
    return rowMarks(row, base + FIRST + k * ROW, later, side);
  });
  return { marks, depth: base + FIRST + (rows.length - 1) * ROW + LAST };
}

interface Row {
  readonly from: number;
  readonly to: number;
  readonly line: Line;
}

function rowMarks(row: Row, depth: number, later: readonly number[], { along, beyond }: Side): Mark[] {
  const { from, to, line } = row;
  const at = (s: number, d: number): readonly [number, number] => (along === 'right' ? [s, d] : [-d, -s]);
  const way = along === 'right' ? ([1, 0] as const) : ([0, -1] as const);
  const text = textAt(row, later, beyond);
  const inside = to - from >= ARROWS;
  const reach = inside ? 0 : TAIL;
  const [low, high] = [Math.min(from - reach, text), Math.max(to + reach, text + line.width)];
  const [x, y] = at(text, along === 'right' ? depth - ON_LINE : depth + ON_LINE);
  const head = (s: number, sign: 1 | -1) => arrowHead(...at(s, depth), way[0] * sign, way[1] * sign);
  return [
    ...[from, to].map((s) => polyline([at(s, CLEAR), at(s, depth + CLEAR)])),
    polyline([at(low, depth), at(high, depth)]),
    ...(inside ? [head(from, -1), head(to, 1)] : [head(from, 1), head(to, -1)]),
    ...moved(lineMarks(line, 0, 0, along === 'up'), x, y),
  ];
}

/** Where its number begins: on the line, the middle first, else beyond one end of it. */
function textAt({ from, to, line: { width } }: Row, later: readonly number[], beyond: Side['beyond']): number {
  const isFree = (s: number) => !later.some((l) => l > s - CLEAR && l < s + width + CLEAR);
  const middle = (from + to - width) / 2;
  for (let off = 0; off <= (to - from - width) / 2 - CLEAR; off += 1)
    for (const s of [middle + off, middle - off]) if (isFree(s)) return s;
  const apart = CLEAR + (to - from >= ARROWS ? 0 : TAIL);
  // beyond all that comes down later it is free
  if (beyond === 'low') {
    const last = Math.min(from - width - apart, ...later.map((l) => l - width - 2 * CLEAR));
    for (let s = from - width - apart; s > last; s -= 1) if (isFree(s)) return s;
    return last;
  }
  const last = Math.max(to + apart, ...later.map((l) => l + 2 * CLEAR));
  for (let s = to + apart; s < last; s += 1) if (isFree(s)) return s;
  return last;
}
