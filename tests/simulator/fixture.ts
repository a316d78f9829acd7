/**
 * What holds the work in a vise, to size: jaws at the workpiece's farthest surfaces between them, parallels under it, the bed
 * of the vise below, a stop. Sizes that the shop does not give (a jaw 40 mm thick, parallels 3.2 mm thick, a stop 10 mm
 * square) are common ones, no source. Jaws milled to the work touch it wherever it is, and it lies on a ledge in them.
 */
import { FACE_AXIS, type Face, type Part, type Setup } from '../../server/src/model/model';
import type { Shop, Vise } from '../../server/src/model/shop-model';
import { axisOf } from './frame';
import { laidDown } from './laid-down';
import { type Second, secondOf } from './pair';
import { againstPlate, blocksUnder } from './stood';
import type { View } from './view';

export type Met = 'jaw' | 'parallel' | 'stop' | 'bed' | 'clamp' | 'screw' | 'piece';
export interface Block {
  readonly what: Met;
  /** Not hardened: a cutter may pass as near as it likes. */
  readonly soft?: boolean;
  readonly a: readonly [number, number];
  readonly b: readonly [number, number];
  readonly h: readonly [number, number];
}
/** The two surfaces that the jaws press on. */
interface Grip {
  /** Whether the jaws close along the view's first axis. */
  readonly onA: boolean;
  /** Cells just inside the two planes, and the span and the heights of the jaws. */
  readonly cells: readonly [number, number];
  readonly spans: readonly (readonly [number, number])[];
  readonly heights: readonly [number, number];
}
export interface Held {
  readonly blocks: readonly Block[];
  readonly grip?: Grip;
  /** Of two pieces in the vise, where the second lies. */
  readonly second?: Second;
  /** Where clamps press: cells of the view's sheet. */
  readonly pressed?: readonly number[];
  /**
   * What a vise cannot do: `opening`; `grip`, nothing between the jaws; `seat`, no such parallels; `bare`, a jaw touches
   * nothing; `apart`, what the two touch is not across from one another. `clamp`: it presses on nothing; `screw`: its hole is
   * not there yet.
   */
  readonly faults: readonly string[];
}
/** Where the jaws stand along the work: in its middle, drawn back so that an end stands out, so much of the part too, or just there. */
export type Slide =
  | 'middle'
  | { readonly out: 'low' | 'high'; readonly mm: number }
  | { readonly at: readonly [number, number] };
/** How the work is put in: where the jaws stand, and how far the parallels are moved in from the fixed and the moving one, mm. */
interface Lying {
  readonly slide: Slide;
  readonly inward?: readonly [fixed: number, moving: number];
}

const [JAW_MM, PARALLEL_MM, STOP_MM, OUT_MM] = [40, 3.2, 10, 3];
/** Pushed out of the jaws, so much of the work stays between them. Common practice, no source. */
const STAYS_SHARE = 0.5;
/** A pair within this of the height wanted will do. */
const SAME_MM = 0.5;

export function heldBy(v: View, setup: Setup, shop: Shop, part: Part, { slide, inward }: Lying): Held {
  const { size } = part;
  const lowest = lowestOf(v);
  const { hold } = setup;
  const bed = (at: number): Block => ({ what: 'bed', a: [-1e5, 1e5], b: [-1e5, 1e5], h: [-1e5, at] });
  const soft = hold?.type === 'soft-jaws';
  // Held at an angle the vise leans with the work.
  const inVise = hold?.type === 'vise' || (hold?.type === 'angle' && hold.grip !== undefined);
  if ((!inVise && !soft) || !hold?.jaws?.[1]) {
    if (hold?.type === 'angle-plate') return againstPlate(v, hold, shop);
    const down = hold ? laidDown(v, hold, part) : { blocks: [], faults: [] };
    const under = hold?.type === 'v-block' ? blocksUnder(v, hold, shop, part) : [];
    return { ...down, blocks: [bed(lowest - 25), ...under, ...down.blocks] };
  }
  const vise = shop.vises.find((x) => x.name === hold.vise?.name) ?? shop.vises[0];
  if (!vise) return { blocks: [], faults: [] };
  const [fixed, moving] = [hold.jaws[0]!.name, hold.jaws[1].name];
  const { seat, grip, faults } = seatOf(hold, vise, shop);
  const jawAxis = axisOf(fixed);
  const onA = v.axes[0] === jawAxis;
  const band = extents(v, lowest, lowest + grip);
  if (!band) return { blocks: [bed(lowest - seat)], faults: [...faults, 'grip'] };
  const [across, along] = onA ? [band.a, band.b] : [band.b, band.a];
  if (across[1] - across[0] > vise.opensMm + 1e-6) faults.push('opening');
  const longAxis = v.axes[onA ? 1 : 0]!;
  const half = vise.jawWidthMm / 2;
  const by = secondOf(setup, longAxis, along[1] - along[0]);
  // From the first end of both pieces to the last.
  const both = [along[0] + Math.min(0, by ?? 0), along[1] + Math.max(0, by ?? 0)] as const;
  const middle = (both[0] + both[1]) / 2;
  let span: [number, number] = [middle - half, middle + half];
  if (typeof slide === 'object' && 'at' in slide) span = [...slide.at];
  else if (slide !== 'middle') {
    const [first, last] = [Math.min(0, by ?? 0), size[longAxis]! + Math.max(0, by ?? 0)];
    const edge = slide.out === 'low' ? first + slide.mm + OUT_MM : last - slide.mm - OUT_MM;
    span = slide.out === 'low' ? [edge, edge + 2 * half] : [edge - 2 * half, edge];
  }
  if (hold.overhang) {
    const { face, by: out } = hold.overhang;
    const high = FACE_AXIS[face].sign > 0;
    const edge = high ? both[1] - out.mm : both[0] + out.mm;
    span = high ? [edge - 2 * half, edge] : [edge, edge + 2 * half];
  }
  // Two alike in line, as far to either side of where the one would be.
  const spans = hold.apart
    ? [-1, 1].map((side): [number, number] => [
        (span[0] + span[1]) / 2 + (side * hold.apart!.mm) / 2 - half,
        (span[0] + span[1]) / 2 + (side * hold.apart!.mm) / 2 + half,
      ])
    : [span];
  if (hold.apart) span = [spans[0]![0], spans[1]![1]];
  const between = Math.min(span[1], along[1]) - Math.max(span[0], along[0]);
  // Besides what keeps clear of the cut; an end that is milled stands out as far as it must.
  const pushed = typeof slide === 'object' && 'out' in slide && slide.mm > 0;
  if (pushed && between + OUT_MM < STAYS_SHARE * Math.min(2 * half, along[1] - along[0]) - 1e-6) faults.push('grip');
  if (by !== undefined) {
    const ofSecond = Math.min(span[1], along[1] + by) - Math.max(span[0], along[0] + by);
    if (Math.min(between, ofSecond) < STAYS_SHARE * (along[1] - along[0]) - 1e-6) faults.push('grip');
  }
  const place = (
    what: Met,
    x: readonly [number, number],
    y: readonly [number, number],
    h: readonly [number, number],
  ): Block => (onA ? { what, a: x, b: y, h } : { what, a: y, b: x, h });
  const at = (f: Face) => across[FACE_AXIS[f].sign > 0 ? 1 : 0];
  const outward = (f: Face, by: number): [number, number] => {
    const p = at(f);
    const q = p + FACE_AXIS[f].sign * by;
    return [Math.min(p, q), Math.max(p, q)];
  };
  const parallelAt = (f: Face): [number, number] => {
    const from = -(inward?.[f === fixed ? 0 : 1] ?? 0);
    const to = from - Math.min(PARALLEL_MM, (across[1] - across[0]) / 2);
    const ends = [from, to].map((by) => at(f) + FACE_AXIS[f].sign * by);
    return [Math.min(...ends), Math.max(...ends)];
  };
  const blocks: Block[] = [
    place('bed', [across[0] - JAW_MM, across[1] + JAW_MM], span, [lowest - seat - 50, lowest - seat]),
  ];
  for (const f of [fixed, moving]) {
    for (const one of spans)
      blocks.push({ ...place('jaw', outward(f, JAW_MM), one, [lowest - seat, lowest + grip]), soft });
    if (seat > 0 && !soft) blocks.push(place('parallel', parallelAt(f), span, [lowest - seat, lowest]));
  }
  const stop = hold.stop?.name;
  if (stop && stop in FACE_AXIS && axisOf(stop as Face) === longAxis) {
    const sign = FACE_AXIS[stop as Face].sign;
    const p = along[sign > 0 ? 1 : 0];
    const y: [number, number] = sign > 0 ? [p, p + STOP_MM] : [p - STOP_MM, p];
    blocks.push(place('stop', outward(fixed, -STOP_MM), y, [lowest, lowest + grip]));
  }
  const held: Grip = {
    onA,
    cells: onA ? [band.cells[0], band.cells[1]] : [band.cells[2], band.cells[3]],
    spans,
    heights: [lowest, lowest + grip],
  };
  const { first, second, opposed } = contactOf(v, held);
  if (by !== undefined)
    blocks.push(...blocks.map((b) => (onA ? { ...b, b: shifted(b.b, -by) } : { ...b, a: shifted(b.a, -by) })));
  if (soft) return { blocks, faults: faults.filter((f) => f !== 'seat') };
  if (first < NOTHING_MM2 || second < NOTHING_MM2) faults.push('bare');
  else if (opposed < NOTHING_MM2) faults.push('apart');
  return { blocks, grip: held, faults, ...(by !== undefined && { second: { onA: !onA, by } }) };
}

/** Round the second piece it stands that much nearer to where the first lies. */
function shifted([p, q]: readonly [number, number], by: number): readonly [number, number] {
  return [p + by, q + by];
}

/** Less than this is no surface, mm². */
const NOTHING_MM2 = 0.5;

/** How much of the work the jaws touch, mm²: each, and where both do across from one another. */
export function contactOf(v: View, g: Grip): { first: number; second: number; opposed: number } {
  let [first, second, opposed] = [0, 0, 0];
  const edges = g.onA ? v.edgeB : v.edgeA;
  const mids = g.onA ? v.sheet.b : v.sheet.a;
  for (let k = 0; k < v.layers; k++) {
    if (v.mid[k]! < g.heights[0] || v.mid[k]! > g.heights[1]) continue;
    for (let n = 0; n < mids.length; n++) {
      if (!g.spans.some(([from, to]) => mids[n]! >= from && mids[n]! <= to)) continue;
      const area = (edges[n + 1]! - edges[n]!) * (v.top[k]! - v.bottom[k]!);
      const is = (at: number) => v.work[k * v.na * v.nb + (g.onA ? at + n * v.na : n + at * v.na)] === 1;
      const [p, q] = [is(g.cells[0]), is(g.cells[1])];
      if (p) first += area;
      if (q) second += area;
      if (p && q) opposed += area;
    }
  }
  return { first, second, opposed };
}

function seatOf(
  hold: NonNullable<Setup['hold']>,
  vise: Vise,
  shop: Shop,
): { seat: number; grip: number; faults: string[] } {
  const faults: string[] = [];
  const [written, grip] = [hold.parallels?.mm, hold.grip?.mm];
  if (grip === undefined) {
    const seat = written ?? Math.max(0, ...shop.parallelsMm.filter((p) => p < vise.jawHeightMm - 3));
    return { seat, grip: vise.jawHeightMm - seat, faults };
  }
  const wanted = vise.jawHeightMm - grip;
  if (written !== undefined) {
    if (Math.abs(written - wanted) > SAME_MM) faults.push('seat');
    return { seat: written, grip, faults };
  }
  const near = [0, ...shop.parallelsMm].reduce(
    (best, p) => (Math.abs(p - wanted) < Math.abs(best - wanted) ? p : best),
    0,
  );
  if (Math.abs(near - wanted) > SAME_MM) faults.push('seat');
  return { seat: near, grip, faults };
}

export function lowestOf(v: View): number {
  const n = v.na * v.nb;
  for (let k = v.layers - 1; k >= 0; k--) for (let c = k * n; c < (k + 1) * n; c++) if (v.work[c]) return v.bottom[k]!;
  return 0;
}

/** How far the workpiece reaches across the spindle between two heights. */
function extents(
  v: View,
  low: number,
  high: number,
): { a: [number, number]; b: [number, number]; cells: [number, number, number, number] } | undefined {
  let [ia0, ia1, ib0, ib1] = [v.na, -1, v.nb, -1];
  for (let k = 0; k < v.layers; k++) {
    if (v.mid[k]! < low || v.mid[k]! > high) continue;
    for (let j = 0; j < v.nb; j++)
      for (let i = 0; i < v.na; i++)
        if (v.work[i + j * v.na + k * v.na * v.nb]) {
          if (i < ia0) ia0 = i;
          if (i > ia1) ia1 = i;
          if (j < ib0) ib0 = j;
          if (j > ib1) ib1 = j;
        }
  }
  if (ia1 < 0) return undefined;
  return { a: [v.edgeA[ia0]!, v.edgeA[ia1 + 1]!], b: [v.edgeB[ib0]!, v.edgeB[ib1 + 1]!], cells: [ia0, ia1, ib0, ib1] };
}
