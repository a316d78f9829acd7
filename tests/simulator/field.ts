/** The stock, the finished part and each feature as cells of one field. */
import { FACE_AXIS, FACES, type Face, type Part } from '../../server/src/model/model';
import { AXIS, type Taken, type Vec } from './frame';
import { firstAt, type Grid, gridOf, HAIR_MM, type Line, lineOf, placeOf, type Wanted } from './grid';
import { isHollow, wallPlanes } from './hollow';
import { type Stop, stopsOf } from './stops';
import { takenBy } from './voids';

export interface Field {
  readonly part: Part;
  readonly grid: Grid;
  /** 1 where the finished part is. */
  readonly finished: Uint8Array;
  /** 1 where the body is, whatever is cut from it. */
  readonly body: Uint8Array;
  /** 1 where it does not matter what is left: the cone below a blind hole's depth, which a mill does not make. */
  readonly either: Uint8Array;
  /** 1 where the stock is. */
  readonly stock: Uint8Array;
  readonly stockBox: { readonly min: Vec; readonly max: Vec };
  /** Of features and of faces (what stands out of the body there): the cells of the stock that it takes. */
  readonly cellsOf: ReadonlyMap<string, Int32Array>;
  readonly takenOf: ReadonlyMap<string, readonly Taken[]>;
  /** Of each set-up, of each of its cuts: where it stops short of all of it. */
  readonly stops: readonly (readonly (Stop | undefined)[])[];
}

/** Room round the stock for a cutter that stands beside it, mm. */
const ROOM_MM = 13;
const COARSE_MM = 1.5;
/** Cells beside the stock. */
const ROOM_STEP_MM = 2.1;
const MOST_CELLS = 4_000_000;

export function fieldOf(part: Part, wantedFine = 0.25): Field {
  const takenOf = new Map(part.features.map((f) => [f.name, takenBy(f, part)]));
  const stockBox = stockBoxOf(part);
  let fine = wantedFine;
  const stops = stopsOf(part, takenOf);
  let grid = makeGrid(part, stockBox, [...takenOf.values()].flat(), stops.flat(), fine);
  while (grid.size > MOST_CELLS && fine < 1) {
    fine *= 1.25;
    grid = makeGrid(part, stockBox, [...takenOf.values()].flat(), stops.flat(), fine);
  }
  const stock = new Uint8Array(grid.size);
  const finished = new Uint8Array(grid.size);
  fillBlank(grid, stock, stockBox.min, stockBox.max, barOf(part));
  fillBlank(
    grid,
    finished,
    [0, 0, 0],
    part.size as Vec,
    part.body?.form === 'round' ? { axis: AXIS[part.body.axis], radius: part.body.diameter.mm / 2 } : undefined,
  );
  for (let c = 0; part.stock.section && c < grid.size; c++)
    if (
      stock[c] &&
      isHollow(
        part,
        stockBox,
        placeOf(grid, c).map((n, k) => grid.lines[k as 0]!.mid[n]!),
      )
    ) {
      stock[c] = 0;
      finished[c] = 0;
    }
  const cellsOf = new Map<string, Int32Array>();
  const seen = new Uint8Array(grid.size);
  const either = new Uint8Array(grid.size);
  for (const all of takenOf.values())
    for (const t of all) if (t.what === 'point') eachCell(grid, t, (c) => (either[c] = 1));
  for (const [name, all] of takenOf) {
    const cells: number[] = [];
    for (const t of all) {
      if (t.what === 'point') continue;
      eachCell(grid, t, (c) => {
        // A broken edge takes nothing of what stands outside the body: there is no edge.
        if (!stock[c] || seen[c] || (t.what === 'edge' && !finished[c])) return;
        seen[c] = 1;
        cells.push(c);
      });
    }
    for (const c of cells) seen[c] = 0;
    cellsOf.set(name, Int32Array.from(cells));
  }
  const body = finished.slice();
  for (let c = 0; c < grid.size; c++) if (either[c]) finished[c] = 0;
  for (const cells of cellsOf.values())
    for (const c of cells) {
      finished[c] = 0;
      either[c] = 0;
    }
  for (const [face, cells] of beyondFaces(grid, stock, body, part)) cellsOf.set(face, cells);
  return { part, grid, finished, body, either, stock, stockBox, cellsOf, takenOf, stops };
}

function stockBoxOf(part: Part): { min: Vec; max: Vec } {
  const extra = (f: keyof typeof part.stock.extra) => part.stock.extra[f]?.mm ?? 0;
  const min = [-extra('left'), -extra('front'), -extra('bottom')];
  const max = [part.size[0] + extra('right'), part.size[1] + extra('back'), part.size[2] + extra('top')];
  const bar = barOf(part);
  if (bar)
    for (const k of [0, 1, 2] as const)
      if (k !== bar.axis) {
        min[k] = part.size[k] / 2 - bar.radius;
        max[k] = part.size[k] / 2 + bar.radius;
      }
  return { min: min as unknown as Vec, max: max as unknown as Vec };
}

function barOf(part: Part): { axis: 0 | 1 | 2; radius: number } | undefined {
  const { stock, body } = part;
  const diameter = stock.diameter?.mm ?? (!stock.written && body?.form === 'round' ? body.diameter.mm : undefined);
  if (diameter === undefined || (stock.written && stock.form !== 'round-bar' && stock.form !== 'tube'))
    return undefined;
  return { axis: AXIS[stock.axis ?? (body?.form === 'round' ? body.axis : 'z')], radius: diameter / 2 };
}

function makeGrid(
  part: Part,
  stock: { min: Vec; max: Vec },
  taken: readonly Taken[],
  stops: readonly (Stop | undefined)[],
  fine: number,
): Grid {
  const wanted = [0, 1, 2].map((): Wanted => ({ planes: new Set(), middles: new Set(), fine: [] })) as [
    Wanted,
    Wanted,
    Wanted,
  ];
  for (const k of [0, 1, 2] as const)
    for (const p of [0, part.size[k]!, stock.min[k]!, stock.max[k]!]) wanted[k].planes.add(clean(p));
  for (const [k, at] of wallPlanes(part, stock)) wanted[k].planes.add(clean(at));
  for (const s of stops) if (s) wanted[s.axis].planes.add(clean(s.at));
  for (const bar of [barOf(part), part.body?.form === 'round' ? { axis: AXIS[part.body.axis] } : undefined])
    if (bar)
      for (const k of [0, 1, 2] as const)
        if (k !== bar.axis) wanted[k].fine.push({ from: stock.min[k], to: stock.max[k], step: 2 * fine });
  for (const t of taken) {
    const { frame, outline, from, to, sloped, most } = t;
    const along = [frame.u, frame.v, frame.w].map((d) => [0, 1, 2].find((k) => Math.abs(d[k]!) > 1 - 1e-9));
    if (along.some((k) => k === undefined)) {
      const box = boxOf(t, stock);
      for (const k of [0, 1, 2] as const) wanted[k].fine.push({ from: box.min[k]!, to: box.max[k]!, step: fine });
      continue;
    }
    const [u, v, w] = along as [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2];
    const at = (d: Vec, k: 0 | 1 | 2, x: number) => clean(frame.origin[k] + x * d[k]);
    for (const x of [from, to]) if (Math.abs(x) < 900) wanted[w].planes.add(at(frame.w, w, x));
    for (const x of outline.us) if (Math.abs(x) < 900) wanted[u].planes.add(at(frame.u, u, x));
    for (const x of outline.vs) if (Math.abs(x) < 900) wanted[v].planes.add(at(frame.v, v, x));
    for (const [cu, cv] of outline.centres) {
      wanted[u].middles.add(at(frame.u, u, cu));
      wanted[v].middles.add(at(frame.v, v, cv));
    }
    const span = (d: Vec, k: 0 | 1 | 2, a: number, b: number, step: number) => {
      const [p, q] = [frame.origin[k] + a * d[k], frame.origin[k] + b * d[k]];
      wanted[k].fine.push({ from: Math.min(p, q) - fine, to: Math.max(p, q) + fine, step });
    };
    const thin = sloped ? Math.max(0.1, Math.min(fine, (to - from) / 5)) : fine;
    const near = (x: number) => Math.max(-900, Math.min(900, x));
    if (t.open) {
      const step = Math.max(0.1, Math.min(fine, most > 0 ? most / 4 : fine));
      if (t.what === 'edge') {
        for (const x of outline.us) if (Math.abs(x) < 900) span(frame.u, u, x - most, x + most, step);
        for (const x of outline.vs) if (Math.abs(x) < 900) span(frame.v, v, x - most, x + most, step);
        if (outline.slanted) {
          span(frame.u, u, -900, 900, fine);
          span(frame.v, v, -900, 900, fine);
        }
        span(frame.w, w, from, to, Math.max(0.1, thin));
      } else {
        span(frame.u, u, 0, outline.us[1]!, fine);
        span(frame.v, v, 0, outline.vs[1]!, fine);
      }
      continue;
    }
    span(frame.u, u, near(outline.box[0] - most), near(outline.box[2] + most), fine);
    span(frame.v, v, near(outline.box[1] - most), near(outline.box[3] + most), fine);
    if (sloped) span(frame.w, w, Math.max(from, to - 40), to, thin);
  }
  const lines = [0, 1, 2].map((k) => {
    const [lo, hi] = [stock.min[k]!, stock.max[k]!];
    const w = wanted[k]!;
    for (const f of w.fine) {
      f.from = Math.max(lo - 1, f.from);
      f.to = Math.min(hi + 1, f.to);
    }
    for (const p of [...w.planes]) if (p < lo - 1e-6 || p > hi + 1e-6) w.planes.delete(p);
    return lineOf(lo - ROOM_MM, hi + ROOM_MM, w, (x) => (x < lo || x > hi ? ROOM_STEP_MM : COARSE_MM));
  }) as unknown as [Line, Line, Line];
  return gridOf(lines, fine);
}

function clean(x: number): number {
  return Math.round(x * 1e6) / 1e6;
}

function fillBlank(g: Grid, into: Uint8Array, min: Vec, max: Vec, round?: { axis: number; radius: number }): void {
  const [x, y, z] = g.lines;
  const c = [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2);
  for (let k = firstAt(z, min[2]); k < g.count[2] && z.mid[k]! < max[2]; k++)
    for (let j = firstAt(y, min[1]); j < g.count[1] && y.mid[j]! < max[1]; j++)
      for (let i = firstAt(x, min[0]); i < g.count[0] && x.mid[i]! < max[0]; i++) {
        if (round) {
          const p = [x.mid[i]! - c[0]!, y.mid[j]! - c[1]!, z.mid[k]! - c[2]!];
          p[round.axis] = 0;
          if (Math.hypot(p[0]!, p[1]!, p[2]!) >= round.radius) continue;
        }
        into[i + j * g.stride[1] + k * g.stride[2]] = 1;
      }
}

/** What of the stock stands outside the body beyond each face. */
function beyondFaces(g: Grid, stock: Uint8Array, body: Uint8Array, part: Part): Map<Face, Int32Array> {
  const found = new Map<Face, number[]>(FACES.map((f) => [f, []]));
  for (let c = 0; c < g.size; c++) {
    if (!stock[c] || body[c]) continue;
    const at = placeOf(g, c);
    for (const face of FACES) {
      const { axis, sign } = FACE_AXIS[face];
      const k = AXIS[axis];
      const x = g.lines[k].mid[at[k]]!;
      if (sign > 0 ? x > part.size[k] : x < 0) found.get(face)!.push(c);
    }
  }
  return new Map([...found].map(([f, cells]) => [f, Int32Array.from(cells)]));
}

function boxOf(t: Taken, stock: { min: Vec; max: Vec }): { min: number[]; max: number[] } {
  const [u0, v0, u1, v1] = t.outline.box;
  const min = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const max = min.map((x) => -x);
  for (const u of [u0 - t.most, u1 + t.most])
    for (const v of [v0 - t.most, v1 + t.most])
      for (const w of [t.from, t.to])
        for (const k of [0, 1, 2] as const) {
          const x = t.frame.origin[k] + u * t.frame.u[k] + v * t.frame.v[k] + w * t.frame.w[k];
          min[k] = Math.min(min[k]!, x);
          max[k] = Math.max(max[k]!, x);
        }
  return { min: min.map((x, k) => Math.max(x, stock.min[k]!)), max: max.map((x, k) => Math.min(x, stock.max[k]!)) };
}

/** Every cell whose middle is in what a feature takes. */
export function eachCell(g: Grid, t: Taken, visit: (cell: number) => unknown): void {
  const box = boxOf(t, {
    min: [g.lines[0].edges[0]!, g.lines[1].edges[0]!, g.lines[2].edges[0]!],
    max: g.lines.map((l) => l.edges[l.edges.length - 1]!) as unknown as Vec,
  });
  const lo = [0, 1, 2].map((k) => firstAt(g.lines[k]!, box.min[k]! - HAIR_MM / 4));
  const hi = [0, 1, 2].map((k) => firstAt(g.lines[k]!, box.max[k]! + HAIR_MM / 4));
  const { origin: o, u, v, w } = t.frame;
  const [X, Y, Z] = g.lines;
  let [ku, kv, ks] = [Number.NaN, Number.NaN, 0];
  // The depth runs innermost, so that the distance to the outline is asked once for each column.
  const wk = ([0, 1, 2] as const).reduce((best, k) => (Math.abs(w[k]) > Math.abs(w[best]) ? k : best), 0 as 0 | 1 | 2);
  const [a, b] = [0, 1, 2].filter((k) => k !== wk) as [number, number];
  const n = [0, 0, 0];
  for (n[a] = lo[a]!; n[a]! < hi[a]!; n[a]!++)
    for (n[b] = lo[b]!; n[b]! < hi[b]!; n[b]!++)
      for (n[wk] = lo[wk]!; n[wk]! < hi[wk]!; n[wk]!++) {
        const [dx, dy, dz] = [X.mid[n[0]!]! - o[0], Y.mid[n[1]!]! - o[1], Z.mid[n[2]!]! - o[2]];
        const d = dx * w[0] + dy * w[1] + dz * w[2];
        if (d < t.from || d > t.to) continue;
        const pu = dx * u[0] + dy * u[1] + dz * u[2];
        const pv = dx * v[0] + dy * v[1] + dz * v[2];
        if (pu !== ku || pv !== kv) {
          [ku, kv] = [pu, pv];
          ks = t.outline.sd(pu, pv);
        }
        if (ks < t.grow(d)) visit(n[0]! + n[1]! * g.stride[1] + n[2]! * g.stride[2]);
      }
}
