/** Which of many volumes lie near a box: looked up in a grid, so that to ask it of each of them does not cost the square. */
import { memo } from '../../memo';
import type { Box, Vec3, Void } from '../types';

/** Of so few each is looked at. */
const FEW = 24;
/** What lies in more cells than this is looked at wherever one asks. */
const WIDE = 48;

/** Places in the list, ascending, of those whose bounds may come that near the box: all that do, and some that do not. */
export function nearIn(voids: readonly Void[], { min, max }: Box, mm = 0): readonly number[] {
  return asksOf(voids).grid.near(min, max, mm);
}

/** The same, as volumes. */
export function nearTo(voids: readonly Void[], { min, max }: Box, mm = 0): readonly Void[] {
  if (voids.length <= FEW) return voids;
  const asks = asksOf(voids);
  return asks.isOften ? asks.grid.near(min, max, mm).map((i) => voids[i]!) : voids;
}

const asksOf = memo((voids: readonly Void[]) => new Asks(voids));

/** To make a grid takes about as long as to look at all of the volumes so often. */
const OFTEN = 24;

/** Each cut leaves a workpiece of its own, of which not much is asked: for that no grid is made. */
class Asks {
  readonly #voids: readonly Void[];
  #times = 0;
  #grid: Grid | undefined;

  constructor(voids: readonly Void[]) {
    this.#voids = voids;
  }

  get isOften(): boolean {
    return this.#grid !== undefined || ++this.#times > OFTEN;
  }

  get grid(): Grid {
    this.#grid ??= new Grid(this.#voids);
    return this.#grid;
  }
}

type Axis = 0 | 1 | 2;

class Grid {
  readonly #all: readonly number[];
  readonly #axes: readonly [Axis, Axis];
  readonly #low: readonly [number, number];
  readonly #cell: readonly [number, number];
  readonly #across: readonly [number, number];
  readonly #cells: number[][] = [];
  readonly #wide: number[] = [];

  constructor(voids: readonly Void[]) {
    this.#all = voids.map((_, i) => i);
    const [low, size] = extent(voids);
    // The two axes along which they lie farthest apart.
    const [a, b] = ([0, 1, 2] as Axis[]).sort((i, k) => size[k] - size[i]) as [Axis, Axis];
    this.#axes = [a, b];
    this.#low = [low[a], low[b]];
    const many = voids.length <= FEW ? 1 : voids.length;
    const side = Math.sqrt(Math.max(size[a] * size[b], size[a] * 1e-3) / many) || 1;
    this.#across = [cellsIn(size[a], side, many), cellsIn(size[b], side, many)];
    this.#cell = [size[a] / this.#across[0] || 1, size[b] / this.#across[1] || 1];
    for (let i = 0; i < this.#across[0] * this.#across[1]; i++) this.#cells.push([]);
    for (const [i, { bounds }] of voids.entries()) {
      const [a0, a1, b0, b1] = this.#span(bounds.min, bounds.max, 0);
      if ((a1 - a0 + 1) * (b1 - b0 + 1) > WIDE) this.#wide.push(i);
      else for (let k = a0; k <= a1; k++) for (let n = b0; n <= b1; n++) this.#cells[k * this.#across[1] + n]!.push(i);
    }
  }

  near(min: Vec3, max: Vec3, mm: number): readonly number[] {
    const [a0, a1, b0, b1] = this.#span(min, max, mm);
    const cells = (a1 - a0 + 1) * (b1 - b0 + 1);
    if (2 * cells > this.#cells.length) return this.#all;
    const found = [...this.#wide];
    for (let k = a0; k <= a1; k++) {
      for (let n = b0; n <= b1; n++) for (const i of this.#cells[k * this.#across[1] + n]!) put(i, found);
    }
    return found;
  }

  /** The first and last cell along each axis. */
  #span(min: Vec3, max: Vec3, mm: number): readonly [number, number, number, number] {
    const [a, b] = this.#axes;
    const at = (which: 0 | 1, value: number) => {
      const cell = Math.floor((value - this.#low[which]) / this.#cell[which]);
      return Math.max(0, Math.min(this.#across[which] - 1, cell));
    };
    return [at(0, min[a] - mm), at(0, max[a] + mm), at(1, min[b] - mm), at(1, max[b] + mm)];
  }
}

/** Into its place among numbers that ascend, unless it is there: they are few, and asked for all the time. */
function put(i: number, among: number[]): void {
  let at = among.length;
  while (at > 0 && among[at - 1]! > i) at--;
  if (among[at - 1] === i) return;
  among.push(i);
  for (let k = among.length - 1; k > at; k--) among[k] = among[k - 1]!;
  among[at] = i;
}

function extent(voids: readonly Void[]): readonly [low: Vec3, size: Vec3] {
  const low: [number, number, number] = [0, 0, 0];
  const size: [number, number, number] = [0, 0, 0];
  for (const i of [0, 1, 2] as const) {
    let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { bounds } of voids) {
      from = Math.min(from, bounds.min[i]);
      to = Math.max(to, bounds.max[i]);
    }
    if (Number.isFinite(from) && Number.isFinite(to)) [low[i], size[i]] = [from, to - from];
  }
  return [low, size];
}

function cellsIn(size: number, side: number, many: number): number {
  return Math.max(1, Math.min(many, Math.floor(size / side)));
}
