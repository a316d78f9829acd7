/**
 * Least distance between two removed volumes however they lie, and from a point to one. Pairs of convex pieces are
 * looked at most promising first; a piece that only stands in for a curved patch is halved until its nearest point
 * lies on the patch itself, so the answer is that of the true surfaces: to 1e-6 mm, at worst (everywhere equally near) 1e-3 mm
 * too small.
 */

import { ROUNDING } from '../../tolerance';
import { windingOf } from '../2d/inside';
import { depthOf, fromFrame, intoFrame } from '../frame';
import { holds, insetAt } from '../solid/prism';
import type { Box, Point2, Vec3, Void } from '../types';
import { mix, scale } from '../vector';
import { type Between, type Convex, convexApart } from './gjk';
import { distanceTo, nearestOn, outlineOf, type Side, signedDistance } from './outline';
import { type Piece, type Pieces, piecesOf } from './pieces';

/** Hulls nearer to the true surface than this are taken for it, mm. */
const FINE = 1e-6;
/** The same where many places are equally near (a ring around a cone): they need not all be looked at that closely. */
const COARSE = 5e-4;
const PATIENCE = 160;
const ROUNDS = 2000;

interface Pair {
  readonly a: Piece;
  readonly b: Piece;
  readonly least: number;
  readonly found?: Between;
}

/** Least distance of two volumes where it is below the limit; 0 where they meet. */
export function solidsApart(a: Void, b: Void, below: number): Between | undefined {
  const [pa, pb] = [piecesOf(a), piecesOf(b)];
  if (!pa.solid && holds(a, pb.list[0]!.support([0, 0, 1]))) return meeting(pb.list[0]!);
  if (!pb.solid && holds(b, pa.list[0]!.support([0, 0, 1]))) return meeting(pa.list[0]!);
  let best = listsApart(pa.list, pb.list, below);
  if (!pa.solid) best = nearer(best, endsApart(a, pb.list, best?.mm ?? below));
  if (!pb.solid) {
    const other = endsApart(b, pa.list, best?.mm ?? below);
    if (other) best = { mm: other.mm, p: other.q, q: other.p };
  }
  return best;
}

/** True for a volume that holds the line between any two of its points. */
export const isConvex = (v: Void): boolean => piecesOf(v).solid;

/** From a point to a volume, with what may be said of places near by. */
interface Near extends Between {
  /** So far around the point, mm, the nearest place of the volume is that of one plane. */
  readonly flatMm?: number;
}

/** Distance from a point to a volume where it is below the limit; `q` is the volume's nearest point. 0 inside. */
export function pointApart(x: Vec3, v: Void, below: number): Near | undefined {
  if (v.profile.type === 'straight') return pointToPrism(x, v, below);
  const pieces: Pieces = piecesOf(v);
  if (!pieces.solid && holds(v, x)) return { mm: 0, p: x, q: x };
  if (pieces.solid) {
    const [piece] = pieces.list;
    if (boxesApart({ min: x, max: x }, piece!.bounds) >= below) return undefined;
    const found = convexApart(dot(x), piece!, below);
    return found.mm < below ? found : undefined;
  }
  const point: Piece = { ...dot(x), bounds: { min: x, max: x }, error: 0, isOn: () => true, halves: () => [] };
  const best = listsApart([point], pieces.list, below);
  const end = endsApart(v, [point], best?.mm ?? below);
  return end ? { mm: end.mm, p: x, q: end.p } : best;
}

/** A straight volume is its outline times its depth: the distance is that in the plane and that along the axis, squared. */
function pointToPrism(x: Vec3, v: Void, below: number): Near | undefined {
  const w = depthOf(v.frame, x);
  const deep = Math.min(v.to, Math.max(v.from, w));
  if (Math.abs(w - deep) >= below) return undefined;
  const at = intoFrame(v.frame, x);
  const outline = outlineOf(v.region);
  if (windingOf(outline.edges, at.u, at.v) !== 0) {
    const mm = Math.abs(w - deep);
    return mm < below ? { mm, p: x, q: fromFrame(v.frame, at.u, at.v, deep) } : undefined;
  }
  const { side, aside, next } = nearestSide(outline.sides, at);
  const mm = Math.sqrt(aside * aside + (w - deep) * (w - deep));
  if (!side || mm >= below) return undefined;
  const foot = nearestOn(side, at.u, at.v);
  const flatMm = side.arc ? 0 : Math.max(0, Math.min((next - aside) / 2, w - v.from, v.to - w));
  return { mm, p: x, q: fromFrame(v.frame, foot.u, foot.v, deep), flatMm };
}

/** The side nearest to a point, how far it is, and how far the next. */
function nearestSide(sides: readonly Side[], at: Point2): { side: Side | undefined; aside: number; next: number } {
  let aside = Number.POSITIVE_INFINITY;
  let next = Number.POSITIVE_INFINITY;
  let side: Side | undefined;
  for (const s of sides) {
    const mm = distanceTo(s, at.u, at.v);
    if (mm >= aside) {
      next = Math.min(next, mm);
      continue;
    }
    next = aside;
    aside = mm;
    side = s;
  }
  return { side, aside, next };
}

const dot = (x: Vec3): Convex => ({ middle: x, support: () => x });
const meeting = (p: Convex): Between => ({ mm: 0, p: p.middle, q: p.middle });
const nearer = (a: Between | undefined, b: Between | undefined) => (a && b ? (b.mm < a.mm ? b : a) : (a ?? b));

function listsApart(as: readonly Piece[], bs: readonly Piece[], below: number): Between | undefined {
  const queue: Pair[] = [];
  for (const a of as) for (const b of bs) push(queue, { a, b, least: boxesApart(a.bounds, b.bounds) }, below);
  for (let round = 0; ; round++) {
    const next = queue.pop();
    if (!next) return undefined;
    const { a, b } = next;
    if (!next.found) {
      const found = convexApart(a, b, below);
      push(queue, { a, b, least: found.mm, found }, below);
      continue;
    }
    const fine = round < PATIENCE ? FINE : COARSE;
    const roughA = a.error > fine && !a.isOn(next.found.p);
    const roughB = b.error > fine && !b.isOn(next.found.q);
    if ((!roughA && !roughB) || round > ROUNDS) return next.found;
    const pairs =
      roughA && (!roughB || a.error >= b.error)
        ? a.halves().map((half) => ({ a: half, b }))
        : b.halves().map((half) => ({ a, b: half }));
    for (const pair of pairs) push(queue, { ...pair, least: boxesApart(pair.a.bounds, pair.b.bounds) }, below);
  }
}

/** Keeps the queue sorted, the nearest last; what is certain to lie farther than the limit is left out. */
function push(queue: Pair[], pair: Pair, below: number): void {
  if (pair.least >= below) return;
  let low = 0;
  let high = queue.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (queue[middle]!.least > pair.least) low = middle + 1;
    else high = middle;
  }
  queue.splice(low, 0, pair);
}

function boxesApart(a: Box, b: Box): number {
  let sum = 0;
  for (let i = 0; i < 3; i++) {
    const k = i as 0 | 1 | 2;
    const gap = Math.max(0, a.min[k] - b.max[k], b.min[k] - a.max[k]);
    sum += gap * gap;
  }
  return Math.sqrt(sum);
}

/**
 * A point of a patch inside the volume, where the patch goes in through an end. What of a flat patch lies between the
 * ends is in one piece: where it meets no side of the volume, one point of it tells of all. A curved one is halved until
 * it is as good as flat, or certainly inside or beside.
 */
function throughEnd(v: Void, patch: Piece, along: Vec3): Vec3 | undefined {
  const outline = outlineOf(v.region);
  const open = [patch];
  for (let round = 0; round < ROUNDS; round++) {
    const piece = open.pop();
    if (!piece) return undefined;
    const [low, high] = [piece.support(scale(along, -1)), piece.support(along)];
    const [a, b] = [depthOf(v.frame, low), depthOf(v.frame, high)];
    const [from, to] = [Math.max(v.from, a), Math.min(v.to, b)];
    if (to - from < ROUNDING) continue;
    const x = mix(low, high, ((from + to) / 2 - a) / (b - a));
    if (piece.error <= COARSE) {
      if (holds(v, x)) return x;
      continue;
    }
    const at = intoFrame(v.frame, x);
    const out = signedDistance(outline, at.u, at.v) + insetAt(v, depthOf(v.frame, x));
    if (-out > piece.error && to - from > 2 * piece.error) return x;
    const { min, max } = piece.bounds;
    if (out < Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2])) open.push(...piece.halves());
  }
  return undefined;
}

/**
 * From the flat ends of a volume to convex pieces beyond them: where a piece's lowest point lies over the end, that is
 * the distance; where it lies beside it, the rim is nearer and belongs to a patch.
 */
function endsApart(v: Void, pieces: readonly Piece[], below: number): Between | undefined {
  let best: Between | undefined;
  for (const [w, out] of [
    [v.to, 1],
    [v.from, -1],
  ] as const) {
    for (const piece of pieces) {
      const q = piece.support(scale(v.frame.w, -out));
      const over = (depthOf(v.frame, q) - w) * out;
      const mm = over < 0 && over > -ROUNDING ? 0 : over;
      if (mm < 0 && best?.mm !== 0 && boxesApart(piece.bounds, v.bounds) === 0) {
        const inside = throughEnd(v, piece, v.frame.w);
        if (inside) return { mm: 0, p: inside, q: inside };
      }
      if (mm < 0 || mm >= (best?.mm ?? below)) continue;
      const at = intoFrame(v.frame, q);
      if (signedDistance(outlineOf(v.region), at.u, at.v) > -insetAt(v, w)) continue;
      best = { mm, p: fromFrame(v.frame, at.u, at.v, w), q };
    }
  }
  return best;
}
