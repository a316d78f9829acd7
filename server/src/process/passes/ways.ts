/** The ways of a cutter's axis as moves in read-out numbers: round the walls that a cut makes, or all over an area. */
import { lengthOf, pointAt, reversedEdge, tangentAt } from '../../geometry/2d/edge';
import { isInside } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import type { Edge, Point2, Region } from '../../geometry/types';
import { SAME } from '../../tolerance';
import { isMaterial } from '../stock';
import type { Workpiece } from '../stock/types';
import { inPart } from './centre-area';
import { stationOf } from './read-out';
import type { Move, ReadOut, Station, Way } from './types';

/** How far to either side of a wall is looked, mm. */
const BESIDE_MM = 0.02;
const SAME_MM = 1e-6;
/** Shorter than what a read-out shows is no move, mm. */
const LEAST_MOVE_MM = 0.02;

export interface Walls {
  readonly readOut: ReadOut;
  readonly before: Workpiece;
  readonly after: Workpiece;
  /** Heights at which walls are looked for. */
  readonly heights: readonly number[];
  /** From the axis to the wall. */
  readonly offMm: number;
  readonly climbs: boolean;
  /** So far it comes in from beside a wall that ends. */
  readonly leadMm: number;
}

/** Chains along the walls that this cut makes, from beside them on; what bounds the area otherwise is left out. */
export function alongWalls(areas: readonly Region[], walls: Walls): readonly Way[] {
  return areas.flatMap((area) =>
    [area.outer, ...area.holes]
      .flatMap(({ edges }) => chains(edges, (e) => isOwnWall(e, walls)))
      .map((chain) => wayOf(led(chain, [area], walls.leadMm), walls.readOut, walls.climbs)),
  );
}

/** Straight on at both ends, where there is room: a cutter comes in from beside its wall, and leaves it. */
export function led(chain: readonly Edge[], areas: readonly Region[], byMm: number): readonly Edge[] {
  const [first, last] = [chain[0]!, chain.at(-1)!];
  if (Math.hypot(first.a.u - last.b.u, first.a.v - last.b.v) < SAME_MM) return chain;
  const beyond = (e: Edge, end: Point2, sign: 1 | -1): Point2 | undefined => {
    const d = tangentAt(e, end);
    const at = (mm: number) => ({ u: end.u + sign * d.u * mm, v: end.v + sign * d.v * mm });
    return [0.05, 0.5, 1].every((t) => areas.some((r) => isInside(r, at(t * byMm).u, at(t * byMm).v)))
      ? at(byMm)
      : undefined;
  };
  const [before, after] = [beyond(first, first.a, -1), beyond(last, last.b, 1)];
  return [
    ...(before ? [{ type: 'line', a: before, b: first.a } as const] : []),
    ...chain,
    ...(after ? [{ type: 'line', a: last.b, b: after } as const] : []),
  ];
}

/** The loops of areas, each as one closed way. */
export function roundAreas(areas: readonly Region[], readOut: ReadOut, climbs: boolean): readonly Way[] {
  return areas.flatMap((area) => [area.outer, ...area.holes].map(({ edges }) => wayOf(edges, readOut, climbs)));
}

/** Consecutive edges that are wanted; a loop of which all are stays whole. */
function chains(edges: readonly Edge[], wanted: (e: Edge) => boolean): readonly (readonly Edge[])[] {
  const keep = edges.map(wanted);
  if (keep.every(Boolean)) return [edges];
  const first = keep.findIndex((k) => !k);
  const made: Edge[][] = [];
  let open = false;
  for (let n = 1; n <= edges.length; n++) {
    const i = (first + n) % edges.length;
    if (!keep[i]) open = false;
    else if (open) made.at(-1)!.push(edges[i]!);
    else {
      made.push([edges[i]!]);
      open = true;
    }
  }
  return made;
}

const LOOKS = [0.02, 0.25, 0.5, 0.75, 0.98];

/** Beside it stands what stays, and before that what this cut takes. A corner that is only gone round has none of it. */
function isOwnWall(e: Edge, { readOut, before, after, heights, offMm }: Walls): boolean {
  return (e.type === 'arc' ? LOOKS.slice(1, -1) : LOOKS).some((t) => {
    const p = pointAt(e, t);
    const d = tangentAt(e, p);
    // The area lies to the left.
    const beside = (mm: number): Point2 => ({ u: p.u + d.v * mm, v: p.v - d.u * mm });
    const [wall, taken] = [beside(offMm + BESIDE_MM), beside(offMm - BESIDE_MM)];
    return heights.some((z) => {
      const at = (q: Point2) => inPart(readOut, q.u, q.v, z);
      return isMaterial(after, at(wall)) && isMaterial(before, at(taken)) && !isMaterial(after, at(taken));
    });
  });
}

/** With the wall to the right of the way a cutter that turns clockwise climbs. */
export function wayOf(edges: readonly Edge[], readOut: ReadOut, climbs: boolean): Way {
  const toStation = (p: Point2): Station => stationOf(readOut, inPart(readOut, p.u, p.v, 0));
  const mirrored = isMirrored(readOut);
  // Seen mirrored, the area lies to the right.
  const order = climbs === mirrored ? [...edges].reverse().map(reversedEdge) : edges;
  const moves = order
    .filter((e) => lengthOf(e) > LEAST_MOVE_MM)
    .map((e): Move => {
      if (e.type === 'line') return { type: 'line', to: toStation(e.b) };
      return { type: 'arc', to: toStation(e.b), centre: toStation(e.centre), ccw: e.ccw !== mirrored };
    });
  return { start: toStation(order[0]!.a), moves: joined(toStation(order[0]!.a), moves) };
}

/** Straight moves that go on in the same line are one. */
function joined(start: Station, moves: readonly Move[]): readonly Move[] {
  const made: Move[] = [];
  let [from, at] = [start, start];
  for (const move of moves) {
    const last = made.at(-1);
    if (move.type === 'line' && last?.type === 'line' && isStraight(from, at, move.to)) made[made.length - 1] = move;
    else {
      made.push(move);
      from = at;
    }
    at = move.to;
  }
  return made;
}

function isStraight(a: Station, b: Station, c: Station): boolean {
  const [p, q] = [
    [b[0] - a[0], b[1] - a[1]],
    [c[0] - b[0], c[1] - b[1]],
  ] as const;
  return Math.abs(p[0] * q[1] - p[1] * q[0]) < SAME && p[0] * q[0] + p[1] * q[1] > 0;
}

/** In the order that it has. */
export function wayAlong(edges: readonly Edge[], readOut: ReadOut): Way {
  return wayOf(edges, readOut, !isMirrored(readOut));
}

/** Whether the plane of the sections looks mirrored on the read-out. */
function isMirrored({ X, Y, Z }: ReadOut): boolean {
  const straight = X.axis === (Z.axis + 1) % 3;
  return (straight ? 1 : -1) * X.sign * Y.sign < 0;
}

/** There and back on the same line: once is enough. */
export function isThin(area: Region, withinMm: number): boolean {
  const edges = regionEdges(area);
  const around = edges.reduce((sum, e) => sum + lengthOf(e), 0);
  return Math.abs(areaOf(edges)) < withinMm * around;
}

function areaOf(edges: readonly Edge[]): number {
  return edges.reduce((sum, e) => {
    const m = pointAt(e, 0.5);
    const half = (p: Point2, q: Point2) => (p.u * q.v - q.u * p.v) / 2;
    return sum + half(e.a, m) + half(m, e.b);
  }, 0);
}

/** The middle line of a thin loop, `halfMm` from both its sides: from one far end to the other. */
export function middleOf(area: Region, halfMm: number): readonly Edge[] {
  const edges = area.outer.edges.filter((e) => lengthOf(e) > 0.1);
  const total = edges.reduce((sum, e) => sum + lengthOf(e), 0);
  const half: Edge[] = [];
  let way = 0;
  for (const e of edges) {
    if (half.length > 0 && way + lengthOf(e) / 2 > total / 2) break;
    half.push(moved(e, halfMm));
    way += lengthOf(e);
  }
  return half;
}

/** To its left. */
function moved(e: Edge, byMm: number): Edge {
  const beside = (p: Point2): Point2 => {
    const d = tangentAt(e, p);
    return { u: p.u - d.v * byMm, v: p.v + d.u * byMm };
  };
  const ends = { a: beside(e.a), b: beside(e.b) };
  return e.type === 'line' ? { ...e, ...ends } : { ...e, ...ends, radius: e.radius + (e.ccw ? -byMm : byMm) };
}
