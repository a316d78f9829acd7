/**
 * Milling work that is held at an angle: every mill follows the part from above, along the axis that leans in it, as deep
 * everywhere as what stays, its shank, its holder and what holds the work let it. Heights are looked at on a plane square to
 * that axis, as finely as the cells are.
 */
import type { Setup } from '../../server/src/model/model';
import type { Block } from './fixture';
import { type Frame, frameOn, leaning } from './frame';
import { type Limit, RUB_MM } from './mill';
import { pointsOf } from './plunge';
import type { Body } from './tools';
import { toPart, type View } from './view';

/** Mills that step down layer by layer are flat; one that is not leaves more than cells can tell. */
const STEP_MM = 0.75;
/** Beside what is to go a mill may stand so far, and a holder about it reaches so much farther. */
const MILL_MM = 8;
const WIDE_MM = MILL_MM + 22;
/** A cell's middle lies up to so much off what it stands for, in steps. */
const SLACK = 1;

/** The axis of the spindle in the part, with the two across it; undefined where the work lies square. */
export function leanOf({ up, hold }: Setup, part: Parameters<typeof frameOn>[1]): Frame | undefined {
  const tilted = part.features.find((f) => f.tilt)?.tilt?.about;
  const about = hold?.tilt?.about ?? tilted;
  if (!up || hold?.type !== 'angle' || !hold.tilt || !about) return undefined;
  const tilt = { angle: hold.tilt.angle, about };
  return leaning({ tilt } as Parameters<typeof leaning>[0], frameOn(up.name, part, 0, 0));
}

interface Leaning {
  readonly view: View;
  readonly frame: Frame;
  readonly blocks: readonly Block[];
  /** What is to go. */
  readonly cells: readonly number[];
  /** All at this one depth. */
  readonly level?: number;
}

interface TakenByMill {
  readonly cells: readonly number[];
  readonly met: ReadonlySet<Limit>;
}

/** Where something is, along the two axes across and down the third. */
type Seen = readonly [p: number, q: number, deep: number];

export class LeaningMill {
  private readonly p0: number;
  private readonly q0: number;
  private readonly np: number;
  private readonly nq: number;
  private readonly own: readonly (readonly [cell: number, at: Seen])[];
  private readonly stays: Float64Array;
  private readonly stands: Float64Array;
  private readonly held = new Map<Block['what'], Float64Array>();

  constructor(private readonly of: Leaning) {
    this.own = of.cells.map((c) => [c, this.seenCell(c)] as const);
    const low = (k: 0 | 1) => Math.min(...this.own.map(([, s]) => s[k])) - WIDE_MM;
    const high = (k: 0 | 1) => Math.max(...this.own.map(([, s]) => s[k])) + WIDE_MM;
    [this.p0, this.q0] = [low(0), low(1)];
    this.np = Math.ceil((high(0) - this.p0) / STEP_MM) + 1;
    this.nq = Math.ceil((high(1) - this.q0) / STEP_MM) + 1;
    this.stays = this.empty();
    this.stands = this.empty();
    const own = new Set(of.cells);
    const { view } = of;
    for (let c = 0; c < view.work.length; c++) {
      if (!view.work[c] || own.has(c)) continue;
      const seen = this.seenCell(c);
      this.put(this.stands, seen);
      if (view.finished[c]) this.put(this.stays, seen);
    }
    for (const block of of.blocks) {
      const heights = this.held.get(block.what) ?? this.empty();
      for (const [a, b, h] of pointsOf(block)) this.put(heights, this.seen(a, b, h));
      this.held.set(block.what, heights);
    }
  }

  /** Of what lies deepest. */
  deepest(): number {
    return this.own.reduce((most, [, s]) => Math.max(most, s[2]), Number.NEGATIVE_INFINITY);
  }

  /** What one mill takes of it, and what keeps it from the rest. */
  take(tool: Body): TakenByMill {
    const { level } = this.of;
    const deepest = this.deepest() + STEP_MM;
    const within = (heights: Float64Array, radius: number) => this.least(heights, radius);
    // A cell at a wall has its middle inside what stays: the cutter may come so near.
    const floor = within(this.stays, tool.radius - SLACK * STEP_MM);
    const limits: (readonly [Limit, Float64Array, number])[] = [
      ['shank', within(this.stands, Math.max(0, tool.shankRadius + RUB_MM - SLACK * STEP_MM)), tool.reach],
    ];
    if (tool.holder) limits.push(['holder', within(this.stands, tool.holder.radius), tool.holder.out]);
    for (const [what, heights] of this.held) {
      limits.push([what, within(heights, tool.radius), 0], [what, within(heights, tool.shankRadius), tool.reach]);
      if (tool.holder) limits.push([what, within(heights, tool.holder.radius), tool.holder.out]);
    }
    const tip = new Float64Array(this.np * this.nq);
    const free = new Float64Array(this.np * this.nq);
    for (let i = 0; i < tip.length; i++) {
      free[i] = Math.min(deepest, floor[i]!);
      if (level !== undefined && free[i]! < level) free[i] = Number.NEGATIVE_INFINITY;
      tip[i] = limits.reduce((least, [, at, more]) => Math.min(least, at[i]! + more), free[i]!);
      if (level !== undefined && tip[i]! < level) tip[i] = Number.NEGATIVE_INFINITY;
    }
    const [down, could] = [this.most(tip, tool.radius), this.most(free, tool.radius)];
    // Nowhere near could the mill stand so deep for what is in its way.
    let deepestNear: typeof limits | undefined;
    const nearby = () => {
      deepestNear ??= limits.map(([limit, at, more]) => [limit, this.most(at, tool.radius), more] as const);
      return deepestNear;
    };
    const met = new Set<Limit>();
    const cells: number[] = [];
    for (const [cell, seen] of this.own) {
      const i = this.at(seen);
      if (down[i]! > seen[2]) cells.push(cell);
      else if (could[i]! > seen[2])
        for (const [limit, near, more] of nearby()) if (!(near[i]! + more > (level ?? seen[2]))) met.add(limit);
    }
    return { cells, met };
  }

  private seenCell(c: number): Seen {
    const { view } = this.of;
    const n = view.na * view.nb;
    return this.seen(
      view.sheet.a[c % view.na]!,
      view.sheet.b[Math.floor(c / view.na) % view.nb]!,
      view.mid[Math.floor(c / n)]!,
    );
  }

  private seen(a: number, b: number, height: number): Seen {
    const { view, frame } = this.of;
    const at = toPart(view, a, b, height).map((x, k) => x - frame.origin[k]!);
    const along = (d: readonly number[]) => at.reduce((sum, x, k) => sum + x * d[k]!, 0);
    return [along(frame.u), along(frame.v), along(frame.w)];
  }

  private empty(): Float64Array {
    return new Float64Array(this.np * this.nq).fill(Number.POSITIVE_INFINITY);
  }

  private at([p, q]: Seen): number {
    return Math.round((p - this.p0) / STEP_MM) + Math.round((q - this.q0) / STEP_MM) * this.np;
  }

  private put(heights: Float64Array, seen: Seen): void {
    const [i, j] = [Math.round((seen[0] - this.p0) / STEP_MM), Math.round((seen[1] - this.q0) / STEP_MM)];
    if (i < 0 || j < 0 || i >= this.np || j >= this.nq) return;
    const at = i + j * this.np;
    heights[at] = Math.min(heights[at]!, seen[2]);
  }

  /** The least within a radius, at every place where a mill so wide may stand. */
  private least(heights: Float64Array, radius: number): Float64Array {
    return this.gathered(heights, radius, Math.min, Number.POSITIVE_INFINITY);
  }

  private most(heights: Float64Array, radius: number): Float64Array {
    return this.gathered(heights, radius, Math.max, Number.NEGATIVE_INFINITY);
  }

  /** Over a disc: row by row the most or least of a stretch, which two stretches as long as powers of two cover. */
  private gathered(from: Float64Array, radius: number, of: (a: number, b: number) => number, none: number) {
    const out = new Float64Array(from.length).fill(none);
    const powers = [from];
    for (let long = 1; 2 * long <= this.np; long *= 2) {
      const last = powers[powers.length - 1]!;
      powers.push(last.map((x, c) => ((c % this.np) + 2 * long <= this.np ? of(x, last[c + long]!) : x)));
    }
    const high = Math.floor(radius / STEP_MM);
    // Places beside its own cells by more than the widest mill are of no use.
    const beside = Math.round((WIDE_MM - MILL_MM) / STEP_MM);
    for (let row = -high; row <= high; row++) {
      const wide = Math.floor(Math.sqrt(Math.max(0, radius ** 2 - (row * STEP_MM) ** 2)) / STEP_MM + 1e-9);
      const power = Math.floor(Math.log2(2 * wide + 1));
      const [p, over] = [powers[power]!, wide + 1 - 2 ** power];
      for (let j = beside; j < this.nq - beside; j++)
        for (let i = beside; i < this.np - beside; i++) {
          const at = i + j * this.np;
          const to = at + row * this.np;
          out[at] = of(out[at]!, of(p[to - wide]!, p[to + over]!));
        }
    }
    return out;
  }
}
