/**
 * Lines and arcs as a pen draws them: every stretch once, however many outlines run along it. Kept as intervals on the
 * straight line or circle they lie on, so that stretches can be joined, compared and taken off each other.
 */

import { arc, circleEdge, lengthOf, line, startAngle, sweepOf, TAU } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';
import { ROUNDING } from '../../tolerance';

/** Within this, mm, two lines or circles are the same. */
const SAME = 2e-6;
/** Shorter stretches are not drawn, mm. */
const SHORT = 1e-4;

type Interval = readonly [from: number, to: number];

/** A straight line (through `p`, along the unit vector `t`) or a circle (about `p`), with what is drawn of it, mm along it. */
interface Carrier {
  readonly p: Point2;
  readonly t?: Point2;
  readonly radius: number;
  readonly drawn: readonly Interval[];
}

export class Strokes {
  private readonly carriers: Carrier[] = [];

  static of(edges: Iterable<Edge>): Strokes {
    const made = new Strokes();
    for (const e of edges) made.add(e);
    return made;
  }

  add(e: Edge): void {
    if (lengthOf(e) < SHORT) return;
    const i = this.find(e);
    const home = i < 0 ? carrierOf(e) : this.carriers[i]!;
    const made = { ...home, drawn: join([...home.drawn, ...intervalsOf(e, home)]) };
    if (i < 0) this.carriers.push(made);
    else this.carriers[i] = made;
  }

  addAll(edges: Iterable<Edge>): void {
    for (const e of edges) this.add(e);
  }

  /** Stretches that both have. */
  common(other: Strokes): readonly Edge[] {
    return this.kept(other, intersect);
  }

  /**
   * Straight stretches of both that run over each other, as far as either goes; of arcs what both have. Of a flat wall that
   * is seen edge-on all of it, where it is longer at one end than at the other.
   */
  joined(other: Strokes): readonly Edge[] {
    const reach = (a: readonly Interval[], b: readonly Interval[]) =>
      join(a.flatMap((mine) => b.flatMap((theirs) => (intersect([mine], [theirs]).length > 0 ? [mine, theirs] : []))));
    return this.kept(other, (a, b, home) => (home.t ? reach(a, b) : intersect(a, b)));
  }

  /** Stretches that the other does not have. */
  less(other: Strokes): readonly Edge[] {
    return this.kept(other, subtract);
  }

  edges(): readonly Edge[] {
    return this.carriers.flatMap(edgesOf);
  }

  private kept(
    other: Strokes,
    by: (a: readonly Interval[], b: readonly Interval[], home: Carrier) => readonly Interval[],
  ): readonly Edge[] {
    return this.carriers.flatMap((home) => {
      const theirs = edgesOf(home).flatMap((e) => {
        const i = other.find(e);
        return i < 0 ? [] : [other.carriers[i]!];
      });
      const there = join([...new Set(theirs)].flatMap((c) => edgesOf(c).flatMap((e) => intervalsOf(e, home))));
      return edgesOf({ ...home, drawn: by(home.drawn, there, home) });
    });
  }

  private find(e: Edge): number {
    return this.carriers.findIndex((c) => {
      if (e.type === 'arc') return !c.t && near(c.p, e.centre) && Math.abs(c.radius - e.radius) < SAME;
      return c.t && off(c, e.a) < SAME && off(c, e.b) < SAME;
    });
  }
}

function carrierOf(e: Edge): Carrier {
  if (e.type === 'arc') return { p: e.centre, radius: e.radius, drawn: [] };
  const l = lengthOf(e);
  return { p: e.a, t: { u: (e.b.u - e.a.u) / l, v: (e.b.v - e.a.v) / l }, radius: 0, drawn: [] };
}

function off({ p, t }: Carrier, q: Point2): number {
  return Math.abs(t!.u * (q.v - p.v) - t!.v * (q.u - p.u));
}

/** On a circle: angles 0 … 2π from its rightmost point, in mm along it; one that passes that point is two. */
function intervalsOf(e: Edge, { p, t, radius }: Carrier): readonly Interval[] {
  if (e.type === 'line') {
    const at = (q: Point2) => t!.u * (q.u - p.u) + t!.v * (q.v - p.v);
    const [a, b] = [at(e.a), at(e.b)];
    return [[Math.min(a, b), Math.max(a, b)]];
  }
  const sweep = sweepOf(e);
  const whole = Math.abs(sweep);
  if (whole > TAU - ROUNDING) return [[0, TAU * radius]];
  let from = e.ccw ? startAngle(e) : startAngle(e) + sweep;
  from = ((from % TAU) + TAU) % TAU;
  const to = from + whole;
  if (to <= TAU) return [[from * radius, to * radius]];
  return [
    [from * radius, TAU * radius],
    [0, (to - TAU) * radius],
  ];
}

function edgesOf({ p, t, radius, drawn }: Carrier): readonly Edge[] {
  if (t) {
    const at = (s: number) => ({ u: p.u + s * t.u, v: p.v + s * t.v });
    return drawn.map(([a, b]) => line(at(a), at(b)));
  }
  const round = TAU * radius;
  const at = (s: number) => ({ u: p.u + radius * Math.cos(s / radius), v: p.v + radius * Math.sin(s / radius) });
  const [first] = drawn;
  const last = drawn[drawn.length - 1];
  if (!first || !last) return [];
  if (last[1] - first[0] > round - SAME && drawn.length === 1) return [circleEdge(p, radius)];
  // what runs through the rightmost point is one stretch
  const through = drawn.length > 1 && first[0] < SAME && last[1] > round - SAME;
  const stretches = through ? [...drawn.slice(1, -1), [last[0], first[1]] as const] : drawn;
  return stretches.map(([a, b]) => arc(at(a), at(b), p, true));
}

/** In order, those that overlap or touch as one. */
function join(all: readonly Interval[]): readonly Interval[] {
  const out: [number, number][] = [];
  for (const [a, b] of [...all].sort((x, y) => x[0] - y[0])) {
    const last = out[out.length - 1];
    if (last && a <= last[1] + SAME) last[1] = Math.max(last[1], b);
    else out.push([a, b]);
  }
  return out;
}

function intersect(a: readonly Interval[], b: readonly Interval[]): readonly Interval[] {
  return a.flatMap(([a0, a1]) =>
    b.flatMap(([b0, b1]): Interval[] => {
      const [from, to] = [Math.max(a0, b0), Math.min(a1, b1)];
      return to - from > SHORT ? [[from, to]] : [];
    }),
  );
}

function subtract(a: readonly Interval[], b: readonly Interval[]): readonly Interval[] {
  return b.reduce<readonly Interval[]>(
    (left, [b0, b1]) =>
      left.flatMap(([a0, a1]): Interval[] => {
        const out: Interval[] = [];
        if (Math.min(a1, b0) - a0 > SHORT) out.push([a0, Math.min(a1, b0)]);
        if (a1 - Math.max(a0, b1) > SHORT) out.push([Math.max(a0, b1), a1]);
        return b1 <= a0 || b0 >= a1 ? [[a0, a1]] : out;
      }),
    a,
  );
}

function near(p: Point2, q: Point2): boolean {
  return Math.hypot(p.u - q.u, p.v - q.v) < SAME;
}

/**
 * Flat walls seen edge-on, from the outlines at both ends of a slice: what they have in common, and more of it where the
 * wall is longer at one end, which shows half-way too. A round side that only passes there at one end does not.
 */
export function wallsBetween(first: Iterable<Edge>, last: Iterable<Edge>, half: () => Iterable<Edge>): readonly Edge[] {
  const [one, other] = [Strokes.of(first), Strokes.of(last)];
  const stays = one.common(other);
  const more = Strokes.of(one.joined(other)).less(Strokes.of(stays));
  if (more.length === 0) return stays;
  const longer = Strokes.of(more);
  return [...stays, ...longer.joined(Strokes.of(Strokes.of(half()).common(longer)))];
}
