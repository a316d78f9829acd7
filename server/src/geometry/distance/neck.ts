/** How wide a cutter gets everywhere into an outline: its narrowest neck, or the widest circle in it where it has none. */
import { memo } from '../../memo';
import type { Point2, Region } from '../types';
import { ownFacings } from './facing';
import { type Outline, onSweep, outlineOf, signedDistance } from './outline';

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
  return room > found.mm / 2 - 1e-9 ? found.mm : Math.min(found.mm, 2 * inscribed(o).radius);
}

interface Cell {
  readonly u: number;
  readonly v: number;
  readonly half: number;
  readonly room: number;
  /** No point of the cell has more room than this. */
  readonly most: number;
}

/**
 * The largest circle inside an outline, to a micrometre: squares are quartered, most promising first, until none can
 * hold a circle larger than the best found.
 */
export function inscribed(o: Outline, toleranceMm = 1e-6): { readonly at: Point2; readonly radius: number } {
  const cell = (u: number, v: number, half: number): Cell => {
    const room = -signedDistance(o, u, v);
    return { u, v, half, room, most: room + half * Math.SQRT2 };
  };
  const half = Math.max(o.maxU - o.minU, o.maxV - o.minV) / 2;
  const queue = [cell((o.minU + o.maxU) / 2, (o.minV + o.maxV) / 2, half)];
  let best = queue[0]!;
  // Along a slot or a rectangle every place of the middle line is as good: no search tells them apart.
  const enough = halfWidth(o) - toleranceMm;
  for (let steps = 0; queue.length > 0 && steps < 4000 && best.room < enough; steps++) {
    const next = queue.pop()!;
    if (next.most <= best.room + toleranceMm) break;
    const quarter = next.half / 2;
    for (const du of [-quarter, quarter]) {
      for (const dv of [-quarter, quarter]) {
        const c = cell(next.u + du, next.v + dv, quarter);
        if (c.room > best.room) best = c;
        if (c.most > best.room + toleranceMm) insert(queue, c);
      }
    }
  }
  return { at: { u: best.u, v: best.v }, radius: Math.max(0, best.room) };
}

/** More directions are not looked at. */
const MOST_SIDES = 12;

/** No circle inside has a larger radius: half of how far the outline goes along the axes, or square to a straight side. */
function halfWidth(o: Outline): number {
  let least = Math.min(o.maxU - o.minU, o.maxV - o.minV);
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
