/**
 * Where the axis of a cutter may be while it makes a volume, seen from above: all that is its own radius, and what is left
 * for later, off everything that stays and off what holds the work. Sections of the work as it is after the cut, from the
 * tip up, each moved in by how thick the tool is there.
 */
import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { distanceTo, lengthOf, pointAt } from '../../geometry/2d/edge';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { isInside } from '../../geometry/2d/inside';
import { loopArea, regionEdges, regionMoments } from '../../geometry/2d/moments';
import { insetRegion } from '../../geometry/2d/offset';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Box, Edge, Point2, Region, Vec3, Void } from '../../geometry/types';
import { type AxisIndex, boxesNear } from '../../geometry/vector';
import { ROUNDING, SAME } from '../../tolerance';
import { crossOf } from '../stock';
import { boxWithin } from '../stock/band';
import type { Workpiece } from '../stock/types';
import type { Obstacle } from '../workholding/seating';
import type { ReadOut } from './types';

/** A cutter from its tip up: so thick from one height above it to the next, mm, or to one of its own; the last goes on up. */
export interface Stage {
  readonly fromMm: number;
  readonly toMm?: number;
  readonly radiusMm: number;
}

export interface Around {
  readonly readOut: ReadOut;
  /** The work as it is when the cut begins, and when it is done. */
  readonly before: Workpiece;
  readonly after: Workpiece;
  readonly obstacles: readonly Obstacle[];
}

export interface Cutting {
  readonly stages: readonly Stage[];
  readonly tipZ: number;
  readonly leaveMm: number;
  /** Walls all round: the axis stays within the volume. */
  readonly closed: boolean;
}

/** The two axes across the spindle, in the order that sections have them. */
export function planeOf({ Z }: ReadOut): readonly [AxisIndex, AxisIndex] {
  return [((Z.axis + 1) % 3) as AxisIndex, ((Z.axis + 2) % 3) as AxisIndex];
}

/** Clear of the work on the outside by so much more than its own radius, mm. */
const CLEAR_MM = 2;
/** How far the axis may stand nearer where a cutter fills what it makes, mm. */
export const SLACK_MM = 0.02;

/**
 * Areas in the plane of the section (`planeOf`), those that make something of the volume; none where the cutter does not
 * get in. Undefined where outlines cannot be followed.
 */
export function centreAreas(v: Void, cutting: Cutting, around: Around): readonly Region[] | undefined {
  return fromSections(v, cutting, around) ?? fromOutline(v, cutting, around);
}

/** Inside its own outline a cutter meets nothing that stays: where nothing that holds the work stands higher. */
function fromOutline(v: Void, { stages, leaveMm, tipZ }: Cutting, around: Around): readonly Region[] | undefined {
  const [a, b] = planeOf(around.readOut);
  const { Z } = around.readOut;
  const near = around.obstacles.filter((o) => boxesNear(o.box, v.bounds, 0));
  if (standing(Z.zeroMm + Z.sign * tipZ, { ...around, obstacles: near }).length > 0) return undefined;
  return insetRegion(seenFromAbove(v, a, b), Math.max(...stages.map((s) => s.radiusMm)) + leaveMm);
}

function fromSections(v: Void, cutting: Cutting, around: Around): readonly Region[] | undefined {
  const { stages, leaveMm } = cutting;
  const [a, b] = planeOf(around.readOut);
  const widest = Math.max(...stages.map((s) => s.radiusMm));
  const room = 2 * widest + leaveMm + CLEAR_MM;
  const { min, max } = metal(v, around.before);
  const bound: Region = { outer: rectLoop(min[a] - room, min[b] - room, max[a] + room, max[b] + room), holes: [] };
  let areas: readonly Region[] = [];
  for (const [n, stage] of stages.entries()) {
    const free = freeOf(bound, stage, stages[n + 1]?.fromMm, cutting, around);
    const moved = free?.map((region) => insetRegion(region, stage.radiusMm + leaveMm));
    if (!moved || moved.some((m) => m === undefined)) return undefined;
    const own = moved.flatMap((m) => m ?? []);
    const both = n === 0 ? own : shared(areas, own);
    if (!both) return undefined;
    areas = both;
  }
  const outline = seenFromAbove(v, a, b);
  if (cutting.closed) {
    const here: Region = {
      outer: rectLoop(min[a] - HAIR_MM, min[b] - HAIR_MM, max[a] + HAIR_MM, max[b] + HAIR_MM),
      holes: [],
    };
    const inside = shared(areas, [outline]);
    areas = (inside && shared(inside, [here])) ?? areas;
  }
  return areas.filter((r) => comesNear(r, outline, stages[0]!.radiusMm));
}

/** Of the volume's outline, the share that a cutter's full width passes over, seen at a grid of places. */
export function coveredShare(v: Void, areas: readonly Region[], radiusMm: number, { readOut, before }: Around): number {
  const [a, b] = planeOf(readOut);
  const { min, max } = metal(v, before);
  const outline = seenFromAbove(v, a, b);
  const [u0, v0, u1, v1] = [min[a], min[b], max[a], max[b]];
  const around = areas.map((area) => ({ area, edges: regionEdges(area) }));
  let [all, met] = [0, 0];
  for (let i = 0; i < GRID; i++)
    for (let k = 0; k < GRID; k++) {
      const [u, q] = [u0 + ((i + 0.5) * (u1 - u0)) / GRID, v0 + ((k + 0.5) * (v1 - v0)) / GRID];
      if (!isInside(outline, u, q)) continue;
      all += 1;
      if (around.some((x) => isInside(x.area, u, q) || x.edges.some((e) => distanceTo(e, u, q) < radiusMm))) met += 1;
    }
  return all === 0 ? 0 : met / all;
}
export const GRID = 17;

/** The box round what of a volume is metal yet: the volume's own where that cannot be seen. */
export function metal(v: Void, before: Workpiece): Box {
  const box = boxWithin(before, v.bounds);
  return ([0, 1, 2] as const).every((i) => box.max[i] - box.min[i] > SAME) ? box : v.bounds;
}
const HAIR_MM = 0.01;

/** What is air, or goes, all the way up while a stage of the cutter is there. */
function freeOf(
  bound: Region,
  { fromMm, toMm }: Stage,
  nextMm: number | undefined,
  { tipZ }: Cutting,
  around: Around,
): readonly Region[] | undefined {
  const { Z } = around.readOut;
  const at = (z: number) => Z.zeroMm + Z.sign * z;
  const { box } = around.after.body;
  const top = Z.sign > 0 ? box.max[Z.axis] : box.min[Z.axis];
  const end = toMm ?? nextMm;
  const low = at(tipZ + fromMm);
  const high = end === undefined ? top : at(Math.min((top - Z.zeroMm) * Z.sign, tipZ + end));
  const met = (high - low) * Z.sign > SAME ? metBetween(Math.min(low, high), Math.max(low, high), around) : [];
  if (!met) return undefined;
  const others = around.obstacles.flatMap(({ on }) => (on ? met.map((edges) => moved(edges, on, Z.axis)) : []));
  const work = [...met, ...others].map((edges) => sheetOf(edges, true));
  const sheets = [...work, ...standing(low, around)];
  if (sheets.length === 0) return [bound];
  const loops = chainLoops(boundaryOf([sheetOf(regionEdges(bound))], sheets));
  return (loops && regionsOfLoops(loops)) ?? oneByOne(bound, sheets);
}

/** Taken off one after the other: where outlines that lie on each other cannot be followed all at once. */
function oneByOne(bound: Region, sheets: readonly Sheet[]): readonly Region[] | undefined {
  let free: readonly Region[] | undefined = [bound];
  for (const sheet of sheets) {
    if (!free || free.length === 0) return free;
    const own: Sheet = sheetOf(free.flatMap((r) => regionEdges(r)));
    const loops = chainLoops(boundaryOf([own], [sheet]));
    free = loops && regionsOfLoops(loops);
  }
  return free;
}

/** The work as it is afterwards, between two heights of the part: only what no section further down has already. */
function metBetween(
  from: number,
  to: number,
  { readOut: { Z }, after }: Around,
): readonly (readonly Edge[])[] | undefined {
  const { min, max } = after.body.box;
  const [low, high] = [Math.max(from, min[Z.axis]), Math.min(to, max[Z.axis])];
  if (high - low < SAME) return [];
  const stops = plainStopsOf(after.voids, Z.axis, low, high);
  const levels = stops
    .slice(1)
    .flatMap((end, k) => (end - stops[k]! < SAME ? [] : levelsIn(stops[k]!, end, after, Z.axis)))
    .sort((a, b) => (a - b) * Z.sign);
  const open = after.body.form === 'box' || after.body.axis === Z.axis;
  const taken: (readonly Void[])[] = [];
  const sections: (readonly Edge[])[] = [];
  const seen: (readonly Edge[])[] = [];
  for (const at of levels) {
    const here = after.voids.filter((v) => v.bounds.min[Z.axis] < at && v.bounds.max[Z.axis] > at);
    if (open && taken.some((below) => below.every((v) => isUpright(v, Z.axis) && here.includes(v)))) continue;
    taken.push(here);
    const { regions } = crossOf(after, Z.axis, at);
    if (!regions) return undefined;
    const edges = regions.flatMap((r) => regionEdges(r));
    if (edges.length === 0 || seen.some((known) => isSame(known, edges))) continue;
    seen.push(edges);
    sections.push(within(regions, (sections.length + 1) * APART_MM));
  }
  return sections;
}

/** Walls that go on from one height to the next would lie on each other, and nobody could follow them: so far apart they are, mm. */
const APART_MM = 2e-4;

/** Another piece has the same cut at the same height. */
function moved(edges: readonly Edge[], on: Vec3, axis: AxisIndex): readonly Edge[] {
  const at = ({ u, v }: Point2): Point2 => ({ u: u + on[(axis + 1) % 3]!, v: v + on[(axis + 2) % 3]! });
  return edges.map((e) => ({ ...e, a: at(e.a), b: at(e.b), ...(e.type === 'arc' && { centre: at(e.centre) }) }));
}

/** Made anew a little smaller: then ends meet that rounding had set apart. */
function within(regions: readonly Region[], byMm: number): readonly Edge[] {
  return regions.flatMap(({ outer, holes }) => {
    const clean = { outer, holes: holes.filter((h) => Math.abs(loopArea(h)) > SPECK_MM2) };
    return (insetRegion(clean, byMm) ?? [clean]).flatMap((x) => regionEdges(x));
  });
}
/** Loops that rounding left over are none, mm². */
const SPECK_MM2 = 1e-4;

function isSame(one: readonly Edge[], other: readonly Edge[]): boolean {
  const near = (p: Point2, q: Point2) => Math.abs(p.u - q.u) < ROUNDING && Math.abs(p.v - q.v) < ROUNDING;
  return (
    one.length === other.length &&
    one.every((e, i) => e.type === other[i]!.type && near(e.a, other[i]!.a) && near(e.b, other[i]!.b))
  );
}

/** Its section is the same at every height that it has: swept along the spindle, or a block. */
function isUpright({ profile, frame, region }: Void, axis: AxisIndex): boolean {
  if (profile.type !== 'straight') return false;
  if (Math.abs(frame.w[axis]) > 1 - ROUNDING) return true;
  const square = [frame.u, frame.v].some((d) => Math.abs(d[axis]) > 1 - ROUNDING);
  const { outer, holes } = region;
  return (
    square &&
    holes.length === 0 &&
    outer.edges.length === 4 &&
    outer.edges.every((e) => e.type === 'line' && (e.a.u === e.b.u || e.a.v === e.b.v))
  );
}

const OFF_WORK_MM = 1.3e-3;

/** What holds the work and stands higher than that. */
function standing(low: number, { readOut, obstacles }: Around): readonly Sheet[] {
  const { Z } = readOut;
  const [a, b] = planeOf(readOut);
  return obstacles
    .filter(({ box: o, on }) => !on && (Z.sign > 0 ? o.max[Z.axis] - low : low - o.min[Z.axis]) > SAME)
    .map(({ box: { min, max } }) => {
      // Jaws lie on the work.
      const by = OFF_WORK_MM;
      return sheetOf(rectLoop(min[a] + by, min[b] + by, max[a] - by, max[b] - by).edges, true);
    });
}

/** Between two heights sections are all alike where sides are upright; else both ends and the middle tell. */
function levelsIn(low: number, high: number, { voids }: Workpiece, axis: AxisIndex): readonly number[] {
  const here = voids.filter((v) => v.bounds.max[axis] > low + SAME && v.bounds.min[axis] < high - SAME);
  const middle = (low + high) / 2;
  if (here.every((v) => isUpright(v, axis))) return [middle];
  const hair = Math.min(HAIR_MM / 4, (high - low) / 8);
  return [low + hair, middle, high - hair];
}

/** What two lists of areas have in common. */
function shared(one: readonly Region[], other: readonly Region[]): readonly Region[] | undefined {
  const sheet = (all: readonly Region[]) => sheetOf(all.flatMap((r) => regionEdges(r)));
  if (one.length === 0 || other.length === 0) return [];
  const loops = chainLoops(boundaryOf([sheet(one), sheet(other)], []));
  return loops && regionsOfLoops(loops);
}

/** The volume's outline across the spindle: its own where it is swept along that, else the box round it. */
export function seenFromAbove(v: Void, a: AxisIndex, b: AxisIndex): Region {
  const { frame, region, bounds } = v;
  const w = 3 - a - b;
  if (Math.abs(frame.w[w as AxisIndex]) < 1 - SAME)
    return { outer: rectLoop(bounds.min[a], bounds.min[b], bounds.max[a], bounds.max[b]), holes: [] };
  const at = (u: number, q: number, k: AxisIndex) => frame.origin[k] + u * frame.u[k] + q * frame.v[k];
  const place = (p: { u: number; v: number }) => ({ u: at(p.u, p.v, a), v: at(p.u, p.v, b) });
  const turns = frame.u[a] * frame.v[b] - frame.u[b] * frame.v[a] > 0;
  const loop = (edges: Region['outer']['edges']) => {
    const moved = edges.map((e) =>
      e.type === 'line'
        ? ({ type: 'line', a: place(e.a), b: place(e.b) } as const)
        : ({ ...e, a: place(e.a), b: place(e.b), centre: place(e.centre), ccw: e.ccw === turns } as const),
    );
    if (turns) return { edges: moved };
    return {
      edges: moved
        .map((e) => (e.type === 'line' ? { ...e, a: e.b, b: e.a } : { ...e, a: e.b, b: e.a, ccw: !e.ccw }))
        .reverse(),
    };
  };
  return { outer: loop(region.outer.edges), holes: region.holes.map((h) => loop(h.edges)) };
}

/** A cutter of this radius with its axis somewhere in the area cuts something of the outline. */
function comesNear(area: Region, outline: Region, radiusMm: number): boolean {
  const own = regionEdges(outline);
  const looks = regionEdges(area).flatMap((e) => {
    const n = Math.max(2, Math.ceil(lengthOf(e) / Math.max(0.25, radiusMm / 4)));
    return Array.from({ length: n }, (_, k) => pointAt(e, k / n));
  });
  return (
    looks.some(
      (p) => isInside(outline, p.u, p.v) || own.some((e) => distanceTo(e, p.u, p.v) < radiusMm * (1 - SAME)),
    ) || own.some((e) => isInside(area, e.a.u, e.a.v))
  );
}

/** All of them together, mm². */
export function areaOfAll(areas: readonly Region[]): number {
  return areas.reduce((sum, r) => sum + regionMoments(r).area, 0);
}

/** A point of the section's plane in part axes, at a height of the read-out. */
export function inPart({ Z }: ReadOut, u: number, v: number, z: number): Vec3 {
  const p: [number, number, number] = [0, 0, 0];
  p[(Z.axis + 1) % 3] = u;
  p[(Z.axis + 2) % 3] = v;
  p[Z.axis] = Z.zeroMm + Z.sign * z;
  return p;
}
