/** How wide a cutter gets everywhere into an outline: its narrowest neck, or the widest circle in it where it has none. */

import { heed } from '../../effort';
import { memo } from '../../memo';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { windingOf } from '../2d/inside';
import type { Point2, Region } from '../types';
import { ownFacings } from './facing';
import { distanceTo, nearestOn, type Outline, onSweep, outlineOf, type Side, signedDistance } from './outline';

/**
 * The diameter of the largest circle that passes the narrowest place of a region, mm: the least distance between two
 * stretches of its boundary that face each other across it. Where no two do (a triangle), the largest circle inside.
 *
 * `free`: true for places of the boundary that are no wall (beyond the body, where the cutter may hang out).
 */
export function narrowestNeckMm(region: Region, free?: (p: Point2) => boolean): number {
  return free ? measure(outlineOf(region), free) : ownNeckMm(region);
}

const ownNeckMm = memo((region: Region) => measure(outlineOf(region)));

function measure(o: Outline, free?: (p: Point2) => boolean): number {
  if (o.sides.length === 0) return 0;
  const across = Number.POSITIVE_INFINITY;
  const found = ownFacings(o, across, 'inside').find((k) => !free || (!free(k.p) && !free(k.q)));
  if (free) return found?.mm ?? across;
  if (!found) return 2 * inscribed(o).radius;
  const room = -signedDistance(o, (found.p.u + found.q.u) / 2, (found.p.v + found.q.v) / 2);
  return room > found.mm / 2 - ROUNDING ? found.mm : Math.min(found.mm, 2 * inscribed(o).radius);
}

interface Cell {
  readonly u: number;
  readonly v: number;
  readonly half: number;
  readonly room: number;
  /** No point of the cell has more room than this. */
  readonly most: number;
  /** Sides that may be the nearest to some place in it. */
  readonly sides: readonly Side[];
}

/**
 * The largest circle inside an outline, to a micrometre: squares are quartered, most promising first, until none can
 * hold a circle larger than the best found.
 */
export function inscribed(o: Outline, toleranceMm = SAME): { readonly at: Point2; readonly radius: number } {
  const half = Math.max(o.maxU - o.minU, o.maxV - o.minV) / 2;
  const first = cellAt(o, { u: (o.minU + o.maxU) / 2, v: (o.minV + o.maxV) / 2 }, half);
  const queue = [first];
  let best = first;
  // Along a slot or a rectangle every place of the middle line is as good: no search tells them apart.
  const enough = halfWidth(o) - toleranceMm;
  for (let steps = 0; queue.length > 0 && steps < 4000 && best.room < enough; steps++) {
    const next = queue.pop()!;
    if (next.most <= best.room + toleranceMm) break;
    for (const c of quarters(o, next)) {
      if (c.room > best.room) best = c;
      if (c.most > best.room + toleranceMm && mostBetween(c) > best.room + toleranceMm) insert(queue, c);
    }
  }
  return { at: { u: best.u, v: best.v }, radius: Math.max(0, best.room) };
}

function quarters(o: Outline, { u, v, half, room, sides }: Cell): readonly Cell[] {
  const quarter = half / 2;
  // From the middle to any place in it and back to a side that is nearest there.
  const most = Math.abs(room) + 2 * half * Math.SQRT2 + ROUNDING;
  const near = sides.filter((s) => distanceTo(s, u, v) <= most);
  const isWithin = room > quarter * Math.SQRT2 + ROUNDING;
  return [-quarter, quarter].flatMap((du) =>
    [-quarter, quarter].map((dv) => cellAt(o, { u: u + du, v: v + dv }, quarter, near, isWithin)),
  );
}

/** `isWithin`: the middle is known to lie inside. */
function cellAt(o: Outline, { u, v }: Point2, half: number, sides = o.sides, isWithin = false): Cell {
  heed(sides.length);
  let mm = Number.POSITIVE_INFINITY;
  for (const s of sides) mm = Math.min(mm, distanceTo(s, u, v));
  const room = isWithin || windingOf(o.edges, u, v) !== 0 ? mm : -mm;
  return { u, v, half, room, most: room + half * Math.SQRT2, sides };
}

/**
 * The most room anywhere in a cell, by two points of the boundary: the one nearest to its middle, and what lies straight
 * opposite. Between two walls that run along each other that says much more than how far the cell goes: the first alone
 * would have all of a slot or a ring looked at as finely as the answer is wanted.
 */
function mostBetween({ u, v, half, room, most, sides }: Cell): number {
  if (room <= 0) return most;
  const near = nearestTo(sides, u, v);
  const beyond = firstAlong(sides, u, v, [(u - near.u) / room, (v - near.v) / room]);
  return Math.min(most, Math.sqrt(room * beyond + 2 * half * half));
}

function nearestTo(sides: readonly Side[], u: number, v: number): Point2 {
  let [least, nearest] = [Number.POSITIVE_INFINITY, sides[0]!];
  for (const s of sides) {
    const mm = distanceTo(s, u, v);
    if (mm < least) [least, nearest] = [mm, s];
  }
  return nearestOn(nearest, u, v);
}

/** How far it is to a side along a direction; infinite where that meets none of them. */
function firstAlong(sides: readonly Side[], u: number, v: number, [nu, nv]: readonly [number, number]): number {
  let first = Number.POSITIVE_INFINITY;
  for (const s of sides) {
    if (!s.arc) {
      const [du, dv] = [s.ax - u, s.ay - v];
      const turn = nu * s.tay - nv * s.tax;
      if (Math.abs(turn) < DIGITS) continue;
      const mm = (du * s.tay - dv * s.tax) / turn;
      const along = (du * nv - dv * nu) / turn;
      if (mm > 0 && mm < first && along >= 0 && along <= s.length) first = mm;
      continue;
    }
    const [cu, cv] = [s.cx - u, s.cy - v];
    const foot = cu * nu + cv * nv;
    const root = s.r * s.r - (cu * nv - cv * nu) ** 2;
    if (root < 0) continue;
    for (const mm of [foot - Math.sqrt(root), foot + Math.sqrt(root)])
      if (mm > 0 && mm < first && onSweep(s, Math.atan2(nv * mm - cv, nu * mm - cu))) first = mm;
  }
  return first;
}

/** More directions are not looked at. */
const MOST_SIDES = 12;

/**
 * No circle inside has a larger radius: half of how far the outline goes along the axes, or square to a straight side;
 * between two circles, half of the widest place.
 */
function halfWidth(o: Outline): number {
  let least = Math.min(o.maxU - o.minU, o.maxV - o.minV);
  const [outer, inner] = o.sides;
  if (o.sides.length === 2 && outer!.before === outer && inner!.before === inner)
    least = Math.min(least, outer!.r - inner!.r + Math.hypot(outer!.cx - inner!.cx, outer!.cy - inner!.cy));
  for (const side of o.sides.slice(0, MOST_SIDES)) {
    if (side.arc) continue;
    const [n, m] = [-side.tay, side.tax];
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    const reach = (d: number) => {
      low = Math.min(low, d);
      high = Math.max(high, d);
    };
    for (const s of o.sides) {
      reach(s.ax * n + s.ay * m);
      if (!s.arc) continue;
      const middle = s.cx * n + s.cy * m;
      if (onSweep(s, Math.atan2(m, n))) reach(middle + s.r);
      if (onSweep(s, Math.atan2(-m, -n))) reach(middle - s.r);
    }
    least = Math.min(least, high - low);
  }
  return least / 2;
}

/** Keeps the queue sorted, the most promising last. */
function insert(queue: Cell[], c: Cell): void {
  let low = 0;
  let high = queue.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (queue[middle]!.most < c.most) low = middle + 1;
    else high = middle;
  }
  queue.splice(low, 0, c);
}
