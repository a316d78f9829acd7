/**
 * Carries out every set-up of a part on a field of cells and shows whether the part comes out right. Shares no code with
 * the geometry, the reaching or the rules: it reads the resolved text and the shop, and has its own shapes.
 *
 * Resolution: see `grid.ts`. Planes along the axes are exact to 0.01 mm. Round and slanted walls are sampled every 0.25 mm
 * (more where the part is large: `fine`); what is left or cut away there counts when it lies deeper than three quarters of
 * that. A cutter a quarter of a millimetre too large for a rounded corner is therefore not seen; one half a millimetre is.
 *
 * It does not step a slanted face layer by layer with an end mill: only a cutter of the face's angle makes it.
 *
 * What presses: it sees that jaws touch work, each of them and across from one another, and that no cut takes that away.
 * Of walls that they press together it can say nothing exact: how far those give is statics, which
 * `tests/process/workholding` holds against closed forms and published cases.
 *
 * It does not see: engraved letters; holes made on a drill press; threads (a hole is as large as its tap drill; the tap's reach is looked at, and the way
 * of a thread mill, `thread.ts`); how
 * hard anything is pushed, what bends, rattles or slips; the way of the tool between cuts; the room
 * under the spindle; finish and tolerances; a round of a path's corner that lies beside an arc.
 */
import { FACE_AXIS, type Face, type Part } from '../../server/src/model/model';
import type { Shop } from '../../server/src/model/shop-model';
import { type Chosen, type CutResult, makeCut, type Site } from './cut';
import { depthAt, type Patch, patchOf } from './depth';
import { eachCell, type Field, fieldOf } from './field';
import { contactOf, heldBy, type Slide } from './fixture';
import { axisOf, type Taken } from './frame';
import { barEnd, isFrameEaten, sawOff } from './freed';
import { cellVolume } from './grid';
import { stillPressed, topOf } from './laid-down';
import { leanOf } from './lean';
import type { Limit } from './mill';
import { othersOf } from './pair';
import type { Stop } from './stops';
import { thickness, type View, viewOf, workOf } from './view';

/** So much of what a jaw presses on may go with a corner, mm². */
const TAKEN_MM2 = 1;
/** A feature or face of which more than this share still stands was not cut, however thin it is. */
const UNCUT = 0.25;

interface CutReport {
  readonly cut: string;
  readonly tools: readonly string[];
  readonly removedMm3: number;
  /** What kept tools from reaching; `grip`: it cuts away what the jaws press on; `frame`: what the tabs lead to. */
  readonly met: readonly (Limit | 'grip' | 'frame')[];
  /** What of its own is still there after it, mm³: another set-up may take it. */
  readonly leftMm3: number;
}
/** `still`: its own cells that are there after it. */
type Done = CutReport & { readonly still: Int32Array };
interface SetupReport {
  readonly setup: string;
  readonly faults: readonly string[];
  readonly cuts: readonly CutReport[];
}
export interface Report {
  readonly setups: readonly SetupReport[];
  /** Should be gone. */
  readonly excess: Patch & { readonly of: readonly string[] };
  /** Should be there. */
  readonly gouged: Patch;
  readonly toleranceMm: number;
  readonly cells: number;
  /** Comes out right, and nothing was in the way. */
  readonly right: boolean;
}
interface Options {
  readonly fineMm?: number;
  /** So far every tool keeps from jaws, stop, clamps and screws where no work lies between, mm: none, where it may graze them. */
  readonly marginMm?: number;
  /** The work lies where the format says that it lies, and is not pushed about between the jaws until all is clear of them. */
  readonly asWritten?: boolean;
  readonly tools?: readonly Chosen[];
  /** Of set-ups by name: how far the parallels are moved in from the fixed and the moving jaw, mm. */
  readonly inward?: ReadonlyMap<string, readonly [number, number]>;
}

export function simulate(part: Part, shop: Shop, options: Options = {}): Report {
  const field = fieldOf(part, options.fineMm);
  const toleranceMm = 0.02 + 0.75 * field.grid.fine;
  const margin = options.marginMm ?? 0;
  let work: Uint8Array = field.stock.slice();
  const setups: (Omit<SetupReport, 'cuts'> & { readonly cuts: readonly Done[] })[] = [];
  for (const [index, setup] of (part.setups ?? []).entries()) {
    if (!setup.up) continue;
    const lean = leanOf(setup, part);
    const inward = options.inward?.get(setup.name);
    let best: { report: (typeof setups)[number]; work: Uint8Array; bad: number } | undefined;
    for (const slide of slides(
      setup.cuts.map((c) => c.name),
      setup.hold?.jaws?.[0]?.name,
      setup.up.name,
      options.asWritten,
    )) {
      const view = viewOf(field, work, setup.up.name);
      const held = heldBy(view, setup, shop, part, inward ? { slide, inward } : { slide });
      const site: Site = {
        part,
        shop,
        field,
        view,
        blocks: held.blocks,
        margin,
        ...measures(view, field, toleranceMm),
        ...keptOf(view, part, index),
        ...(lean && { lean }),
      };
      const cuts = setup.cuts.map(({ name }, order): Done => {
        const named = setup.tools.filter((t) => t.of.name === name).map((t) => t.tool.name);
        const chosen = options.tools?.find((t) => t.cut === name)?.tools ?? (named.length > 0 ? named : undefined);
        const before = held.grip && contactOf(view, held.grip);
        const tops = held.pressed?.map((c) => topOf(view, c));
        const eaten = isFrameEaten(view, name, setup, part, shop, field.takenOf.get(name) ?? []);
        const stop = stopNow(field.stops[index]?.[order], view, part);
        const others =
          held.second && name !== setup.up?.name ? othersOf(view, held.second, standing(site, name, stop)) : [];
        const done: CutResult = makeCut({ ...site, blocks: [...held.blocks, ...others] }, name, chosen, stop);
        if (done.left.length === 0) outTo(site, name);
        const after = held.grip && contactOf(view, held.grip);
        const undone =
          (before && after && Math.max(before.first - after.first, before.second - after.second) > TAKEN_MM2) ||
          (tops && !stillPressed(view, held.pressed!, tops));
        const own = field.cellsOf.get(name) ?? new Int32Array();
        return {
          cut: name,
          tools: done.tools,
          still: own.filter((c) => view.work[view.local(c)]),
          removedMm3: site.volume(done.removed),
          met: [...done.met, ...(undone ? (['grip'] as const) : []), ...(eaten ? (['frame'] as const) : [])],
          leftMm3: site.volume(done.left),
        };
      });
      // Pushed out so far that nothing is between the jaws is no way to lay it.
      const bad = held.faults.length + cuts.reduce((n, c) => n + c.met.length, 0);
      if (!best || bad < best.bad)
        best = { report: { setup: setup.name, faults: held.faults, cuts }, work: workOf(field, view), bad };
      if (bad === 0) break;
    }
    if (best) {
      work = best.work;
      const faults = [...best.report.faults, ...sawOff(field, work, setup, part)];
      setups.push({ ...best.report, faults });
    }
  }
  fileEdges(field, part, work);
  // Drilled on a press afterwards: how is not looked at here.
  for (const f of part.features)
    if (f.kind === 'hole' && f.madeOn && f.madeOn.name !== 'bench')
      for (const c of field.cellsOf.get(f.name) ?? []) work[c] = 0;
  const { of } = judged(field, work, setups, toleranceMm).excess;
  const told = setups.map((s) => ({
    ...s,
    cuts: s.cuts.map((c) => (of.includes(c.cut) ? c : inTheEnd(c, part, work))),
  }));
  return judged(field, work, told, toleranceMm);
}

/** What kept a tool from what another cut takes away later (a floor that a step opens) is no matter where nothing of it is seen in the end. */
function inTheEnd({ still, ...cut }: Done, part: Part, work: Uint8Array): CutReport {
  const feature = part.featureByName.get(cut.cut);
  if (still.every((c) => work[c]) || (feature && 'thread' in feature && feature.thread)) return cut;
  return { ...cut, met: cut.met.filter((m) => m === 'grip' || m === 'frame') };
}

/** From beside a cutter goes on into the air: what stands before the face over the cut goes with it. */
function outTo({ field, view, part, kept }: Site, name: string): void {
  const feature = part.featureByName.get(name);
  if (feature?.kind !== 'step' || axisOf(feature.face) === view.axes[2]) return;
  for (const t of field.takenOf.get(name) ?? [])
    if (t.what === 'floor' && !t.sloped && t.from <= 0)
      eachCell(field.grid, { ...t, from: t.from - BEFORE_MM, to: t.from }, (cell) => {
        const c = view.local(cell);
        if (!field.body[cell] && !kept?.(c)) view.work[c] = 0;
      });
}
/** More than a bar stands out before any face, mm. */
const BEFORE_MM = 60;

/** Of the second of two pieces: what there is of the first, without what this very cut takes. */
function standing({ field, view }: Site, name: string, stop: number | undefined): (cell: number) => boolean {
  const floor = stop === undefined ? Number.NEGATIVE_INFINITY : stop * view.sign;
  const work = view.work.slice();
  for (const cell of field.cellsOf.get(name) ?? []) {
    const c = view.local(cell);
    if (view.mid[Math.floor(c / (view.na * view.nb))]! > floor) work[c] = 0;
  }
  return (c) => work[c] === 1;
}

/** Broken with a file where no set-up that cuts them sees them, as the format says; wider ones are cut or left. */
const BY_HAND_MM = 1;

function fileEdges(field: Field, part: Part, work: Uint8Array): void {
  for (const feature of part.features) {
    const mm = feature.kind === 'chamfer' ? feature.size.mm : feature.kind === 'edge-round' ? feature.radius.mm : 9;
    if (mm > BY_HAND_MM) continue;
    const ups = (part.setups ?? []).flatMap((s) =>
      s.cuts.some((c) => c.name === feature.name) ? (s.up?.name ?? []) : [],
    );
    const left = (field.takenOf.get(feature.name) ?? []).filter((t) => !ups.some((up) => sees(up, t)));
    for (const t of left)
      eachCell(field.grid, t, (c) => {
        if (!field.finished[c]) work[c] = 0;
      });
  }
}

function sees(up: Face, { frame, what }: Taken): boolean {
  if (what !== 'edge') return frame.w[axisOf(up)] * FACE_AXIS[up].sign < -0.5;
  const { sign } = FACE_AXIS[up];
  const [u, v, w] = [frame.u, frame.v, frame.w].map((d) => d[axisOf(up)]! * sign) as [number, number, number];
  return u < -0.5 || v < -0.5 || Math.abs(w) > 0.99;
}

/** Beyond what runs out into a bar that the part is sawn off. */
function keptOf(view: View, part: Part, from: number): Pick<Site, 'kept'> {
  const end = barEnd(part, from);
  if (!end) return {};
  const k = view.axes.indexOf(axisOf(end.face));
  const { sign } = FACE_AXIS[end.face];
  const n = view.na * view.nb;
  const at = (c: number) =>
    k === 0
      ? view.sheet.a[c % view.na]!
      : k === 1
        ? view.sheet.b[Math.floor(c / view.na) % view.nb]!
        : view.mid[Math.floor(c / n)]! * view.sign;
  return { kept: (c) => (at(c) - end.at) * sign > 0 };
}

/** Where the cut stops, seen as the work is now: what is not held from below is cut right through. */
function stopNow(stop: Stop | undefined, view: View, part: Part): number | undefined {
  if (!stop?.held) return stop?.at;
  const [a, b, c] = view.axes;
  const n = view.na * view.nb;
  const inside = (x: number, k: 0 | 1 | 2) => x > 0 && x < part.size[k];
  for (let k = 0; k < view.layers; k++) {
    const at = view.mid[k]! * view.sign;
    if (view.sign > 0 ? at > 0 : at < part.size[c]) continue;
    for (let i = 0; i < n; i++)
      if (
        view.work[k * n + i] &&
        inside(view.sheet.a[i % view.na]!, a) &&
        inside(view.sheet.b[Math.floor(i / view.na)]!, b)
      )
        return stop.at;
  }
  return undefined;
}

/** With a stop or without, the work is laid so that an end that is cut stands out of the jaws where only one is. */
function slides(
  cuts: readonly string[],
  jaw: string | undefined,
  up: string,
  asWritten: boolean | undefined,
): readonly Slide[] {
  const across = (f: string | undefined) =>
    f === 'left' || f === 'right' ? 'x' : f === 'front' || f === 'back' ? 'y' : 'z';
  const along = ['x', 'y', 'z'].find((a) => a !== across(jaw) && a !== across(up));
  const [low, high] = { x: ['left', 'right'], y: ['front', 'back'], z: ['bottom', 'top'] }[along as 'x'] as [
    string,
    string,
  ];
  const [l, h] = [cuts.includes(low), cuts.includes(high)];
  const out = (end: 'low' | 'high', ...by: number[]): Slide[] => by.map((mm) => ({ out: end, mm }));
  // A corner or a step at one end is cut clear of the jaws too: by how much is tried.
  if (l && !h) return [...out('low', 0), 'middle', ...out('low', ...FURTHER_MM)];
  if (h && !l) return [...out('high', 0), 'middle', ...out('high', ...FURTHER_MM)];
  if (asWritten) return ['middle'];
  return ['middle', ...out('low', 0), ...out('high', 0), ...out('low', ...FURTHER_MM), ...out('high', ...FURTHER_MM)];
}

const FURTHER_MM = [4, 8, 12, 16, 24];

function measures(view: View, field: Field, toleranceMm: number): Pick<Site, 'done' | 'volume'> {
  const n = view.na * view.nb;
  const { edgeA, edgeB } = view;
  const volume = (cells: readonly number[]) => {
    let sum = 0;
    for (const c of cells) {
      const i = c % view.na;
      const j = Math.floor(c / view.na) % view.nb;
      sum += (edgeA[i + 1]! - edgeA[i]!) * (edgeB[j + 1]! - edgeB[j]!) * thickness(view, Math.floor(c / n));
    }
    return sum;
  };
  const own = {
    ...field.grid,
    lines: [lineAt(view.sheet.a), lineAt(view.sheet.b), lineAt(view.mid.map((m) => -m))] as const,
    count: [view.na, view.nb, view.layers] as const,
    stride: [1, view.na, n] as const,
  };
  const still = new Uint8Array(view.work.length);
  const done = (cells: readonly number[]) => {
    for (const c of cells) still[c] = 1;
    const marked = (c: number) => still[c] === 1 || view.finished[c] === 1;
    const all = cells.every((c) => depthAt(own, marked, c, toleranceMm) !== undefined);
    for (const c of cells) still[c] = 0;
    return all;
  };
  return { volume, done };
}
function lineAt(mid: Float64Array) {
  return { mid, edges: mid };
}

export function judged(field: Field, work: Uint8Array, setups: readonly SetupReport[], toleranceMm: number): Report {
  const { grid, finished } = field;
  const excess: number[] = [];
  const gouged: number[] = [];
  for (let c = 0; c < grid.size; c++) {
    if (work[c] && !finished[c] && !field.either[c]) excess.push(c);
    if (!work[c] && finished[c]) gouged.push(c);
  }
  const volume = (c: number) => cellVolume(grid, c);
  const stands = (c: number) => work[c] === 1;
  let left = patchOf(grid, excess, stands, toleranceMm, volume);
  const lost = patchOf(grid, gouged, (c) => finished[c] === 1 && !work[c], toleranceMm, volume);
  const of: string[] = [];
  for (const [name, cells] of field.cellsOf) {
    let [sum, still] = [0, 0];
    const own: number[] = [];
    for (const c of cells) {
      sum += volume(c);
      if (!work[c]) continue;
      still += volume(c);
      own.push(c);
    }
    // What is thinner than the field can measure is seen by how much of it is there.
    const uncut = still > UNCUT * sum && sum > 0;
    if (uncut && left.volumeMm3 < still) left = patchOf(grid, own, stands, 0, volume);
    if (uncut || (left.volumeMm3 > 0 && own.some((c) => depthAt(grid, stands, c, toleranceMm) === undefined)))
      of.push(name);
  }
  const met = setups.some((s) => s.faults.length > 0 || s.cuts.some((c) => c.met.length > 0));
  return {
    setups,
    excess: { ...left, of },
    gouged: lost,
    toleranceMm,
    cells: grid.size,
    right: left.volumeMm3 === 0 && lost.volumeMm3 === 0 && !met,
  };
}
