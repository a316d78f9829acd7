/**
 * Notes beside a picture: below each other in a lane to its right, each as near the height of what it is of as the others
 * let it, with a line to that (ISO 128-2: an arrow on an outline, a dot within one). Lines that would cross change places.
 * A line that would still cross another, or run through an opening that it is not of, is left out: the note's letter
 * stands at what it is of instead.
 */
import type { Point2 } from '../../geometry/types';
import { ROUNDING } from '../../tolerance';
import { triangle } from '../draw/datum';
import { type Figure, type Mark, moved } from '../draw/marks';
import { arrowHead, dot, polyline } from '../draw/shapes';
import { SMALL } from '../draw/text';
import { spreadApart } from '../view/spread';
import type { Tagged } from '../view/tags';
import { type Outline, passes } from './obstacles';

export interface Note {
  readonly figure: Figure;
  /** On the page, the picture's lower left corner at 0, 0. */
  readonly to: Point2;
  /** Of a circle: the line ends on its rim. */
  readonly radius: number;
  readonly end: 'arrow' | 'dot' | 'triangle';
  /** Of a line of the picture: the way out of it, along which the note's line comes. */
  readonly out?: Point2;
  /** What stands at its place where it has no line. */
  readonly tag?: Tagged;
  /** What its line must not run through, on the page. */
  readonly avoids?: readonly Outline[];
}

interface Lane {
  readonly marks: readonly Mark[];
  /** How far it reaches from the picture's lower left corner. */
  readonly right: number;
  readonly up: number;
  readonly down: number;
  /** Of notes without a line. */
  readonly tags: readonly Tagged[];
}

/** From the picture's right side to the bend of a line, to its end, to the words. */
const BEND = 7;
const END = 9.5;
const WORDS = 10.5;
const BETWEEN = 2.5;
/** How far a line stands out of a face before it turns to its note. */
const STUB = 4;
/** The same of one that looks at the notes already. */
const STUB_ASIDE = 2.5;
/** Height of a line's end below a note's upper edge: the middle of its first line. */
const ATTACH = SMALL * 0.76;
/** Height of a datum's triangle: its line begins there. */
const FOOT = 1.7;

/** `w`: of the picture on the page. */
export function laneOf(notes: readonly Note[], w: number): Lane {
  if (notes.length === 0) return { marks: [], right: 0, up: 0, down: 0, tags: [] };
  const { order, tops } = untangled(notes, w);
  const bare = withoutLine(order, tops, w);
  const marks = order.flatMap((n, i) => noteMarks(n, tops[i]!, w, bare.has(n)));
  return {
    marks,
    right: w + WORDS + Math.max(...notes.map((n) => n.figure.w)),
    up: -Math.min(...tops),
    down: Math.max(...order.map((n, i) => tops[i]! + n.figure.h)),
    tags: order.flatMap((n) => (bare.has(n) && n.tag ? [n.tag] : [])),
  };
}

interface Order {
  readonly order: readonly Note[];
  readonly tops: readonly number[];
}

/** Two whose lines cross change places, until none do or every change was tried in vain: then the best order there was. */
function untangled(notes: readonly Note[], w: number): Order {
  let order: readonly Note[] = notes.toSorted((a, b) => a.to.v - b.to.v || a.to.u - b.to.u);
  let best: (Order & { readonly cost: number }) | undefined;
  for (let turn = 0; turn <= notes.length * notes.length; turn++) {
    const tops = stacked(order);
    const crossed = crossings(order, tops, w);
    // a line that has no letter to stand for it weighs more
    const cost = crossed.reduce((sum, pair) => sum + (pair.some((i) => order[i]!.tag) ? 1 : HEAVY), 0);
    if (!best || cost < best.cost) best = { order, tops, cost };
    if (crossed.length === 0) break;
    const [i, k] = crossed[turn % crossed.length]!;
    order = order.with(i, order[k]!).with(k, order[i]!);
  }
  return best!;
}

const HEAVY = 100;

/** Neighbours first. */
function crossings(order: readonly Note[], tops: readonly number[], w: number): readonly (readonly [number, number])[] {
  const lines = order.map((n, i) => lineOf(n, tops[i]!, w));
  const found: [number, number][] = [];
  for (let apart = 1; apart < order.length; apart++)
    for (let i = 0; i + apart < order.length; i++) if (cross(lines[i]!, lines[i + apart]!)) found.push([i, i + apart]);
  return found;
}

/** Those that run through an opening first, then as many as it takes that none crosses another; the longest go. */
function withoutLine(order: readonly Note[], tops: readonly number[], w: number): ReadonlySet<Note> {
  const lines = new Map(order.map((n, i) => [n, lineOf(n, tops[i]!, w)] as const));
  const bare = new Set(
    order.filter((n) => n.tag && n.avoids?.some((o) => passes(n.to, lines.get(n)!.at(-2) ?? n.to, o))),
  );
  const longest = order.filter((n) => n.tag && !bare.has(n)).toSorted((a, b) => a.to.u - b.to.u);
  for (const n of longest)
    if (order.some((m) => m !== n && !bare.has(m) && cross(lines.get(n)!, lines.get(m)!))) bare.add(n);
  return bare;
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

/** From what it is of to its words. */
function lineOf({ to, radius, out }: Note, top: number, w: number): readonly Point2[] {
  const y = top + ATTACH;
  const bend = { u: w + BEND, v: y };
  const { u: du, v: dv } = out ?? towards(to, bend);
  const tip = { u: to.u + du * radius, v: to.v + dv * radius };
  return [tip, ...(out ? [{ u: tip.u + du * STUB_ASIDE, v: tip.v + dv * STUB }] : []), bend, { u: w + END, v: y }];
}

function towards(from: Point2, to: Point2): Point2 {
  const far = Math.hypot(to.u - from.u, to.v - from.v) || 1;
  return { u: (to.u - from.u) / far, v: (to.v - from.v) / far };
}

function cross(a: readonly Point2[], b: readonly Point2[]): boolean {
  return a.slice(1).some((q, i) => b.slice(1).some((s, k) => segmentsCross([a[i]!, q], [b[k]!, s])));
}

type Segment = readonly [Point2, Point2];

function segmentsCross([p, q]: Segment, [r, s]: Segment): boolean {
  const side = (a: Point2, b: Point2, c: Point2) => (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
  return side(p, q, r) * side(p, q, s) < -ROUNDING && side(r, s, p) * side(r, s, q) < -ROUNDING;
}

function noteMarks(note: Note, top: number, w: number, isBare: boolean): Mark[] {
  const { figure, end } = note;
  const words = moved(figure.marks, w + WORDS, top);
  if (isBare) return words;
  const line = lineOf(note, top, w);
  const tip = line[0]!;
  const { u: du, v: dv } = towards(tip, line[1]!);
  const foot = end === 'triangle' ? FOOT : 0;
  const from = { u: tip.u + du * foot, v: tip.v + dv * foot };
  return [
    polyline([from, ...line.slice(1)].toReversed().map((p) => [p.u, p.v] as const)),
    end === 'dot'
      ? dot(tip.u, tip.v, 0.55)
      : end === 'triangle'
        ? triangle(tip.u, tip.v, du, dv)
        : arrowHead(tip.u, tip.v, -du, -dv),
    ...words,
  ];
}
