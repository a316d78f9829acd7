/**
 * Notes beside a picture: below each other in a lane to its right, each as near the height of what it is of as the others
 * let it, with a line to that (ISO 128-2: an arrow on an outline, a dot within one). Lines that would cross change places.
 */
import type { Point2 } from '../../geometry/types';
import { ROUNDING } from '../../tolerance';
import { triangle } from '../draw/datum';
import { type Figure, type Mark, moved } from '../draw/marks';
import { arrowHead, dot, polyline } from '../draw/shapes';
import { SMALL } from '../draw/text';
import { spreadApart } from '../view/spread';

export interface Note {
  readonly figure: Figure;
  /** On the page, the picture's lower left corner at 0, 0. */
  readonly to: Point2;
  /** Of a circle: the line ends on its rim. */
  readonly radius: number;
  readonly end: 'arrow' | 'dot' | 'triangle';
  /** Of a line of the picture: the way out of it, along which the note's line comes. */
  readonly out?: Point2;
}

interface Lane {
  readonly marks: readonly Mark[];
  /** How far it reaches from the picture's lower left corner. */
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

/** From the picture's right side to the bend of a line, to its end, to the words. */
const BEND = 7;
const END = 9.5;
const WORDS = 10.5;
const BETWEEN = 2.5;
/** How far a line stands out of a face before it turns to its note. */
const STUB = 4;
/** Height of a line's end below a note's upper edge: the middle of its first line. */
const ATTACH = SMALL * 0.76;

/** `w`: of the picture on the page. */
export function laneOf(notes: readonly Note[], w: number): Lane {
  if (notes.length === 0) return { marks: [], right: 0, up: 0, down: 0 };
  let order = notes.toSorted((a, b) => a.to.v - b.to.v || a.to.u - b.to.u);
  let tops = stacked(order);
  // Neighbours whose lines cross change places; each change makes the lines shorter together, so it ends.
  for (let turn = 0; turn < notes.length * notes.length; turn++) {
    const i = order.findIndex((n, k) => k > 0 && crosses(order[k - 1]!, tops[k - 1]!, n, tops[k]!, w));
    if (i < 1) break;
    order = [...order.slice(0, i - 1), order[i]!, order[i - 1]!, ...order.slice(i + 1)];
    tops = stacked(order);
  }
  const marks = order.flatMap((n, i) => noteMarks(n, tops[i]!, w));
  return {
    marks,
    right: w + WORDS + Math.max(...notes.map((n) => n.figure.w)),
    up: -Math.min(...tops),
    down: Math.max(...order.map((n, i) => tops[i]! + n.figure.h)),
  };
}

/** Upper edges: the lowest line ends at the picture's foot at most, so that none runs through what stands below that. */
function stacked(notes: readonly Note[]): readonly number[] {
  const before: number[] = [];
  let sum = 0;
  for (const n of notes) {
    before.push(sum);
    sum += n.figure.h + BETWEEN;
  }
  const wanted = notes.map((n) => n.to.v - ATTACH);
  return spreadApart(wanted, before, Number.NEGATIVE_INFINITY, 1 - ATTACH) ?? wanted;
}

function crosses(a: Note, topA: number, b: Note, topB: number, w: number): boolean {
  const side = (p: Point2, q: Point2, r: Point2) => (q.u - p.u) * (r.v - p.v) - (q.v - p.v) * (r.u - p.u);
  const [p, q] = [
    { u: w + BEND, v: topA + ATTACH },
    { u: w + BEND, v: topB + ATTACH },
  ];
  const [d1, d2] = [side(p, a.to, q), side(p, a.to, b.to)];
  const [d3, d4] = [side(q, b.to, p), side(q, b.to, a.to)];
  return d1 * d2 < -ROUNDING && d3 * d4 < -ROUNDING;
}

function noteMarks({ figure, to, radius, end, out }: Note, top: number, w: number): Mark[] {
  const y = top + ATTACH;
  const bend = { u: w + BEND, v: y };
  const far = Math.hypot(bend.u - to.u, bend.v - to.v) || 1;
  const { u: du, v: dv } = out ?? { u: (bend.u - to.u) / far, v: (bend.v - to.v) / far };
  const tip = { u: to.u + du * radius, v: to.v + dv * radius };
  const foot = end === 'triangle' ? 1.7 : 0;
  return [
    polyline([
      [w + END, y],
      [bend.u, bend.v],
      ...(out ? [[tip.u + du * STUB, tip.v + dv * STUB] as const] : []),
      [tip.u + du * foot, tip.v + dv * foot],
    ]),
    end === 'dot'
      ? dot(tip.u, tip.v, 0.55)
      : end === 'triangle'
        ? triangle(tip.u, tip.v, du, dv)
        : arrowHead(tip.u, tip.v, -du, -dv),
    ...moved(figure.marks, w + WORDS, top),
  ];
}
