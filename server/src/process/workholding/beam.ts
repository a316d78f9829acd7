/**
 * A workpiece held at one place as a beam from there: how far a force on it bends it, by its sections as they are then.
 * F ∫ (L − x)² / (E I(x)) dx, the unit-load integral of a cantilever (any handbook of strength of materials).
 */

import { momentsOf, regionEdges, secondMomentsOf } from '../../geometry/2d/moments';
import { bodyPrism } from '../../geometry/solid/body';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Box, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { ROUNDING } from '../../tolerance';
import { crossOf } from '../stock/in-process-stock';
import type { Workpiece } from '../stock/types';

/** What 1 N at the lever's end bends it, times E, 1/mm: along each of the two axes after the beam's own, in turn. */
interface Limber {
  readonly u: number;
  readonly v: number;
  /** The least of its sections' sides on the way, mm: of a rectangle as large and as stiff. */
  readonly thinnestMm: number;
}

/** More stretches than these are not told apart: they are evened out. */
const MOST_STRETCHES = 24;
/** Gauss's two places in a stretch: exact where the section stays the same, for the lever enters by its square. */
const PLACES = [0.5 - Math.sqrt(1 / 12), 0.5 + Math.sqrt(1 / 12)] as const;

/**
 * The beam from `rootMm` to `endMm` along the axis. Sections in several pieces count as joined, so it bends by that at
 * least. Undefined where there is no material on the way: nothing holds the end then.
 */
export function limberOf(w: Workpiece, axis: AxisIndex, rootMm: number, endMm: number): Limber | undefined {
  const [low, high] = [Math.min(rootMm, endMm), Math.max(rootMm, endMm)];
  const near = w.voids.filter((v) => v.bounds.max[axis] > low && v.bounds.min[axis] < high);
  const sum = { u: 0, v: 0, thinnestMm: Number.POSITIVE_INFINITY };
  const stops = evened(plainStopsOf([...near, bodyPrism(w.body)], axis, low, high));
  for (const [n, to] of stops.entries()) {
    const from = stops[n - 1];
    if (from === undefined) continue;
    for (const share of PLACES) {
      const at = from + share * (to - from);
      const regions = crossOf(w, axis, at).regions ?? crossOf({ body: w.body, voids: [] }, axis, at).regions ?? [];
      const edges = regions.flatMap(regionEdges);
      const { area } = momentsOf(edges);
      if (!(area > 0)) return undefined;
      const { uu, vv } = secondMomentsOf(edges);
      const weight = ((endMm - at) ** 2 * (to - from)) / PLACES.length;
      sum.u += weight / uu;
      sum.v += weight / vv;
      sum.thinnestMm = Math.min(sum.thinnestMm, Math.sqrt((12 * Math.min(uu, vv)) / area));
    }
  }
  return sum;
}

/**
 * At most so limber, told from boxes alone: each of a block's strips that no removed volume's box reaches into runs from side
 * to side there, and more material only stiffens. Undefined of round work, and where no strip is left on the way.
 */
export function atMostLimber(
  { body, voids }: Workpiece,
  axis: AxisIndex,
  rootMm: number,
  endMm: number,
): Pick<Limber, 'u' | 'v'> | undefined {
  if (body.form !== 'box') return undefined;
  const [low, high] = [Math.min(rootMm, endMm), Math.max(rootMm, endMm)];
  const near = voids.filter((v) => v.bounds.max[axis] > low && v.bounds.min[axis] < high);
  const ends = near.flatMap(({ bounds }) => [bounds.min[axis], bounds.max[axis]]).filter((x) => x > low && x < high);
  const stops = [low, ...ends.sort((a, b) => a - b), high];
  const sum = { u: 0, v: 0 };
  for (const [n, to] of stops.entries()) {
    const from = stops[n - 1];
    if (from === undefined || to - from < ROUNDING) continue;
    const here = near.filter((v) => v.bounds.max[axis] > from && v.bounds.min[axis] < to);
    const [uu, vv] = stripsLeft(body.box, here, axis);
    if (!(uu > 0 && vv > 0)) return undefined;
    const weight = Math.abs((endMm - from) ** 3 - (endMm - to) ** 3) / 3;
    sum.u += weight / uu;
    sum.v += weight / vv;
  }
  return sum;
}

/** Second moments of strips that run across the whole block, the better of those one way and those the other. */
function stripsLeft(box: Box, voids: readonly Pick<Void, 'bounds'>[], axis: AxisIndex): readonly [number, number] {
  const [u, v] = [((axis + 1) % 3) as AxisIndex, ((axis + 2) % 3) as AxisIndex];
  const [wide, high] = [box.max[u] - box.min[u], box.max[v] - box.min[v]];
  const [columns, rows] = [freeWidths(box, voids, u), freeWidths(box, voids, v)];
  const sum = (widths: readonly number[], power: number) => widths.reduce((all, w) => all + w ** power, 0);
  return [
    Math.max(sum(columns, 3) * high, sum(rows, 1) * wide ** 3) / 12,
    Math.max(sum(columns, 1) * high ** 3, sum(rows, 3) * wide) / 12,
  ];
}

/** What no box covers along an axis, mm. */
function freeWidths(box: Box, voids: readonly Pick<Void, 'bounds'>[], axis: AxisIndex): readonly number[] {
  const spans = voids.map(({ bounds }) => [bounds.min[axis], bounds.max[axis]] as const).sort((a, b) => a[0] - b[0]);
  const free: number[] = [];
  let at = box.min[axis];
  for (const [from, to] of [...spans, [box.max[axis], box.max[axis]] as const]) {
    if (from > at) free.push(Math.min(from, box.max[axis]) - at);
    at = Math.max(at, to);
  }
  return free.filter((width) => width > 0);
}

function evened(stops: readonly number[]): readonly number[] {
  if (stops.length <= MOST_STRETCHES + 1) return stops;
  const [low, high] = [stops[0]!, stops.at(-1)!];
  return Array.from({ length: MOST_STRETCHES + 1 }, (_, n) => low + ((high - low) * n) / MOST_STRETCHES);
}
