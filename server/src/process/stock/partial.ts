/**
 * A cut that goes only so far down in its set-up. Down is away from the spindle, from where the feature or the face begins on
 * the side that is up; what the set-up takes is the part of every volume that lies above that plane.
 */

import { subtractRegions } from '../../geometry/2d/assemble-loops';
import { rectOf } from '../../geometry/2d/inside';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf, insetAt } from '../../geometry/solid/prism';
import type { Box, Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { type CutEntry, FACE_AXIS, type Face, OPPOSITE, type Part } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import type { Cut, Share, Stop } from './types';

/** What a cut from each side goes beyond the middle, so that no skin is left. Common practice, no source. */
export const BEYOND_MM = 1;

/**
 * The share of an entry: as written; half, where its name stands alone in set-ups with opposite faces up and nothing of it
 * is written; else undefined, all that is left. `both`: what is cut can be got at from either side, all of it.
 */
export function shareOf(entry: CutEntry, up: Face, setups: Part['setups'], both: () => boolean): Share | undefined {
  if (entry.depth !== undefined) return entry.depth === 'half' ? 'half' : entry.depth.mm;
  if (!setups) return undefined;
  const { faces, written } = listedOf(setups).get(entry.name)!;
  return !written && faces.has(OPPOSITE[up]) && both() ? 'half' : undefined;
}

interface Listed {
  /** Up where it is cut. */
  readonly faces: Set<Face>;
  /** Some entry says how far down. */
  written: boolean;
}
const listedOf = memo((setups: NonNullable<Part['setups']>): ReadonlyMap<string, Listed> => {
  const made = new Map<string, Listed>();
  for (const s of setups)
    for (const { name, depth } of s.cuts) {
      const known = made.get(name) ?? { faces: new Set(), written: false };
      if (s.up) known.faces.add(s.up.name);
      known.written ||= depth !== undefined;
      made.set(name, known);
    }
  return made;
});

/** `own` are the boxes of what is cut, without what lies outside the part. */
export function stopAt(own: readonly Box[], up: Face, share: Share): Stop {
  const i = AXIS_INDEX[FACE_AXIS[up].axis];
  const { sign } = FACE_AXIS[up];
  const low = Math.min(...own.map((b) => b.min[i]));
  const high = Math.max(...own.map((b) => b.max[i]));
  const deep = share === 'half' ? (high - low) / 2 + BEYOND_MM : share;
  return { at: sign > 0 ? high - deep : low + deep, ends: deep >= high - low - SAME };
}

/** After all these cuts of one feature or face something of it is still there: no one took the rest. */
export function leavesSome(cuts: readonly Cut[], upOf: (cut: Cut) => Face | undefined): boolean {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let axis: string | undefined;
  for (const cut of cuts) {
    const up = upOf(cut);
    if (cut.stop === undefined || !up) return false;
    // Shares from sides that do not face each other are not added up.
    if (axis !== undefined && axis !== FACE_AXIS[up].axis) return true;
    ({ axis } = FACE_AXIS[up]);
    if (FACE_AXIS[up].sign > 0) from = Math.min(from, cut.stop.at);
    else to = Math.max(to, cut.stop.at);
    if (cut.stop.ends) return false;
  }
  return from > to + SAME;
}

/** What of a volume lies above a plane across the spindle: the volume itself where all of it does, none where nothing does. */
export function above(v: Void, up: Face, plane: number): readonly Void[] {
  const i = AXIS_INDEX[FACE_AXIS[up].axis];
  const { sign } = FACE_AXIS[up];
  const { min, max } = v.bounds;
  const [near, far] = sign > 0 ? [max[i], min[i]] : [min[i], max[i]];
  if ((far - plane) * sign >= -SAME) return [v];
  if ((near - plane) * sign <= SAME) return [];
  return cutOff(v, up, plane) ?? undivided(v, near, far, plane);
}

/** What cannot be told apart in two goes with the cut that reaches at least its middle. */
function undivided(v: Void, near: number, far: number, plane: number): readonly Void[] {
  return Math.abs(near - plane) >= Math.abs(near - far) / 2 - ROUNDING ? [v] : [];
}

/** Cut in a few set-ups at most; a planner tries some more. */
const cutOff = memo(
  (v: Void, up: Face, plane: number) => cut(v, AXIS_INDEX[FACE_AXIS[up].axis], FACE_AXIS[up].sign, plane),
  { size: 8 },
);

function cut(v: Void, i: AxisIndex, sign: 1 | -1, plane: number): readonly Void[] | undefined {
  if (Math.abs(v.frame.w[i]) > 1 - ROUNDING) return lengthwise(v, i, sign, plane);
  if (v.profile.type !== 'straight') return undefined;
  const along = (['u', 'v'] as const).find((name) => Math.abs(v.frame[name][i]) > 1 - ROUNDING);
  return along && across(v, along, i, sign, plane);
}

/** The plane lies square to the sweep. */
function lengthwise(v: Void, i: AxisIndex, sign: 1 | -1, plane: number): readonly Void[] | undefined {
  const { frame, profile } = v;
  const at = (plane - frame.origin[i]) / frame.w[i];
  // The sweep may run toward the spindle or away from it.
  const upper = frame.w[i] * sign < 0;
  const [from, to] = upper ? [v.from, at] : [at, v.to];
  switch (profile.type) {
    case 'straight':
      return [swept(v, { ...v, from, to }, upper)];
    case 'taper':
      return [
        swept(
          v,
          { ...v, from, to, profile: { type: 'taper', insetFrom: insetAt(v, from), insetTo: insetAt(v, to) } },
          upper,
        ),
      ];
    case 'floor': {
      const floor = v.to - profile.radius;
      if (!upper) return from <= floor + ROUNDING ? [swept(v, { ...v, from, to }, false)] : undefined;
      // Above the round of the floor it is straight; within the round it waits for the cut that makes the floor.
      return [swept(v, { ...v, from, to: Math.min(to, floor), profile: { type: 'straight' } }, true)];
    }
    case 'round':
      return undefined;
    default:
      return profile satisfies never;
  }
}

/** Ends on no floor of its own where it was cut off below. */
function swept(v: Void, { region, from, to, profile }: Swept, floored: boolean): Void {
  const bounds = boundsOf(v.frame, region, from, to, profile);
  return { ...v, region, from, to, profile, bounds, through: floored ? false : v.through };
}

type Swept = Pick<Void, 'region' | 'from' | 'to' | 'profile'>;

/** The plane runs along the sweep: the outline is cut off at a line. */
function across(v: Void, name: 'u' | 'v', i: AxisIndex, sign: 1 | -1, plane: number): readonly Void[] | undefined {
  const d = v.frame[name][i];
  const at = (plane - v.frame.origin[i]) / d;
  const { u0, v0, u1, v1 } = rectOf(v.region.outer.edges);
  // Away from the spindle: below the line, or above it.
  const below = d * sign > 0;
  const [u, w] = [below ? [u0 - 1, at] : [at, u1 + 1], below ? [v0 - 1, at] : [at, v1 + 1]] as const;
  const gone = name === 'u' ? rectLoop(u[0]!, v0 - 1, u[1]!, v1 + 1) : rectLoop(u0 - 1, w[0]!, u1 + 1, w[1]!);
  const regions = subtractRegions(v.region, [{ outer: gone, holes: [] }]);
  return regions?.map((region) => swept(v, { ...v, region }, false));
}
