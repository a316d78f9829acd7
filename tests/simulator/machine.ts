/** One set-up on the machine: the tool's axis goes where the read-out of the sheet says. */
import type { Face, Part } from '../../server/src/model/model';
import type { Shop, Tool } from '../../server/src/model/shop-model';
import { axisOf } from './frame';
import type { Moved } from './printed-hold';
import type { Pass, Point, Setup, Touched } from './read-sheet';
import { type Body, bodyOf, setTo } from './tools';
import type { View } from './view';

const PRINTED_MM = 0.02;

/** One set-up on the machine: the tool's axis goes where the read-out says. */
export class Machine {
  constructor(
    private readonly setup: Setup,
    private readonly view: View,
    private readonly part: Part,
  ) {}

  private readonly set = new Set<string>();

  /** A bore swept sets both. */
  sweep(): void {
    this.set.add('X').add('Y');
  }

  /** Places that the sheet sends the hand to before their axis has a zero, unless it says so; and what it says for nothing. */
  before({ of, does, unset }: Pass): readonly string[] {
    return ['X', 'Y'].flatMap((axis) =>
      this.set.has(axis) === unset.includes(axis)
        ? [`${does} ${of}: ${axis} ${unset.includes(axis) ? 'is set, and told as not' : 'is not set, and is used'}`]
        : [],
    );
  }

  /** A place along a read-out axis, as a place along the part's axis. */
  private along(name: 'X' | 'Y' | 'Z', shown: number): number {
    const { from, toward } = this.setup.axes[name];
    const k = axisOf(from);
    const plane = (f: Face) => (f === 'right' || f === 'back' || f === 'top' ? this.part.size[k]! : 0);
    return plane(from) + Math.sign(plane(toward) - plane(from)) * shown;
  }

  /** Of the tip, in the view. */
  height(shown: number): number {
    return this.along('Z', shown) * this.view.sign;
  }

  toPlane([x, y]: Point): Point {
    const at = [0, 0, 0];
    at[axisOf(this.setup.axes.X.from)] = this.along('X', x);
    at[axisOf(this.setup.axes.Y.from)] = this.along('Y', y);
    return [at[this.view.axes[0]]!, at[this.view.axes[1]]!];
  }

  /** The ways of a pass in the plane of the view, each with the tool as wide as it is set. */
  moves(pass: Pass, tool: Tool, shop: Shop): readonly Moved[] {
    const lines = pass.path.lines.map((l) => l.map((p) => this.toPlane(p)));
    const tips = pass.tips.map((z) => this.along('Z', z) * this.view.sign);
    const body = bodyOf(tool, shop);
    return (pass.bores ?? [undefined]).map((d) => ({
      tool,
      body: d === undefined ? body : setTo(body, d / 2),
      lines,
      tips,
    }));
  }

  /** How far the work reaches along an axis that lies across the spindle. */
  ends(k: 0 | 1 | 2): readonly [number, number] {
    const { view } = this;
    const first = view.axes[0] === k;
    const edges = first ? view.edgeA : view.edgeB;
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let c = 0; c < view.work.length; c++) {
      if (!view.work[c]) continue;
      const i = first ? c % view.na : Math.floor(c / view.na) % view.nb;
      low = Math.min(low, edges[i]!);
      high = Math.max(high, edges[i + 1]!);
    }
    return [low, high];
  }

  /** Takes away what the tool passes through; how many cells its shank ran into. */
  carry(pass: Pass, body: Body): number {
    const { view } = this;
    const lines = pass.path.lines.map((l) => l.map((p) => this.toPlane(p)));
    const widest = Math.max(body.radius, body.shankRadius, ...(pass.bores ?? []).map((d) => d / 2)) + 1;
    const distance = distances(view, lines, pass.path.fills, widest);
    const sizes = pass.bores ?? [undefined];
    const straight = !pass.path.fills && lines.every((l) => l.length === 1);
    let rubs = 0;
    for (const size of sizes) {
      const tool = size === undefined ? body : setTo(body, size / 2);
      for (const tip of pass.does === 'tap' ? [] : pass.tips)
        rubs += this.cut(distance, tool, this.along('Z', tip) * view.sign, straight);
    }
    return rubs;
  }

  private cut(distance: Float64Array, body: Body, tip: number, straight: boolean): number {
    const { view } = this;
    const n = view.na * view.nb;
    let rubs = 0;
    for (let k = 0; k < view.layers; k++) {
      const h = view.mid[k]! - tip;
      if (h <= 0) break;
      const cuts = h <= body.reach;
      const r = cuts ? body.profile(h) : body.shankRadius - 0.1;
      for (let c = 0; c < n; c++) {
        const at = k * n + c;
        // Places are printed to a hundredth: so near a wall nothing is said of a cell.
        if (!view.work[at] || distance[c]! >= r + (view.finished[at] ? -PRINTED_MM : PRINTED_MM)) continue;
        // What comes straight down has cut its own width on the way, however short its flutes are.
        if (cuts || (straight && distance[c]! < body.radius)) view.work[at] = 0;
        else rubs += 1;
      }
    }
    return rubs;
  }

  /** What is wrong with what the read-out is set to here. */
  touch({ axis, shows, tip, on, from }: Touched): readonly string[] {
    this.set.add(axis);
    if (on === 'bore') return [];
    const { view } = this;
    const n = view.na * view.nb;
    if (axis === 'Z') {
      const layers = Array.from({ length: view.layers }, (_, k) => k).filter((k) =>
        view.work.subarray(k * n, (k + 1) * n).some((x) => x === 1),
      );
      const height = (z: number) => this.along('Z', z) * view.sign;
      const wanted = on === 'parallel' ? view.bottom[layers.at(-1)!]! : view.top[layers[0]!]!;
      return Math.abs(height(shows - tip) - wanted) > 0.05 ? [`Z shows ${shows} over ${wanted}`] : [];
    }
    const toward = from === 'right' || from === 'back' ? 1 : -1;
    const plane = this.along(axis, shows - (toward * tip) / 2);
    const face = this.setup.axes[axis][toward > 0 ? 'toward' : 'from'];
    const k = axisOf(face);
    const out = face === 'right' || face === 'back' || face === 'top' ? 1 : -1;
    const extreme = this.ends(k)[out > 0 ? 1 : 0];
    return Math.abs(extreme - plane) > 0.05
      ? [`${axis} shows ${shows} for a face at ${plane}, which is at ${extreme}`]
      : [];
  }
}

/** From the middle of each cell of a sheet to the path; 0 within what it fills. Farther than `most` counts as far. */
function distances(view: View, lines: readonly (readonly Point[])[], fills: boolean, most: number): Float64Array {
  const { a, b } = view.sheet;
  const out = new Float64Array(view.na * view.nb).fill(Number.POSITIVE_INFINITY);
  const all = lines.flat();
  const [a0, a1] = [Math.min(...all.map((p) => p[0])) - most, Math.max(...all.map((p) => p[0])) + most];
  const [b0, b1] = [Math.min(...all.map((p) => p[1])) - most, Math.max(...all.map((p) => p[1])) + most];
  for (let j = 0; j < view.nb; j++) {
    if (b[j]! < b0 || b[j]! > b1) continue;
    for (let i = 0; i < view.na; i++) {
      if (a[i]! < a0 || a[i]! > a1) continue;
      out[i + j * view.na] = distance([a[i]!, b[j]!], lines, fills);
    }
  }
  return out;
}

function distance([x, y]: Point, lines: readonly (readonly Point[])[], fills: boolean): number {
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  for (const line of lines) {
    if (line.length === 1) least = Math.min(least, Math.hypot(x - line[0]![0], y - line[0]![1]));
    for (let n = 0; n + 1 < line.length; n++) {
      const [p, q] = [line[n]!, line[n + 1]!];
      const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
      const t = Math.max(0, Math.min(1, ((x - p[0]) * dx + (y - p[1]) * dy) / (dx * dx + dy * dy || 1)));
      least = Math.min(least, Math.hypot(x - p[0] - t * dx, y - p[1] - t * dy));
      if (p[1] > y !== q[1] > y && x < p[0] + ((y - p[1]) / dy) * dx) inside = !inside;
    }
  }
  return fills && inside ? 0 : least;
}
