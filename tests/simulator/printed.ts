/**
 * Carries out a sheet as it is printed: reads the Markdown, moves each tool by the read-out values that stand in it, and takes
 * away what it passes through. Shares no code with what made the sheet: it knows the words, the shop's tools and the stock.
 */
import type { Face, Part } from '../../server/src/model/model';
import type { Shop } from '../../server/src/model/shop-model';
import { type Field, fieldOf } from './field';
import { axisOf } from './frame';
import { judged, type Report } from './simulate';
import { type Body, bodyOf, setTo } from './tools';
import { type View, viewOf, workOf } from './view';

type Point = readonly [number, number];
/** Polylines; `fills`: all within them, each loop inside another left out again. */
interface Path {
  readonly lines: readonly (readonly Point[])[];
  readonly fills: boolean;
}
interface Pass {
  readonly tool: string;
  readonly does: string;
  readonly of: string;
  readonly path: Path;
  readonly tips: readonly number[];
  readonly unset: readonly string[];
  readonly bores?: readonly number[];
}
interface Axis {
  readonly from: Face;
  readonly toward: Face;
}
interface Touched {
  readonly axis: 'X' | 'Y' | 'Z';
  readonly shows: number;
  readonly tip: number;
  readonly from?: string;
  readonly on: 'face' | 'parallel' | 'top' | 'bore';
}
interface Setup {
  readonly up: Face;
  readonly axes: Readonly<Record<'X' | 'Y' | 'Z', Axis>>;
  readonly steps: readonly (
    | { readonly pass: Pass }
    | { readonly touched: Touched }
    | {
        readonly filed: {
          readonly of: string;
          readonly edges: readonly string[];
          readonly size: number;
          readonly after: number;
        };
      }
    | { readonly left: string }
    | { readonly swept: true }
  )[];
}

const OPPOSITE: Readonly<Record<Face, Face>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  bottom: 'top',
  top: 'bottom',
};

/** What a reader sees: without the marks that keep words words. */
function plain(markdown: string): string {
  return markdown
    .replace(/\\([^\w\s])/g, '$1')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\*\*/g, '');
}

function readSheet(markdown: string): readonly Setup[] {
  return markdown
    .split(/^## Set-up /m)
    .slice(1)
    .map((text) => {
      const words = plain(text);
      const up = /, (\w+) up$/m.exec(words)![1]!.toLowerCase() as Face;
      const from = (k: string) => new RegExp(`\\b${k} 0 at (\\w+)`).exec(words)![1] as Face;
      const axis = (k: string): Axis => ({ from: from(k), toward: OPPOSITE[from(k)] });
      const zeros = words.slice(words.indexOf('### Zero'), words.indexOf('### Passes'));
      const height = zeros.split('\n').find((l) => / Z -?[\d.]+$/.test(l));
      const steps: Setup['steps'][number][] = [];
      let last: Path | undefined;
      for (const line of words.slice(words.indexOf('### Passes')).split('\n')) {
        if (!line.startsWith('| ') || line.startsWith('| ---') || line.startsWith('| |')) continue;
        const cells = line.slice(2, -2).split(' | ');
        if (/^\d+$/.test(cells[0]!)) {
          const made = passOf(cells, last);
          if (typeof made === 'string') steps.push({ left: made });
          else {
            last = made.path;
            steps.push({ pass: made });
          }
          continue;
        }
        const told = (cells[1] ?? cells[0]!).trim();
        if (told.includes('nothing on hand')) steps.push({ left: told });
        const filed = /^(\S+): file ([\d.]+) at (.*) after set-up (\d+)/.exec(told);
        if (filed)
          steps.push({
            filed: { of: filed[1]!, size: Number(filed[2]), edges: filed[3]!.split(', '), after: Number(filed[4]) },
          });
        if (/^sweep /.test(told)) steps.push({ swept: true });
        const face = touchedOf(told);
        if (face) steps.push({ touched: face });
        const set = / in; Z at touch (-?[\d.]+)/.exec(told);
        if (set && height) steps.push({ touched: { ...touchedOf(height)!, shows: Number(set[1]) } });
      }
      return { up, axes: { X: axis('X'), Y: axis('Y'), Z: axis('Z') }, steps };
    });
}

function touchedOf(told: string): Touched | undefined {
  const found = /read-out shows ([XYZ]) (-?[\d.]+)/.exec(told);
  if (!found) return undefined;
  const on = told.includes('on a parallel')
    ? 'parallel'
    : told.includes('on the top')
      ? 'top'
      : told.includes('swept')
        ? 'bore'
        : 'face';
  const from = /coming from the (\w+)/.exec(told)?.[1];
  return {
    axis: found[1] as 'X',
    shows: Number(found[2]),
    tip: Number(/⌀([\d.]+)/.exec(told)?.[1] ?? 0),
    on,
    ...(from && { from }),
  };
}

/** What is said before a place, of axes that have no zero yet, and of such that can have none. */
const UNSET =
  /^(?:([XY])(?: and ([XY]))? not set yet: [^;]*; once set: )?(?:([XY])(?: and ([XY]))? cannot be set: [^;]*; where it is known: )?/;

function passOf([, what, , , said, depth]: readonly string[], last: Path | undefined): Pass | string {
  const told = /^(\S+), [\d.]+ out · (\S+) (.*)$/.exec(what!)!;
  const [before = '', ...axes] = UNSET.exec(said!) ?? [];
  const where = said!.slice(before.length);
  if (where === 'as drawn') return what!;
  const tips = [...depth!.matchAll(/Z (-?[\d.]+)/g)].map((m) => Number(m[1]));
  const bores = /⌀ ([\d., ]+);/.exec(depth!)?.[1]?.split(', ').map(Number);
  const path = where!.startsWith('same place') ? last! : pathOf(where!);
  const unset = axes.filter((a) => a !== undefined);
  return { tool: told[1]!, does: told[2]!, of: told[3]!, path, tips, unset, ...(bores && { bores }) };
}

function pathOf(where: string): Path {
  const all = /^all over within (.*), strokes [\d.]+ apart$/.exec(where);
  if (all) return { lines: all[1]!.split('; and ').map(lineOf), fills: true };
  return { lines: where.split(/; then |; (?=X)/).map(lineOf), fills: false };
}

const NUMBER = '(-?[\\d.]+)';
const AT = new RegExp(`X ${NUMBER} Y ${NUMBER}$`);
const ROUND = new RegExp(`^(left|right) round X ${NUMBER} Y ${NUMBER} to X`);

function lineOf(text: string): readonly Point[] {
  const points: Point[] = [];
  for (const word of text.split(' → ')) {
    const at = AT.exec(word)!;
    const to: Point = [Number(at[1]), Number(at[2])];
    const round = ROUND.exec(word);
    if (round) points.push(...arcOf(points.at(-1)!, to, [Number(round[2]), Number(round[3])], round[1] === 'left'));
    else points.push(to);
  }
  return points;
}

/** An arc as chords, none bulging more than a hundredth. */
function arcOf(from: Point, to: Point, [cx, cy]: Point, left: boolean): readonly Point[] {
  const r = Math.hypot(from[0] - cx, from[1] - cy);
  const start = Math.atan2(from[1] - cy, from[0] - cx);
  let sweep = Math.atan2(to[1] - cy, to[0] - cx) - start;
  if (left && sweep <= 1e-6) sweep += 2 * Math.PI;
  if (!left && sweep >= -1e-6) sweep -= 2 * Math.PI;
  const n = Math.max(1, Math.ceil(Math.abs(sweep) / (2 * Math.acos(Math.max(0, 1 - 0.005 / Math.max(r, 0.01))))));
  return Array.from({ length: n }, (_, k) => {
    if (k === n - 1) return to;
    const turn = start + (sweep * (k + 1)) / n;
    return [cx + r * Math.cos(turn), cy + r * Math.sin(turn)] as const;
  });
}

interface Carried extends Report {
  /** What the sheet does not tell in places, or nothing on hand does. */
  readonly left: readonly string[];
  readonly touches: readonly string[];
  readonly rubbed: readonly string[];
}

export function carryOut(markdown: string, part: Part, shop: Shop, fineMm = 0.6): Carried {
  const field = fieldOf(part, fineMm);
  let work: Uint8Array = field.stock.slice();
  const left: string[] = [];
  const touches: string[] = [];
  const rubbed: string[] = [];
  const files: { readonly after: number; readonly cells: readonly number[] }[] = [];
  readSheet(markdown).forEach((setup, index) => {
    const view = viewOf(field, work, setup.up);
    const mill = new Machine(setup, view, part);
    for (const step of setup.steps) {
      if ('left' in step) left.push(step.left);
      else if ('swept' in step) mill.sweep();
      else if ('filed' in step) files.push({ after: step.filed.after, cells: filedCells(field, step.filed, part) });
      else if ('touched' in step) touches.push(...mill.touch(step.touched).map((t) => `set-up ${index + 1}: ${t}`));
      else {
        touches.push(...mill.before(step.pass).map((t) => `set-up ${index + 1}: ${t}`));
        const tool = shop.tools.find((t) => t.name === step.pass.tool)!;
        const rubs = mill.carry(step.pass, bodyOf(tool, shop));
        if (rubs > 0) rubbed.push(`set-up ${index + 1}, ${step.pass.tool} ${step.pass.does} ${step.pass.of}: ${rubs}`);
      }
    }
    work = workOf(field, view);
    for (const f of files) if (f.after === index + 1) for (const c of f.cells) work[c] = 0;
  });
  return { ...judged(field, work, [], 0.02 + 0.75 * field.grid.fine), left, touches, rubbed };
}

/** Cells of a broken edge that lie at both of the faces named. */
function filedCells(
  field: Field,
  { of, edges, size }: { of: string; edges: readonly string[]; size: number },
  part: Part,
): number[] {
  const near = (c: number, face: Face) => {
    const k = axisOf(face);
    const i = Math.floor(c / field.grid.stride[k]) % field.grid.count[k];
    const x = field.grid.lines[k].mid[i]!;
    const plane = face === 'right' || face === 'back' || face === 'top' ? part.size[k]! : 0;
    return Math.abs(x - plane) < 1.8 * size;
  };
  const pairs = edges.map((e) => e.split('/') as [Face, Face]);
  return [...(field.cellsOf.get(of) ?? [])].filter((c) => pairs.some((p) => p.every((f) => near(c, f))));
}

const PRINTED_MM = 0.02;

/** One set-up on the machine: the tool's axis goes where the read-out says. */
class Machine {
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

  private toPlane([x, y]: Point): Point {
    const at = [0, 0, 0];
    at[axisOf(this.setup.axes.X.from)] = this.along('X', x);
    at[axisOf(this.setup.axes.Y.from)] = this.along('Y', y);
    return [at[this.view.axes[0]]!, at[this.view.axes[1]]!];
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
    const first = view.axes[0] === k;
    const edges = first ? view.edgeA : view.edgeB;
    const out = face === 'right' || face === 'back' || face === 'top' ? 1 : -1;
    let extreme = out > 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    for (let c = 0; c < view.work.length; c++) {
      if (!view.work[c]) continue;
      const i = first ? c % view.na : Math.floor(c / view.na) % view.nb;
      extreme = out > 0 ? Math.max(extreme, edges[i + 1]!) : Math.min(extreme, edges[i]!);
    }
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
