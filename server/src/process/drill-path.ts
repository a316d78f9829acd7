/**
 * What a drill meets on its way: a slanting start, sides that are open, bores that it crosses. Looked at on the
 * finished part, or the workpiece when it is drilled, with the hole itself filled in again.
 */

import type { Vec3, Void } from '../geometry/types';
import { memo } from '../memo';
import { type Face, OPPOSITE } from '../model/model';
import { ROUNDING, SAME } from '../tolerance';
import { depthBelow, inward, materialAlong, type Place } from './column';
import { type Bored, parallel, RIM } from './drilling';
import { add, holds, type Stretch, through } from './section';

export interface Entry {
  /** How much lower the drill meets material on one side than on the other, mm. */
  readonly fallMm: number;
  readonly slopeDeg: number;
  /** Share of the rim that meets no material at all, 0 … 1. */
  readonly inAir: number;
}

/** How the drill meets the part on the side of `face` (or the opposite one, for a hole that may be drilled from there). */
export function entryOf(b: Bored, solid: Place, face: Face = b.face): Entry {
  const flip = face !== b.face;
  const firsts = b.rim.map((r) => {
    const s = flip ? r.material[r.material.length - 1]?.to : r.material[0]?.from;
    return s === undefined ? undefined : flip ? heightBelow(b, solid) - s : s;
  });
  const met = firsts.filter((f): f is number => f !== undefined);
  if (met.length === 0) return { fallMm: 0, slopeDeg: 0, inAir: 1 };
  const fallMm = Math.max(...met) - Math.min(...met);
  const slopeDeg = (Math.atan(fallMm / (2 * RIM * b.radiusMm)) * 180) / Math.PI;
  return { fallMm, slopeDeg, inAir: 1 - met.length / firsts.length };
}

function heightBelow(b: Bored, solid: Place): number {
  const far = OPPOSITE[b.face];
  return depthBelow(solid, b.face, b.axis) + depthBelow(solid, far, b.axis);
}

export interface Opening {
  /** The cavity the side of the hole opens to; the outside where absent. */
  readonly to?: Void;
  /** Along the hole: how long its side is open there, mm. */
  readonly lengthMm: number;
  /** How far the hole's wall lies outside the material there, mm. */
  readonly beyondMm: number;
  /** How far the hole's own middle lies outside the material, mm: absent where it is within. */
  readonly axisOutMm?: number;
  readonly at: Vec3;
}

/** What counts as outside once it is cut: it has no far wall. */
const OUTER: ReadonlySet<Void['role']> = new Set(['step', 'contour', 'slope']);

/**
 * Where the side of a hole is open while the drill is still cutting on the other side: through a wall, or half into a
 * cavity. A slanting entry or exit does not count, up to half a diameter long; nor do bores that cross (`crossedBores`).
 */
export const sideOpenings = memo((b: Bored): readonly Opening[] => {
  const place = b.about;
  const beside = middleOutside(b, place);
  if (beside) return [beside];
  const core = b.core;
  const from = core[0]?.from;
  const to = core[core.length - 1]?.to;
  if (from === undefined || to === undefined) return [];
  const found = new Map<Void | undefined, Opening>();
  for (const r of b.rim) {
    for (const gap of gapsWithin(r.material, core)) {
      const atEnd = gap.from < from + SAME || gap.to > to - SAME;
      if (atEnd && r.material.length > 0 && gap.to - gap.from <= b.radiusMm) continue;
      const middle = (gap.from + gap.to) / 2;
      const p = add(r.at, inward(b.face), middle - depthBelow(place, b.face, r.at));
      const cavity = place.voids.find((v) => holds(v, p));
      if (cavity?.role === 'bore' && !parallel(cavity, b.of)) continue;
      const key = cavity && !OUTER.has(cavity.role) ? cavity : undefined;
      const lengthMm = gap.to - gap.from;
      const beyondMm = beyond(b, place, p, middle);
      const opening: Opening = { ...(key && { to: key }), lengthMm, beyondMm, at: p };
      if (isWorse(opening, found.get(key))) found.set(key, opening);
    }
  }
  return [...found.values()].filter((o) => o.lengthMm > 0.05);
});

/** Bores of other holes, not parallel to this one, that it runs into: in what was material before either was drilled. */
export const crossedBores = memo((b: Bored): readonly Void[] => {
  const place = b.about;
  const down = inward(b.face);
  return place.voids.filter((v) => {
    if (v.role !== 'bore' || parallel(v, b.of)) return false;
    const undrilled = { body: place.body, voids: place.voids.filter((x) => x.feature !== v.feature) };
    return [b.axis, ...b.rim.map((r) => r.at)].some((p) => {
      const met = through(v, p, down);
      if (met.length === 0) return false;
      const at = depthBelow(place, b.face, p);
      // Where a step, a slot or a pocket has taken the material, neither drill meets the other.
      const material = materialAlong(undrilled, b.face, p);
      return met.some((s) =>
        material.some((m) => Math.min(at + s.to, b.endMm, m.to) - Math.max(at + s.from, b.startMm, m.from) > 0.05),
      );
    });
  });
});

/** The longer one, or of one length that which is further outside. */
function isWorse(opening: Opening, than: Opening | undefined): boolean {
  if (!than || opening.lengthMm > than.lengthMm + ROUNDING) return true;
  return opening.lengthMm > than.lengthMm - ROUNDING && opening.beyondMm > than.beyondMm;
}

/** The middle of the hole lies beside the workpiece, or where its outside was cut away, and only a side of it meets material. */
function middleOutside(b: Bored, place: Place): Opening | undefined {
  if (b.core.length > 0) return undefined;
  const all = b.rim.flatMap((r) => r.material);
  const [longest] = [...all].sort((x, y) => y.to - y.from - (x.to - x.from));
  if (!longest) return undefined;
  const depthMm = (longest.from + longest.to) / 2;
  const middle = add(b.axis, inward(b.face), depthMm - b.startMm);
  const cavity = place.voids.find((v) => holds(v, middle));
  if (cavity && !OUTER.has(cavity.role)) return undefined;
  const [nearest] = b.rim
    .filter((r) => r.material.some((s) => s.from <= depthMm && s.to >= depthMm))
    .map(({ at }) => ({ at, outMm: b.radiusMm * RIM * airShare(b, place, at, depthMm) }))
    .sort((x, y) => x.outMm - y.outMm);
  if (!nearest || !(nearest.outMm > 0)) return undefined;
  const lengthMm = Math.max(...all.map((s) => s.to)) - Math.min(...all.map((s) => s.from));
  const across = [0, 1, 2].map((i) => 2 * b.axis[i]! - nearest.at[i]!) as unknown as Vec3;
  return { lengthMm, beyondMm: b.radiusMm + nearest.outMm, axisOutMm: nearest.outMm, at: across };
}

/** From the hole's middle in the air to a rim point in material: the share of the way at which that begins. */
function airShare(b: Bored, place: Place, rim: Vec3, depthMm: number): number {
  let [lo, hi] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const mid = (lo + hi) / 2;
    const p = [0, 1, 2].map((j) => b.axis[j]! + mid * (rim[j]! - b.axis[j]!)) as unknown as Vec3;
    if (materialAlong(place, b.face, p).some((s) => s.from <= depthMm && s.to >= depthMm)) hi = mid;
    else lo = mid;
  }
  return hi;
}
const HALVINGS = 24;

/** Parts of `whole` that `some` does not cover. */
function gapsWithin(some: readonly Stretch[], whole: readonly Stretch[]): readonly Stretch[] {
  let left = [...whole];
  for (const s of some) {
    left = left.flatMap((l) =>
      [
        { from: l.from, to: Math.min(l.to, s.from) },
        { from: Math.max(l.from, s.to), to: l.to },
      ].filter((x) => x.to - x.from > SAME),
    );
  }
  return left;
}

/** From where air begins on the way out to a rim point, to the hole's wall. */
function beyond(b: Bored, place: Place, rim: Vec3, depthMm: number): number {
  const centre = add(b.axis, inward(b.face), depthMm - b.startMm);
  let [lo, hi] = [0, 1];
  const solidAt = (k: number): boolean => {
    const p: Vec3 = [0, 1, 2].map((i) => centre[i]! + k * (rim[i]! - centre[i]!)) as unknown as Vec3;
    return materialAlong(place, b.face, p).some((s) => s.from <= depthMm && s.to >= depthMm);
  };
  if (!solidAt(0)) return b.radiusMm;
  for (let i = 0; i < HALVINGS; i++) {
    const mid = (lo + hi) / 2;
    if (solidAt(mid)) lo = mid;
    else hi = mid;
  }
  return b.radiusMm * (1 - RIM * lo);
}
