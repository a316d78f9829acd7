/**
 * Where the axis of a cutter may be while it makes a volume, seen from above: all that is its own radius, and what is left
 * for later, off everything that stays and off what holds the work. Sections of the work as it is after the cut, from the
 * tip up, each moved in by how thick the tool is there.
 */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { distanceTo, lengthOf, pointAt } from '../../geometry/2d/edge';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { isInside, rectOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { insetRegion } from '../../geometry/2d/offset';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Box, Region, Vec3, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
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
export const SLACK_MM = 0.004;

/**
 * Areas in the plane of the section (`planeOf`), those that make something of the volume; none where the cutter does not
 * get in. Undefined where outlines cannot be followed.
 */
export function centreAreas(v: Void, cutting: Cutting, around: Around): readonly Region[] | undefined {
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
export function coveredShare(v: Void, areas: readonly Region[], radiusMm: number, readOut: ReadOut): number {
  const [a, b] = planeOf(readOut);
  const outline = seenFromAbove(v, a, b);
  const { u0, v0, u1, v1 } = rectOf(outline.outer.edges);
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
const GRID = 17;

/** The box round what of a volume is metal yet: the volume's own where that cannot be seen. */
function metal(v: Void, before: Workpiece): Box {
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
  const sheets = [...met, ...standing(low, around)];
  if (sheets.length === 0) return [bound];
  const loops = chainLoops(boundaryOf([sheetOf(regionEdges(bound))], sheets));
  return loops && regionsOfLoops(loops);
}

/** The work as it is afterwards, between two heights of the part. */
function metBetween(low: number, high: number, { readOut: { Z }, after }: Around): readonly Sheet[] | undefined {
  const sheets: Sheet[] = [];
  const stops = plainStopsOf(after.voids, Z.axis, low, high);
  for (let k = 0; k + 1 < stops.length; k++) {
    if (stops[k + 1]! - stops[k]! < SAME) continue;
    for (const at of levelsIn(stops[k]!, stops[k + 1]!, after, Z.axis)) {
      const { regions } = crossOf(after, Z.axis, at);
      if (!regions) return undefined;
      if (regions.length > 0)
        sheets.push(
          sheetOf(
            regions.flatMap((r) => regionEdges(r)),
            true,
          ),
        );
    }
  }
  return sheets;
}

/** What holds the work and stands higher than that. */
function standing(low: number, { readOut, obstacles }: Around): readonly Sheet[] {
  const { Z } = readOut;
  const [a, b] = planeOf(readOut);
  return obstacles
    .filter(({ box: o }) => (Z.sign > 0 ? o.max[Z.axis] - low : low - o.min[Z.axis]) > SAME)
    .map(({ box: o }) => sheetOf(rectLoop(o.min[a], o.min[b], o.max[a], o.max[b]).edges, true));
}

/** Between two heights sections are all alike where sides are upright; else both ends and the middle tell. */
function levelsIn(low: number, high: number, { voids }: Workpiece, axis: AxisIndex): readonly number[] {
  const upright = (v: Void) => v.profile.type === 'straight' && Math.abs(v.frame.w[axis]) > 1 - ROUNDING;
  const here = voids.filter((v) => v.bounds.max[axis] > low + SAME && v.bounds.min[axis] < high - SAME);
  const middle = (low + high) / 2;
  if (here.every(upright)) return [middle];
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
function seenFromAbove(v: Void, a: AxisIndex, b: AxisIndex): Region {
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

/** A point of the section's plane in part axes, at a height of the read-out. */
export function inPart({ Z }: ReadOut, u: number, v: number, z: number): Vec3 {
  const p: [number, number, number] = [0, 0, 0];
  p[(Z.axis + 1) % 3] = u;
  p[(Z.axis + 2) % 3] = v;
  p[Z.axis] = Z.zeroMm + Z.sign * z;
  return p;
}
