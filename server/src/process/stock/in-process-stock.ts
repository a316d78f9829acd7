/**
 * What is left of a workpiece: where it is material, its section by a plane square to an axis, the box round it. Each
 * worked out when asked for and kept with the workpiece.
 */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { momentsOf, regionMoments } from '../../geometry/2d/moments';
import { bodyPrism } from '../../geometry/solid/body';
import { holds } from '../../geometry/solid/prism';
import { sectionOf } from '../../geometry/solid/section';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Box, Region, Vec3, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { NEAR, ROUNDING, SAME } from '../../tolerance';
import type { Workpiece } from './types';

/** Areas below this are rounding, mm². */
const SPECK_MM2 = 1e-4;

export function isMaterial({ body, voids }: Workpiece, p: Vec3): boolean {
  const { box } = body;
  for (const a of [0, 1, 2] as const) if (p[a] < box.min[a] || p[a] > box.max[a]) return false;
  if (body.form === 'round' && !holds(bodyPrism(body), p)) return false;
  for (const v of voids) if (holds(v, p)) return false;
  return true;
}

/** A plane's material: outlines in the plane's own coordinates, the two axes after the cut one, in turn (of x: y and z). */
export interface Cross {
  readonly axis: AxisIndex;
  readonly at: number;
  /** Undefined where the outlines could not be followed: unknown, which is not the same as none. */
  readonly regions: readonly Region[] | undefined;
  /** False where a cone was cut off its axis, or the outlines could be followed only a little beside the plane. */
  readonly exact: boolean;
}

/** Sections of one workpiece: a jaw on either side, and some dozens on the way to where material begins. */
const KEEP = 32;

/** The material in the plane `at` mm along an axis. At a floor or a face the answer is that of neither side: ask a hair beside it. */
export const crossOf = memo(cross, { size: KEEP });

/** Where outlines nearly touch in a plane they do not in one beside it, mm: less than the hair that callers stay clear of floors by. */
const BESIDE = [3.1e-5, -3.7e-5, 7.3e-5, -7.9e-5] as const;

function cross(w: Workpiece, axis: AxisIndex, at: number): Cross {
  const { min, max } = w.body.box;
  if (at < min[axis] || at > max[axis]) return { axis, at, regions: [], exact: true };
  const here = followed(w, axis, at);
  if (here) return { axis, at, ...here };
  for (const by of BESIDE) {
    if (at + by < min[axis] || at + by > max[axis]) continue;
    const near = followed(w, axis, at + by);
    if (near) return { axis, at, regions: near.regions, exact: false };
  }
  return { axis, at, regions: undefined, exact: false };
}

/** Undefined where the pieces of outline do not join, or enclose more than the whole section or less than nothing. */
function followed({ body, voids }: Workpiece, axis: AxisIndex, at: number): Followed | undefined {
  const whole = sectionOf(bodyPrism(body), axis, at);
  const cuts = voids
    .filter((v) => v.bounds.min[axis] <= at && v.bounds.max[axis] >= at)
    .map((v) => sectionOf(v, axis, at))
    .filter((s) => s.sheet.edges.length > 0);
  const pieces = boundaryOf(
    [whole.sheet],
    cuts.map((s) => s.sheet),
  );
  const loops = chainLoops(pieces);
  const regions = loops && regionsOfLoops(loops);
  if (!regions) return undefined;
  const area = regions.reduce((sum, r) => sum + regionMoments(r).area, 0);
  const most = momentsOf(whole.sheet.edges).area * (1 + SAME) + SPECK_MM2;
  if (area < -SPECK_MM2 || area > most) return undefined;
  const exact = whole.exact && cuts.every((s) => s.exact);
  return { regions: regions.filter((r) => regionMoments(r).area > SPECK_MM2), exact };
}

interface Followed {
  readonly regions: readonly Region[];
  readonly exact: boolean;
}

/** The box round what is left. Where nothing is left: of no size, in the middle of the stock. */
export const boxLeft = memo((w: Workpiece): Box => {
  const min = [0, 0, 0] as [number, number, number];
  const max = [0, 0, 0] as [number, number, number];
  for (const axis of [0, 1, 2] as const) {
    min[axis] = extremeOf(w, axis, 1);
    max[axis] = extremeOf(w, axis, -1);
    if (max[axis] <= min[axis]) {
      const { box: of } = w.body;
      min[axis] = (of.min[axis] + of.max[axis]) / 2;
      max[axis] = min[axis];
    }
  }
  return { min, max };
});

interface Extreme {
  readonly at: number;
  /** A place just inside where there is material; absent where only the section told. */
  readonly seen?: Vec3;
}
/**
 * What a workpiece was before its last cut, and what that took. No memory of work: where it came from is part of what a
 * workpiece is, and only saves a look, so that nobody else need know of it.
 */
const parents = new WeakMap<Workpiece, { readonly before: Workpiece; readonly removes: readonly Void[] }>();

/** Tells what a workpiece came from: then what was known of that need not be looked for again. */
export function cameFrom(after: Workpiece, before: Workpiece, removes: readonly Void[]): void {
  parents.set(after, { before, removes });
}

/** Coming from outside in the direction `into`: where material begins along an axis, mm. */
export function extremeOf(w: Workpiece, axis: AxisIndex, into: 1 | -1): number {
  return extreme(w, axis, into).at;
}

/** Both ends along each axis. */
const ENDS = 6;
/** So many cuts back is asked what was seen there: few enough to go through, and so many that a long line of cuts is no deep one. */
const BACK = 8;

/** What was seen some cuts before still stands, unless a cut since took it away: then it is looked for anew after that. */
const extreme = memo(
  (w: Workpiece, axis: AxisIndex, into: 1 | -1): Extreme => {
    const line: Workpiece[] = [w];
    let first = parents.get(w)?.before;
    for (; first && line.length < BACK; first = parents.get(first)?.before) line.unshift(first);
    let found = first ? extreme(first, axis, into) : look(line.shift()!, axis, into);
    for (const x of line) {
      const { seen } = found;
      if (!seen || parents.get(x)!.removes.some((v) => holds(v, seen))) found = look(x, axis, into);
    }
    return found;
  },
  { size: ENDS },
);

const look = memo(lookFor, { size: ENDS });

function lookFor(w: Workpiece, axis: AxisIndex, into: 1 | -1): Extreme {
  const { min, max } = w.body.box;
  const end = into > 0 ? max[axis] : min[axis];
  let at = pastSlabs(w, axis, into);
  const first = anyAt(w, axis, at + into * NEAR);
  if (first) return { at, ...(first !== true && { seen: first }) };
  // Sections change only where an outline has a corner or a side, or a volume ends.
  const stops = plainStopsOf([...w.voids, bodyPrism(w.body)], axis, Math.min(at, end), Math.max(at, end));
  let from = at + into * NEAR;
  for (at of into > 0 ? stops : stops.toReversed()) {
    const between = beginsBetween(w, axis, from, at - into * NEAR);
    if (between) return between;
    const seen = anyAt(w, axis, at + into * NEAR);
    if (seen) return { at, ...(seen !== true && { seen }) };
    from = at + into * NEAR;
  }
  return beginsBetween(w, axis, from, end) ?? { at: end };
}

/** Of the way from one stop to the next: where a section is looked at, and how closely its beginning is sought, mm. */
const ON_THE_WAY = [0.25, 0.5, 0.75, 1] as const;
const CLOSE_MM = 1e-6;

/**
 * Between two stops material begins where surfaces that lean or are round meet: a round bar cut off below its middle is
 * widest where the cut is, and no outline has a corner there. Undefined where none is seen on the way.
 */
function beginsBetween(w: Workpiece, axis: AxisIndex, from: number, to: number): Extreme | undefined {
  // Beside one and the same stop there is no way between: in its own plane a volume that ends there holds nothing.
  if (Math.abs(to - from) < 2 * NEAR + CLOSE_MM) return undefined;
  let empty = from;
  for (const share of ON_THE_WAY) {
    let full = from + share * (to - from);
    let seen = anyAt(w, axis, full);
    if (!seen) {
      empty = full;
      continue;
    }
    while (Math.abs(full - empty) > CLOSE_MM) {
      const middle = (full + empty) / 2;
      const there = anyAt(w, axis, middle);
      if (there) [full, seen] = [middle, there];
      else empty = middle;
    }
    return { at: full, ...(seen !== true && { seen }) };
  }
  return undefined;
}

/** Where the plain slabs that were cut off from outside end. */
function pastSlabs(w: Workpiece, axis: AxisIndex, into: 1 | -1): number {
  const { box } = w.body;
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  let at = into > 0 ? box.min[axis] : box.max[axis];
  for (let n = 0; n <= w.voids.length; n++) {
    const plane = at + into * NEAR;
    const slab = w.voids.find(
      (v) => v.bounds.min[axis] <= plane && v.bounds.max[axis] >= plane && covers(v, box, i, k),
    );
    if (!slab) return at;
    at = into > 0 ? slab.bounds.max[axis] : slab.bounds.min[axis];
  }
  return at;
}

/** Some material in a plane, and where if it was seen: a look at a few places tells for most. */
function anyAt(w: Workpiece, axis: AxisIndex, at: number): Vec3 | boolean {
  const { min, max } = w.body.box;
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const near = { body: w.body, voids: w.voids.filter((v) => v.bounds.min[axis] <= at && v.bounds.max[axis] >= at) };
  if (at < min[axis] || at > max[axis] || near.voids.some((v) => covers(v, w.body.box, i, k))) return false;
  for (const [a, b] of LOOKS) {
    const p = [0, 0, 0] as [number, number, number];
    p[axis] = at;
    p[i] = min[i] + a * (max[i] - min[i]);
    p[k] = min[k] + b * (max[k] - min[k]);
    if (isMaterial(near, p)) return p;
  }
  const { regions } = crossOf(w, axis, at);
  // What cannot be followed is not nothing: then a closer look, and material where that finds none either.
  return regions ? regions.length > 0 : (closer(near, axis, at) ?? true);
}

/** The first place of a fine grid where there is material in a plane. */
function closer(w: Workpiece, axis: AxisIndex, at: number): Vec3 | undefined {
  const { min, max } = w.body.box;
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  for (let n = 0; n < CLOSER * CLOSER; n++) {
    const p = [0, 0, 0] as [number, number, number];
    p[axis] = at;
    p[i] = min[i] + ((Math.floor(n / CLOSER) + 0.49) / CLOSER) * (max[i] - min[i]);
    p[k] = min[k] + (((n % CLOSER) + 0.53) / CLOSER) * (max[k] - min[k]);
    if (isMaterial(w, p)) return p;
  }
  return undefined;
}

/** A plain slab from side to side: nothing is left where it is. */
function covers(v: Void, { min, max }: Box, i: AxisIndex, k: AxisIndex): boolean {
  const { edges } = v.region.outer;
  return (
    v.bounds.min[i] <= min[i] &&
    v.bounds.max[i] >= max[i] &&
    v.bounds.min[k] <= min[k] &&
    v.bounds.max[k] >= max[k] &&
    v.profile.type === 'straight' &&
    v.region.holes.length === 0 &&
    edges.length === 4 &&
    edges.every((e) => e.type === 'line' && (e.a.u === e.b.u || e.a.v === e.b.v)) &&
    [v.frame.u, v.frame.v, v.frame.w].every((d) => d.some((c) => Math.abs(c) > 1 - ROUNDING))
  );
}

const SHARES = [0.5, 0.113, 0.871, 0.307, 0.691];
const CLOSER = 40;
const LOOKS = SHARES.flatMap((a) => SHARES.map((b) => [a, b] as const));
