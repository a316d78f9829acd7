/**
 * One milling cut with one tool: where its axis can stand so that nothing that stays is cut, no shank or holder meets the
 * work, and nothing that holds the work is met; and what it takes from there. Erosion and dilation of sampled cells:
 * a place whose nearest cell to be kept is `e` away is free for every cutter up to radius `e`, so what a cutter of radius r
 * clears is the union of the discs of radius e about all places with e ≥ r: exact but for where a place lies between cells.
 */
import type { Block, Met } from './fixture';
import { cellAt } from './grid';
import type { Body } from './tools';
import { covered, distanceTo, type Sheet } from './transform';
import type { View } from './view';

export type Limit = 'shank' | 'holder' | Met;
export interface Task {
  readonly view: View;
  /** Cells of the view to be taken. */
  readonly cells: Int32Array;
  /** Heights that the tip goes to. */
  readonly tips: readonly number[];
  readonly blocks: readonly Block[];
  /** So far a place may lie off where it should, mm: half a cell where walls are slanted. */
  readonly slack: number;
  /** So far everything keeps from hardened steel where no work lies between, mm. */
  readonly margin: number;
}
interface Milled {
  /** Cells of the task that the tool takes. */
  readonly cells: number[];
}

/** Rubbing: a shank needs so much more room than its own radius, mm. */
export const RUB_MM = 0.1;
/** A place farther from everything than its cutter needs counts so much at most, mm. */
const MOST_MM = 2.2;
const TOUCH_MM = 0.01;
/** A reach is not told as short by what a tip goes on below the work, mm. */
const OVER_MM = 0.12;

export class Milling {
  private readonly i0: number;
  private readonly j0: number;
  private readonly na: number;
  private readonly nb: number;
  private readonly sheet: Sheet;
  private readonly kLow: number;
  /** Cells of the task in each layer of the window. */
  private readonly want = new Map<number, Uint8Array>();
  private readonly over: Uint8Array;
  private readonly kept = new Map<string, Float64Array>();

  /** `room`: how far from the task's cells anything can matter, mm. */
  constructor(
    private readonly task: Task,
    room: number,
  ) {
    const { view } = task;
    const n = view.na * view.nb;
    let [i0, i1, j0, j1, k1] = [view.na, 0, view.nb, 0, 0];
    for (const c of task.cells) {
      const i = c % view.na;
      const j = Math.floor(c / view.na) % view.nb;
      const k = Math.floor(c / n);
      if (i < i0) i0 = i;
      if (i > i1) i1 = i;
      if (j < j0) j0 = j;
      if (j > j1) j1 = j;
      if (k > k1) k1 = k;
    }
    const { a, b } = view.sheet;
    const grow = (x: Float64Array, lo: number, hi: number): [number, number] => {
      let [p, q] = [lo, hi];
      while (p > 0 && x[p - 1]! > x[lo]! - room) p--;
      while (q < x.length - 1 && x[q + 1]! < x[hi]! + room) q++;
      return [p, q];
    };
    const [p, q] = grow(a, i0, i1);
    const [r, s] = grow(b, j0, j1);
    this.i0 = p;
    this.j0 = r;
    this.na = q - p + 1;
    this.nb = s - r + 1;
    this.sheet = { a: a.subarray(p, q + 1), b: b.subarray(r, s + 1) };
    this.kLow = k1;
    this.over = new Uint8Array(this.na * this.nb);
    for (const c of task.cells) {
      const k = Math.floor(c / n);
      const w = (c % view.na) - p + ((Math.floor(c / view.na) % view.nb) - r) * this.na;
      let m = this.want.get(k);
      if (!m) {
        m = new Uint8Array(this.na * this.nb);
        this.want.set(k, m);
      }
      m[w] = 1;
    }
  }

  /** What the tool takes; `ignoring` tells which limits are left out. */
  take(tool: Body, ignoring: ReadonlySet<Limit>): Milled {
    const { view, tips } = this.task;
    const radii = new Map<number, Float64Array>();
    const rising = [...tips].sort((x, y) => x - y);
    const layers = [...this.want.keys()];
    if (tool.tipHeight === 0 && !tool.head) {
      // Straight down: whatever a deep pass clears, the passes above it have cleared too.
      let all: Float64Array | undefined;
      rising.forEach((tip, n) => {
        const clear = this.clearance(tool, tip, ignoring);
        if (clear) all = this.widest(all?.slice(), clear, tool.radius);
        const next = rising[n + 1] ?? Number.POSITIVE_INFINITY;
        if (all) for (const k of layers) if (view.mid[k]! > tip && view.mid[k]! <= next) radii.set(k, all);
      });
    } else
      for (const tip of rising) {
        const clear = tool.head ? this.headClearance(tool, tip, ignoring) : this.clearance(tool, tip, ignoring);
        if (!clear) continue;
        for (const k of layers) {
          const h = view.mid[k]! - tip;
          if (h < 0 || (tool.head && h > tool.reach)) continue;
          const r = tool.profile(h);
          if (r > 0) radii.set(k, this.widest(radii.get(k), clear, r));
        }
      }
    const cells: number[] = [];
    let [before, beforeK] = [undefined as Uint8Array | undefined, -9];
    for (const k of [...radii.keys()].sort((x, y) => x - y)) {
      const radius = radii.get(k)!;
      const same = before && beforeK === k - 1 && (radius === radii.get(k - 1) || equal(radius, radii.get(k - 1)!));
      const disc = same ? before! : covered(this.sheet, radius);
      [before, beforeK] = [disc, k];
      const want = this.want.get(k)!;
      for (let c = 0; c < want.length; c++)
        if (want[c] && disc[c])
          cells.push(this.i0 + (c % this.na) + (this.j0 + Math.floor(c / this.na)) * view.na + k * view.na * view.nb);
    }
    return { cells };
  }

  private widest(into: Float64Array | undefined, clear: Float64Array, radius: number): Float64Array {
    const out = into ?? new Float64Array(clear.length).fill(-1);
    for (let c = 0; c < clear.length; c++) {
      const room = clear[c]!;
      if (room < -1e5) continue;
      const wide = room > 0 ? radius + room : radius;
      if (wide > out[c]!) out[c] = wide;
    }
    return out;
  }

  /** Room beside a tool with its tip at a height, at every place of the window; −1e6 where it cannot stand. */
  private clearance(tool: Body, tip: number, ignoring: ReadonlySet<Limit>): Float64Array | undefined {
    const { view } = this.task;
    const out = new Float64Array(this.na * this.nb).fill(MOST_MM);
    let k = this.layerAt(tip);
    if (k < 0) k = 0;
    // From the tip up: while the tool still widens, each layer; above, everything that stands there at once.
    for (; k >= 0; k--) {
      const h = Math.max(0, view.mid[k]! - tip);
      this.narrow(out, this.cutDistance(k, true), h >= tool.tipHeight ? tool.radius : tool.profile(h));
      if (h >= tool.tipHeight) break;
    }
    this.others(out, tool, tip, ignoring);
    return this.settled(out);
  }

  /** The same for a tool wider than its neck, which must come in from where its head passes. */
  private headClearance(tool: Body, tip: number, ignoring: ReadonlySet<Limit>): Float64Array | undefined {
    const { view } = this.task;
    const out = new Float64Array(this.na * this.nb).fill(MOST_MM);
    let k = this.layerAt(tip);
    for (; k >= 0 && view.mid[k]! - tip < tool.head!.height; k--)
      this.narrow(out, this.cutDistance(k, false), tool.profile(view.mid[k]! - tip));
    if (k >= 0) this.narrow(out, this.cutDistance(k, true), tool.head!.neck);
    this.others(out, tool, tip, ignoring);
    const down = this.cutDistance(Math.max(0, this.layerAt(tip)), true);
    const todo: number[] = [];
    const seen = new Uint8Array(out.length);
    for (let c = 0; c < out.length; c++)
      if (out[c]! >= -this.task.slack && down[c]! >= tool.radius) {
        seen[c] = 1;
        todo.push(c);
      }
    while (todo.length > 0) {
      const c = todo.pop()!;
      const i = c % this.na;
      for (const d of [i > 0 ? c - 1 : -1, i < this.na - 1 ? c + 1 : -1, c - this.na, c + this.na])
        if (d >= 0 && d < out.length && !seen[d] && out[d]! >= -this.task.slack) {
          seen[d] = 1;
          todo.push(d);
        }
    }
    for (let c = 0; c < out.length; c++) if (!seen[c]) out[c] = -1e6;
    return this.settled(out);
  }

  private others(out: Float64Array, tool: Body, tip: number, ignoring: ReadonlySet<Limit>): void {
    if (!ignoring.has('shank')) {
      const k = this.layerAt(tip + tool.reach + OVER_MM);
      if (k >= 0) this.narrow(out, this.workDistance(k), tool.shankRadius + Math.max(RUB_MM, this.task.slack), true);
    }
    if (tool.holder && !ignoring.has('holder')) {
      const k = this.layerAt(tip + tool.holder.out);
      if (k >= 0) this.narrow(out, this.workDistance(k), tool.holder.radius, true);
    }
    const stages: [number, number][] = [[0, tool.radius]];
    if (tool.tipHeight > 0 && !tool.head) stages[0] = [tool.tipHeight, tool.radius];
    stages.push([tool.reach, tool.shankRadius]);
    if (tool.holder) stages.push([tool.holder.out, tool.holder.radius]);
    for (const block of this.task.blocks) {
      if (ignoring.has(block.what)) continue;
      const above = block.h[1] - tip;
      if (above <= TOUCH_MM) continue;
      const at = (from: number) => (above > from + TOUCH_MM ? 1 : 0);
      let radius = tool.profile(Math.min(above, tool.tipHeight) - TOUCH_MM);
      for (const [from, r] of stages) if (at(from)) radius = Math.max(radius, r);
      if (radius > 0) this.narrow(out, this.blockDistance(block), radius - TOUCH_MM, true);
    }
    if (this.task.margin > 0) this.keepOff(out, [...tipStages(tool), ...stages], tip, ignoring);
  }

  /** Places from which some stage of the tool comes nearer to steel than the margin, with nothing between. */
  private keepOff(
    out: Float64Array,
    stages: readonly (readonly [number, number])[],
    tip: number,
    ignoring: ReadonlySet<Limit>,
  ): void {
    const { view, blocks, margin } = this.task;
    const { a, b } = this.sheet;
    for (const block of blocks) {
      if (ignoring.has(block.what) || !isSteel(block)) continue;
      const distance = this.blockDistance(block);
      for (const [from, radius] of stages) {
        const wide = keptOff(tip + from - block.h[1], margin);
        if (wide === undefined) continue;
        // Beside it work may lie between the two, at the foot of the stage or of the block; over it none can.
        const beside = tip + from < block.h[1] - TOUCH_MM;
        const k = this.layerAt(Math.max(tip + from, block.h[0]) + TOUCH_MM);
        for (let c = 0; c < out.length; c++) {
          const room = distance[c]! - radius - wide + TOUCH_MM;
          if (out[c]! < -1e5 || room >= out[c]!) continue;
          const [x, y] = [a[c % this.na]!, b[Math.floor(c / this.na)]!];
          if (beside && k >= 0 && stoodBetween(view, block, x, y, radius, k)) continue;
          out[c] = room < 0 ? -1e6 : room;
        }
      }
    }
  }

  private readonly blockKept = new Map<Block, Float64Array>();
  private blockDistance(block: Block): Float64Array {
    const known = this.blockKept.get(block);
    if (known) return known;
    const { a, b } = this.sheet;
    const out = new Float64Array(this.na * this.nb);
    for (let j = 0; j < this.nb; j++) {
      const db = Math.max(block.b[0] - b[j]!, b[j]! - block.b[1], 0);
      for (let i = 0; i < this.na; i++) {
        const da = Math.max(block.a[0] - a[i]!, a[i]! - block.a[1], 0);
        out[i + j * this.na] = Math.sqrt(da * da + db * db);
      }
    }
    this.blockKept.set(block, out);
    return out;
  }

  private narrow(out: Float64Array, distance: Float64Array, radius: number, strict = false): void {
    for (let c = 0; c < out.length; c++) {
      const room = distance[c]! - radius;
      if (room < out[c]!) out[c] = strict && room < 0 ? -1e6 : room;
    }
  }

  /** Places that are off by more than the slack are no places. */
  private settled(out: Float64Array): Float64Array | undefined {
    let any = false;
    for (let c = 0; c < out.length; c++) {
      if (out[c]! < -this.task.slack) out[c] = -1e6;
      else any = true;
    }
    return any ? out : undefined;
  }

  /** The lowest layer whose middle is above a height; −1 where none is. */
  private layerAt(height: number): number {
    const { view } = this.task;
    let [lo, hi] = [0, view.layers];
    while (lo < hi) {
      const m = (lo + hi) >> 1;
      if (view.mid[m]! > height + 1e-9) lo = m + 1;
      else hi = m;
    }
    return lo - 1;
  }

  /** To the nearest cell of the finished part (through what goes anyway a cutter may run): in this layer alone, or in it and everything above. */
  private cutDistance(k: number, above: boolean): Float64Array {
    return this.cached(above ? 'cut' : 'layer', k, above);
  }
  /** To the nearest cell of the workpiece, without what this cut takes, in this layer and above. */
  private workDistance(k: number): Float64Array {
    return this.cached('work', k, true);
  }

  private cached(name: 'cut' | 'layer' | 'work', k: number, above: boolean): Float64Array {
    const key = `${name} ${k}`;
    const known = this.kept.get(key);
    if (known) return known;
    const marked = this.marks(name, k, above);
    // Like the layer above it, which may be known.
    const prior = above && k > 0 ? this.kept.get(`${name} ${k - 1}`) : undefined;
    const made =
      prior && sameMarks(marked, this.markKept.get(`${name} ${k - 1}`)!) ? prior : distanceTo(this.sheet, marked);
    this.kept.set(key, made);
    return made;
  }

  private readonly markKept = new Map<string, Uint8Array>();
  private marks(name: 'cut' | 'layer' | 'work', k: number, above: boolean): Uint8Array {
    const key = `${name} ${k}`;
    const known = this.markKept.get(key);
    if (known) return known;
    const { view } = this.task;
    const from = above && k > 0 ? this.marks(name, k - 1, above) : undefined;
    // What is marked in a layer above is marked here; where nothing is added it is the same sheet.
    let marked = from ?? new Uint8Array(this.na * this.nb);
    let own = from === undefined;
    const cells = name === 'work' ? view.work : view.finished;
    const wanted = name === 'work' ? this.wantedFrom(k) : undefined;
    for (let j = 0; j < this.nb; j++) {
      const row = this.i0 + (this.j0 + j) * view.na + k * view.na * view.nb;
      for (let i = 0; i < this.na; i++) {
        if (cells[row + i] === 0) continue;
        const c = i + j * this.na;
        if (marked[c] || wanted?.[c]) continue;
        if (!own) {
          marked = marked.slice();
          own = true;
        }
        marked[c] = 1;
      }
    }
    this.markKept.set(key, marked);
    return marked;
  }

  private readonly wantKept = new Map<number, Uint8Array>();
  /** Columns that the cut takes something of in this layer or below: what stands over it goes too. */
  private wantedFrom(k: number): Uint8Array {
    if (k > this.kLow) return this.over;
    const known = this.wantKept.get(k);
    if (known) return known;
    const below = this.wantedFrom(k + 1);
    const own = this.want.get(k);
    const made = own ? own.map((x, c) => x | below[c]!) : below;
    this.wantKept.set(k, made);
    return made;
  }
}

/** A cone or a round end, as cylinders one above the other. */
export function tipStages({ profile, tipHeight, head }: Body): readonly (readonly [number, number])[] {
  if (head || tipHeight === 0) return [];
  return [0, 0.1, 0.25, 0.5, 0.75, 1, 1.5, 2, 3].filter((h) => h < tipHeight).map((h) => [h, profile(h)] as const);
}

/** Jaws, stop, clamps and heads of screws; parallels may be touched, and the bed is far below. */
export function isSteel({ what, soft }: Block): boolean {
  return !soft && what !== 'parallel' && what !== 'bed';
}

/** How far beside a block something must be that begins so high above its top; undefined where that is out of the margin. */
export function keptOff(above: number, margin: number): number | undefined {
  if (above >= margin - TOUCH_MM) return undefined;
  return Math.sqrt(margin * margin - Math.max(0, above) ** 2);
}

/** Between a tool's side and the block that it passes, in that layer, stands some of what stays: half way, or nearer the block where that is thin. */
export function stoodBetween(view: View, { a, b }: Block, x: number, y: number, radius: number, k: number): boolean {
  const [p, q] = [Math.min(a[1], Math.max(a[0], x)), Math.min(b[1], Math.max(b[0], y))];
  const off = Math.hypot(p - x, q - y);
  if (off <= radius) return false;
  return [0.5, 0.75, 0.9].some((way) => {
    const share = (radius + (off - radius) * way) / off;
    const [i, j] = [cellAt(view.edgeA, x + (p - x) * share), cellAt(view.edgeB, y + (q - y) * share)];
    return view.finished[i + j * view.na + k * view.na * view.nb] === 1;
  });
}

function equal(x: Float64Array, y: Float64Array): boolean {
  for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return false;
  return true;
}
function sameMarks(x: Uint8Array, y: Uint8Array): boolean {
  if (x === y) return true;
  for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return false;
  return true;
}
