/**
 * Walls between two sides that are parallel to one axis: their thickness is measured in the plane square to it, and they
 * stand as high as the two sides overlap. Where a third volume takes the wall away, the place is sought elsewhere on it.
 */

import type { Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { type Facing, facings, ownFacings, staysWithin } from '../distance/facing';
import { type Cell, cells, longestRun, type Surroundings, stands } from '../distance/line-of-material';
import { nearestOn, type Outline, pointAlong } from '../distance/outline';
import type { Stretch } from '../distance/section';
import { fromFrame } from '../frame';
import type { Box, Frame, Point2, Vec3, Void, Wall } from '../types';
import { boxesNear } from '../vector';

/** Two outlines in one plane, and by how much each surface lies behind its outline. */
interface Sides {
  readonly frame: Frame;
  readonly a: Outline;
  readonly insetA: number;
  /** Absent for the arms of one outline. */
  readonly b?: Outline;
  readonly insetB: number;
  /** The depths over which both stand. */
  readonly depths: Stretch;
}

/** A wall is followed no further than where it is half as thick again: beyond that it is another place. */
const SAME_WALL = 1.5;

/**
 * Into so many parts each cell is cut, of the depths where nothing else begins or ends: what leans through a wall leaves a
 * web at the foot or the top of it that no bounds tell of. Webs lower than a sixteenth of what is looked at may be missed.
 */
const PARTS = [1, 4, 16] as const;

/** The thinnest standing wall between two sets of sides, thinner than the limit. */
export function sideWall(a: Void, b: Void | Face, sides: Sides, s: Surroundings): Wall | undefined {
  const shift = sides.insetA + sides.insetB;
  const limit = s.belowMm - shift;
  const found = sides.b ? facings(sides.a, sides.b, limit) : ownFacings(sides.a, limit, 'outside');
  let best: Wall | undefined;
  for (const k of found) {
    const thicknessMm = k.mm + shift;
    if (thicknessMm < SAME) continue;
    if (best && best.thicknessMm <= thicknessMm) break;
    const wall = standing(a, b, k, sides, s) ?? beside(a, b, k, sides, s);
    if (wall && (!best || wall.thicknessMm < best.thicknessMm)) best = wall;
  }
  return best;
}

function ends(k: Sides, p: Point2, q: Point2, w: number): readonly [Vec3, Vec3] {
  const mm = Math.hypot(q.u - p.u, q.v - p.v) || 1;
  const [du, dv] = [(q.u - p.u) / mm, (q.v - p.v) / mm];
  return [
    fromFrame(k.frame, p.u - du * k.insetA, p.v - dv * k.insetA, w),
    fromFrame(k.frame, q.u + du * k.insetB, q.v + dv * k.insetB, w),
  ];
}

/** The wall at its thinnest, at a place and depth where it still stands. */
function standing(a: Void, b: Void | Face, k: Facing, sides: Sides, all: Surroundings): Wall | undefined {
  const { depths } = sides;
  const middle = (depths.from + depths.to) / 2;
  const gap = all.near.length > 0 ? gapBox(k, sides) : undefined;
  const near = gap ? all.near.filter((v) => boxesNear(v.bounds, gap, SAME)) : all.near;
  const s = { ...all, near };
  const most = SAME_WALL * (k.mm + sides.insetA + sides.insetB) - sides.insetA - sides.insetB;
  const wall = (at: readonly [Vec3, Vec3], heightMm: number, lengthMm: number): Wall => {
    return { thicknessMm: k.mm + sides.insetA + sides.insetB, a, b, at, heightMm, lengthMm, type: 'wall' };
  };
  const whole = ends(sides, k.p, k.q, middle);
  if (near.length === 0 && stands(...whole, s)) return wall(whole, depths.to - depths.from, staysWithin(k, most));
  for (const parts of PARTS) {
    const along = alongCells(k, sides.frame, s, parts > 1);
    const deep = cutAlso(
      cells(depths.from, depths.to, sides.frame.w, -offset(sides.frame), [...near, bodyCut(s)]),
      parts,
    );
    let best: { at: readonly [Vec3, Vec3]; height: number; cell: Cell } | undefined;
    const open: Cell[] = [];
    for (const cell of along) {
      const p = pointAlong(k.e, cell.middle);
      const q = along.length === 1 && k.from === k.to ? k.q : nearestOn(k.f, p.u, p.v);
      const run = longestRun(deep, (d) => stands(...ends(sides, p, q, d.middle), s));
      if (!run) continue;
      open.push(cell);
      const height = run.to - run.from;
      const longer =
        best && height > best.height - ROUNDING && cell.to - cell.from > best.cell.to - best.cell.from + ROUNDING;
      if (!best || height > best.height + ROUNDING || longer)
        best = { at: ends(sides, p, q, run.cell.middle), height, cell };
    }
    if (!best) continue;
    const run = longestRun(along, (c) => open.includes(c))!;
    const lengthMm = open.length === along.length ? staysWithin(k, most) : run.to - run.from;
    return wall(best.at, best.height, lengthMm);
  }
  return undefined;
}

const offset = (f: Frame) => f.origin[0] * f.w[0] + f.origin[1] * f.w[1] + f.origin[2] * f.w[2];
/** The body's own bounds cut cells as a volume's do. */
const bodyCut = (s: Surroundings) => ({ bounds: s.body.box }) as Void;

function alongCells(k: Facing, f: Frame, s: Surroundings, fine: boolean): readonly Cell[] {
  if (k.to - k.from < ROUNDING) return [{ from: k.from, to: k.to, middle: k.from }];
  if (k.e.arc) return cutAlso([{ from: k.from, to: k.to, middle: (k.from + k.to) / 2 }], 9);
  const way: Vec3 = [0, 1, 2].map((i) => f.u[i as 0] * k.e.tax + f.v[i as 0] * k.e.tay) as unknown as Vec3;
  const start = fromFrame(f, k.e.ax, k.e.ay, 0);
  const back = -(start[0] * way[0] + start[1] * way[1] + start[2] * way[2]);
  return cutAlso(cells(k.from, k.to, way, back, [...s.near, bodyCut(s)]), fine ? 6 : 1);
}

/** Every cell cut again into equal parts, for volumes whose bounds say little about them. */
function cutAlso(list: readonly Cell[], parts: number): readonly Cell[] {
  if (parts === 1) return list;
  return list.flatMap((c) =>
    Array.from({ length: parts }, (_, i) => {
      const step = (c.to - c.from) / parts;
      return { from: c.from + i * step, to: c.from + (i + 1) * step, middle: c.from + (i + 0.5) * step };
    }),
  );
}

/** Everything that lies between the two sides, as a box. */
function gapBox(k: Facing, sides: Sides): Box {
  const places = [k.p, k.q, pointAlong(k.e, k.from), pointAlong(k.e, k.to)];
  const more = places.slice(2).map((p) => nearestOn(k.f, p.u, p.v));
  const points = [...places, ...more].flatMap((p) => [
    fromFrame(sides.frame, p.u, p.v, sides.depths.from),
    fromFrame(sides.frame, p.u, p.v, sides.depths.to),
  ]);
  const pick = (by: (...n: number[]) => number) =>
    [0, 1, 2].map((i) => by(...points.map((p) => p[i as 0]))) as unknown as Vec3;
  return { min: pick(Math.min), max: pick(Math.max) };
}

/** Where the thinnest line itself is cut away: the nearest place to either side of it, on the same wall, that stands. */
function beside(a: Void, b: Void | Face, k: Facing, sides: Sides, s: Surroundings): Wall | undefined {
  if (k.to - k.from > ROUNDING) return undefined;
  const shift = sides.insetA + sides.insetB;
  const most = Math.min(s.belowMm, SAME_WALL * (k.mm + shift)) - shift;
  const deep = cells(sides.depths.from, sides.depths.to, sides.frame.w, -offset(sides.frame), [...s.near, bodyCut(s)]);
  const closed = k.e.arc && k.e.before === k.e;
  const look = (mm: number) => {
    if (!closed && (mm < 0 || mm > k.e.length)) return undefined;
    const p = pointAlong(k.e, mm);
    const q = nearestOn(k.f, p.u, p.v);
    const gap = Math.hypot(p.u - q.u, p.v - q.v);
    if (gap > most || gap < ROUNDING) return undefined;
    const run = longestRun(deep, (d) => stands(...ends(sides, p, q, d.middle), s));
    return run && { gap, at: ends(sides, p, q, run.cell.middle), height: run.to - run.from };
  };
  let best: Wall | undefined;
  const reach = staysWithin(k, most);
  for (const way of [1, -1]) {
    const step = (way * reach) / 16;
    for (let i = 1; i <= 16; i++) {
      if (!look(k.from + i * step)) continue;
      let [gone, here] = [k.from + (i - 1) * step, k.from + i * step];
      while (Math.abs(here - gone) > 1e-5) {
        const middle = (gone + here) / 2;
        if (look(middle)) here = middle;
        else gone = middle;
      }
      const spot = look(here)!;
      const thicknessMm = spot.gap + shift;
      if (best && best.thicknessMm <= thicknessMm) break;
      const lengthMm = Math.abs(k.from + way * reach - here);
      best = { thicknessMm, a, b, at: spot.at, heightMm: spot.height, lengthMm, type: 'wall' };
      break;
    }
  }
  return best;
}
