/**
 * The search for the thinnest standing place where no closed form says where it is: the least over the whole surface of
 * a volume, not the nearest of several. Stretches of the surface are halved, the most promising first, and left out once
 * nothing in them can be thinner than what was found: a distance changes no faster than its place, and one to a plane or
 * to a convex volume no less than its slope says. What is left when the work allowed is done is followed down by steps.
 */

import { spend } from '../../effort';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { goneAround, type Surroundings, stands } from '../distance/line-of-material';
import type { Vec3, Void } from '../types';
import { dot, scale, sub } from '../vector';
import { type Patch, patchesOf, type Stretch2 } from './patches';

/** What a place has opposite. */
export interface Opposite {
  /** Distance and nearest point; none where it is as far as `below` or farther. */
  readonly nearest: (x: Vec3, below: number) => Found | undefined;
  /** A plane or a convex volume: its distance lies above every tangent to it, and its nearest point moves no faster than the place. */
  readonly convex: boolean;
  /** Of a plane: the way to it, the same from everywhere. */
  readonly flat?: Vec3;
  /** Whether the way there counts. */
  readonly counts?: (x: Vec3, q: Vec3) => boolean;
}

interface Found {
  readonly mm: number;
  readonly q: Vec3;
  /** So far around the place, mm, what lies opposite is a plane. */
  readonly flatMm?: number;
}

export interface Place {
  readonly mm: number;
  readonly p: Vec3;
  readonly q: Vec3;
}

interface Cell extends Stretch2 {
  readonly patch: Patch;
  /** No place in it is thinner, mm. */
  readonly least: number;
}

/** How close to the least is close enough, mm. */
const CLOSE = 3e-5;
/** First looks at a side: they find what stands at all. Quarters of a circle are cut alike, wherever it is begun. */
const ACROSS = 8;
const DEEP = 4;
/** What a look costs, as `spend` counts it, without the volumes around. */
const LOOK = 40;
/** Looks in all. */
const MOST_LOOKS = 500;

/** How thin does not matter, mm. */
interface Thin {
  /** The first place found that is as thin as this will do. */
  readonly enough: number;
  /** Stretches all thinner than this are not cut finer where nothing stands in their middle. */
  readonly coarse: number;
}
const MATTERS: Thin = { enough: 0, coarse: 0 };

/** The thinnest place of the sides, or of the flat ends, of a volume where material stands across to what lies opposite. */
export function seek(
  v: Void,
  part: 'sides' | 'ends',
  opposite: Opposite,
  s: Surroundings,
  thin = MATTERS,
): Place | undefined {
  return new Search(opposite, s, thin).run(patchesOf(v, part, s.body));
}

class Search {
  private best: { readonly place: Place; readonly cell: Cell } | undefined;
  private readonly queue: Cell[] = [];
  private looks = 0;

  constructor(
    private readonly opposite: Opposite,
    private readonly s: Surroundings,
    private readonly thin: Thin,
  ) {}

  run(patches: readonly Patch[]): Place | undefined {
    for (const patch of patches) {
      const { x, y } = patch.whole;
      if (!this.opposite.nearest(patch.place(x, y), this.limit + patch.reach(patch.whole))) continue;
      for (const part of parts(patch.whole, ACROSS, patch.whole.hy > 0 ? DEEP : 1))
        this.look({ ...part, patch, least: 0 });
    }
    for (let next = this.queue.pop(); next; next = this.queue.pop()) {
      if (next.least >= this.limit - CLOSE || (this.best && this.best.place.mm <= this.thin.enough)) break;
      if (this.looks > MOST_LOOKS) break;
      for (const half of this.halves(next)) this.look(half);
    }
    return this.best && this.polished(this.best.cell);
  }

  private get limit(): number {
    return this.best ? this.best.place.mm : this.s.belowMm;
  }

  /** Looks at the middle of a stretch, and keeps the stretch where it may hold better. */
  private look(cell: Cell): void {
    this.looks++;
    spend(LOOK);
    const { patch, x, y } = cell;
    const reach = patch.reach(cell);
    const beside = patch.beside(x, y);
    if (beside > reach + SAME) return;
    const p = patch.place(x, y);
    const found = this.opposite.nearest(p, this.limit + reach);
    if (!found) return;
    const standing = beside <= SAME && this.holds(p, found);
    if (standing && found.mm < this.limit) this.best = { place: { mm: found.mm, p, q: found.q }, cell };
    if (reach < CLOSE || (!standing && found.mm + reach < this.thin.coarse)) return;
    const least = Math.max(cell.least, found.mm - this.fall(cell, p, found, reach));
    if (least >= this.limit - CLOSE) return;
    if (!standing && this.isGone(cell, p, found, reach)) return;
    this.keep({ ...cell, least });
  }

  /** True where nothing stands anywhere in the stretch: cut away around, or every way out runs back into the volume. */
  private isGone(cell: Cell, p: Vec3, { mm, q, flatMm = 0 }: Found, reach: number): boolean {
    // beyond a hollow volume the nearest point may jump, over a short stretch hardly
    const plane = this.opposite.flat !== undefined || reach < flatMm;
    const steady = this.opposite.convex || plane || reach < mm / 10;
    if (goneAround(p, q, reach, steady, this.s)) return true;
    const out = cell.patch.outward(cell.x, cell.y);
    const { flat } = this.opposite;
    if (!steady || out.length === 0 || (!flat && mm < ROUNDING)) return false;
    const change = cell.patch.turn(cell) + (plane ? 0 : (2 * reach) / mm) + SAME;
    const way = flat ?? scale(sub(q, p), 1 / mm);
    return out.every((n) => dot(way, n) < -change);
  }

  private holds(p: Vec3, { mm, q }: Found): boolean {
    if (mm < SAME || (this.opposite.counts && !this.opposite.counts(p, q))) return false;
    return stands(p, q, this.s);
  }

  /** By how much the distance may be less somewhere in the stretch than at its middle, mm. */
  private fall(cell: Cell, p: Vec3, { mm, q, flatMm = 0 }: Found, reach: number): number {
    const { tangents } = cell.patch;
    if (!tangents || !(this.opposite.convex || reach < flatMm) || mm < ROUNDING) return reach;
    const slope = sub(p, q);
    const [tx, ty] = tangents(cell.x, cell.y);
    const fall = (Math.abs(dot(slope, tx)) * cell.hx + Math.abs(dot(slope, ty)) * cell.hy) / mm;
    // the surface bends in the plane of its outline: only the part of the slope that lies there counts
    const upright = dot(slope, cell.patch.axis) / mm;
    return Math.min(reach, fall + cell.patch.bend(cell) * Math.sqrt(Math.max(0, 1 - upright * upright)));
  }

  /** Halved the longer way. */
  private halves(c: Cell): readonly Cell[] {
    const { patch, least, x, y, hx, hy } = c;
    const across = patch.reach({ x, y, hx, hy: 0 }) >= patch.reach({ x, y, hx: 0, hy });
    if (across) {
      const half = { y, hx: hx / 2, hy, patch, least };
      return [
        { ...half, x: x - hx / 2 },
        { ...half, x: x + hx / 2 },
      ];
    }
    const half = { x, hx, hy: hy / 2, patch, least };
    return [
      { ...half, y: y - hy / 2 },
      { ...half, y: y + hy / 2 },
    ];
  }

  /** The queue is sorted, the most promising last. */
  private keep(cell: Cell): void {
    let low = 0;
    let high = this.queue.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.queue[middle]!.least > cell.least) low = middle + 1;
      else high = middle;
    }
    this.queue.splice(low, 0, cell);
  }

  /** Halving steps around the best place, to a hundredth of a micrometre of where it may stand. */
  private polished(from: Cell): Place {
    let place = this.best!.place;
    let { x, y } = from;
    let [sx, sy] = [from.hx, from.hy];
    const { patch } = from;
    const within = ({ x: m, hx }: { x: number; hx: number }, a: number) => Math.min(m + hx, Math.max(m - hx, a));
    while (sx > 1e-5 || sy > 1e-5) {
      let moved = false;
      for (const [i, k] of WAYS) {
        const a = within(patch.whole, x + i * sx);
        const b = within({ x: patch.whole.y, hx: patch.whole.hy }, y + k * sy);
        if (patch.beside(a, b) > SAME) continue;
        const p = patch.place(a, b);
        const found = this.opposite.nearest(p, place.mm - DIGITS);
        if (!found || !this.holds(p, found)) continue;
        place = { mm: found.mm, p, q: found.q };
        [x, y] = [a, b];
        moved = true;
      }
      if (moved) continue;
      sx /= 2;
      sy /= 2;
    }
    return place;
  }
}

const WAYS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

function parts(c: Stretch2, across: number, deep: number): readonly Stretch2[] {
  const hx = c.hx / across;
  const hy = c.hy / deep;
  const made: Stretch2[] = [];
  for (let k = 0; k < deep; k++) {
    for (let i = 0; i < across; i++)
      made.push({ x: c.x - c.hx + (2 * i + 1) * hx, y: c.y - c.hy + (2 * k + 1) * hy, hx, hy });
  }
  return made;
}
