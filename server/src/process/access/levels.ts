/**
 * How high material stands within a distance of where a tool's axis goes. The work is looked at in slices between the
 * heights where its make-up changes, from the top down: the first slice whose section comes that near tells. Exact where
 * sides are upright; in a slice that tapers its middle counts; where something leans the slices are thin.
 */

import { distanceTo } from '../../geometry/2d/edge';
import { isInside } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Frame, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { beforeEdges } from '../reach';
import { type Cross, crossOf, isMaterial } from '../stock/in-process-stock';
import type { Workpiece } from '../stock/types';

interface Highest {
  /** Above the tip of the stand it is nearest to the top of; 0 where nothing is near above any tip. */
  readonly aboveMm: number;
  readonly at?: Vec3;
}

/** Nearer by less than this is not nearer, mm. */
const TOUCH_MM = 0.005;

interface Stands {
  readonly stands: readonly Vec3[];
  /** Depth of each below the stock's plane. */
  readonly tips: readonly number[];
}

/** `topMm`: depth of the highest material at all. */
export function highestNear(
  place: Workpiece,
  up: Face,
  { stands, tips }: Stands,
  radiusMm: number,
  topMm: number,
): Highest {
  if (stands.length === 0) return { aboveMm: 0 };
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const [a, b] = [(i + 1) % 3, (i + 2) % 3] as [AxisIndex, AxisIndex];
  const near = around(place, stands, radiusMm, a, b);
  const plane = sign > 0 ? near.body.box.max[i] : near.body.box.min[i];
  const height = (depth: number) => plane - sign * depth;
  const lowest = Math.max(...tips);
  const range = [height(lowest), height(topMm)].sort((x, y) => x - y) as [number, number];
  const stops = plainStopsOf(near.voids, i, range[0], range[1]);
  const sorted = stops.map((s) => (plane - s) * sign).sort((x, y) => x - y);
  const depths = near.voids.some(({ frame }) => leans(frame)) ? finer(sorted) : sorted;
  let best: Highest = { aboveMm: 0 };
  for (let n = 0; n + 1 < depths.length; n++) {
    const [high, low] = [depths[n]!, depths[n + 1]!];
    // Lower slices ask less of every stand than this one already does.
    if (lowest - high <= best.aboveMm + ROUNDING) break;
    if (low - high < SAME) continue;
    const cross = crossOf(near, i, height((high + low) / 2));
    if (cross.regions?.length === 0) continue;
    const meets = cross.regions ? isNear(cross.regions, radiusMm) : isAround(near, i, cross.at, radiusMm);
    stands.forEach((p, k) => {
      const above = tips[k]! - high;
      if (above <= best.aboveMm + ROUNDING || !meets(p[a], p[b])) return;
      best = { aboveMm: above, at: p };
    });
  }
  return best;
}

/** Between two stops a leaning side goes on and on: there slices no thicker than this, mm. */
const SLICE_MM = 0.25;

function finer(depths: readonly number[]): readonly number[] {
  return depths.flatMap((from, i) => {
    const to = depths[i + 1];
    if (to === undefined) return [from];
    const count = Math.max(1, Math.ceil((to - from) / SLICE_MM));
    return Array.from({ length: count }, (_, k) => from + ((to - from) * k) / count);
  });
}

function leans({ w, u }: Frame): boolean {
  return [w, u].some((d) => d.every((c) => Math.abs(c) < 1 - ROUNDING));
}

/** Only the volumes that come within that distance of the stands; broken edges take nothing away that a tool would meet. */
function around(place: Workpiece, stands: readonly Vec3[], radiusMm: number, a: AxisIndex, b: AxisIndex): Workpiece {
  const low = (k: AxisIndex) => stands.reduce((m, p) => Math.min(m, p[k]), Number.POSITIVE_INFINITY) - radiusMm;
  const high = (k: AxisIndex) => stands.reduce((m, p) => Math.max(m, p[k]), Number.NEGATIVE_INFINITY) + radiusMm;
  const [a0, a1, b0, b1] = [low(a), high(a), low(b), high(b)];
  const { voids } = place;
  return {
    body: place.body,
    voids: voids.filter(
      (v) =>
        beforeEdges(v) && v.bounds.max[a] > a0 && v.bounds.min[a] < a1 && v.bounds.max[b] > b0 && v.bounds.min[b] < b1,
    ),
  };
}

type Meets = (u: number, v: number) => boolean;

function isNear(regions: NonNullable<Cross['regions']>, radiusMm: number): Meets {
  return (u, v) =>
    regions.some((r) => isInside(r, u, v) || regionEdges(r).some((e) => distanceTo(e, u, v) < radiusMm - TOUCH_MM));
}

const RINGS = [1, 0.75, 0.5, 0.25, 0] as const;
const ROUND = 48;

/** Where the outlines in a plane cannot be followed: looked at point by point, out to the radius. */
function isAround(w: Workpiece, axis: AxisIndex, at: number, radiusMm: number): Meets {
  const [a, b] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const full = Math.max(0, radiusMm - TOUCH_MM);
  return (u, v) =>
    RINGS.some((share) => {
      for (let n = 0; n < (share === 0 ? 1 : ROUND); n++) {
        const angle = (2 * Math.PI * n) / ROUND;
        const p = [0, 0, 0] as [number, number, number];
        p[axis] = at;
        p[a] = u + share * full * Math.cos(angle);
        p[b] = v + share * full * Math.sin(angle);
        if (isMaterial(w, p)) return true;
      }
      return false;
    });
}
