/**
 * A hole as its drill meets it: where around its rim there is material, air or another cavity, from entry to tip.
 * Looked at on the finished part with the hole itself filled in again.
 */

import type { Solid, Vec3, Void } from '../geometry/types';
import { pointLengthMm } from '../reference/drill-point';
import { type Face, type Hole, OPPOSITE, type Part } from '../spec/model';
import { beside, depthBelow, inward, materialAlong, type Place } from './column';
import { facesToJudge } from './milling';
import { across } from './reach';
import { add, dot, holds, ofFrame, type Stretch, through } from './section';

export interface Bored {
  readonly hole: Hole;
  /** The round void of full diameter. */
  readonly of: Void;
  /** The face it is drilled from, and all it could be. */
  readonly face: Face;
  readonly faces: readonly Face[];
  readonly radiusMm: number;
  /** A point on the axis. */
  readonly axis: Vec3;
  /** Of the full diameter, below `face`. */
  readonly startMm: number;
  readonly endMm: number;
  /** Of the drill's cone below that; 0 for flat and through holes. */
  readonly pointMm: number;
  /** Material on the axis, and at points round the rim, within start to end. */
  readonly core: readonly Stretch[];
  readonly rim: readonly RimPoint[];
  /** Material drilled through: the most of axis and rim, mm. */
  readonly drilledMm: number;
  /** From the first material met to the end, mm: what the tool must reach without its point. */
  readonly spanMm: number;
}

export interface RimPoint {
  readonly at: Vec3;
  readonly material: readonly Stretch[];
}

/** Rim points stand this far in from the wall, so that a hole that touches a plane does not count as cutting it. */
const RIM = 0.94;
const TURNS = 16;

const kept = new WeakMap<Solid, Map<string, readonly Bored[]>>();

/** The bores of a hole, one for each member of its pattern; none for a leaning hole. */
export function boresOf(hole: Hole, part: Part, solid: Solid): readonly Bored[] {
  let byName = kept.get(solid);
  if (!byName) {
    byName = new Map();
    kept.set(solid, byName);
  }
  let found = byName.get(hole.name);
  if (!found) {
    found = work(hole, part, solid);
    byName.set(hole.name, found);
  }
  return found;
}

function work(hole: Hole, part: Part, solid: Solid): readonly Bored[] {
  const faces = facesToJudge(hole, part, solid);
  const face = faces.includes(hole.face) ? hole.face : faces[0];
  if (!face) return [];
  const bores = solid.voidsOf(hole.name).filter((v) => v.role === 'bore');
  return bores.map((of) => {
    const place = without(solid, hole.name, of);
    const known = keptBores.get(of);
    const same =
      known?.hole === hole &&
      known.body === solid.body &&
      known.faces.join() === faces.join() &&
      known.near.length === place.voids.length &&
      known.near.every((n, i) => n === place.voids[i]);
    if (same) return known.made;
    const made = bored(hole, of, face, faces, place);
    keptBores.set(of, { hole, body: solid.body, faces, near: place.voids, made });
    return made;
  });
}

/** Bores worked out before, good as long as the hole and what is cut about it stay the same. */
const keptBores = new WeakMap<
  Void,
  {
    readonly hole: Hole;
    readonly body: Solid['body'];
    readonly faces: readonly Face[];
    readonly near: readonly Void[];
    readonly made: Bored;
  }
>();

function bored(hole: Hole, of: Void, face: Face, faces: readonly Face[], place: Place): Bored {
  const radiusMm = hole.diameter.mm / 2;
  const [cu, cv] = centreOf(of);
  const axis = ofFrame(of.frame, cu, cv, of.from);
  const ends = [axis, ofFrame(of.frame, cu, cv, of.to)].map((p) => depthBelow(place, face, p));
  const startMm = Math.min(ends[0]!, ends[1]!);
  const endMm = Math.max(ends[0]!, ends[1]!);
  const clip = (p: Vec3) => clipped(materialAlong(place, face, p), startMm, endMm);
  const [a, b] = across(face);
  const core = clip(axis);
  const plain = place.voids.length === 0 && insideBox(of, place);
  const rim = Array.from({ length: TURNS }, (_, i) => {
    const turn = (2 * Math.PI * i) / TURNS;
    const at = add(add(axis, a, RIM * radiusMm * Math.cos(turn)), b, RIM * radiusMm * Math.sin(turn));
    return { at, material: plain ? core : clip(at) };
  });
  const all = [core, ...rim.map((r) => r.material)];
  const first = Math.min(...all.map((s) => s[0]?.from ?? endMm));
  const last = Math.max(...all.map((s) => s[s.length - 1]?.to ?? first));
  return {
    hole,
    of,
    face,
    faces,
    radiusMm,
    axis,
    startMm,
    endMm,
    pointMm: hole.bottom === 'cone' && !of.through ? pointLengthMm(hole.diameter.mm, hole.point.deg) : 0,
    core,
    rim,
    drilledMm: Math.max(...all.map((s) => s.reduce((sum, x) => sum + x.to - x.from, 0))),
    spanMm: Math.max(0, last - first),
  };
}

/** Nothing but plain material about the hole: its rim meets what its axis meets. */
function insideBox(v: Void, { body }: Place): boolean {
  const within = (i: 0 | 1 | 2) => v.bounds.min[i] >= body.box.min[i] && v.bounds.max[i] <= body.box.max[i];
  return body.form === 'box' && ([0, 1, 2] as const).every((i) => Math.abs(v.frame.w[i]) > 0.5 || within(i));
}

/** The part with this hole filled in again, and with edges unbroken; only what a line along the hole can meet. */
export function without(solid: Solid, feature: string, near: Void): Place {
  const voids = beside(near, solid).filter((v) => v.feature !== feature && v.role !== 'edge' && v.role !== 'engraving');
  return { body: solid.body, voids };
}

function clipped(stretches: readonly Stretch[], from: number, to: number): readonly Stretch[] {
  return stretches
    .map((s) => ({ from: Math.max(s.from, from), to: Math.min(s.to, to) }))
    .filter((s) => s.to - s.from > 1e-6);
}

/** The middle of a round outline. */
function centreOf(v: Void): readonly [number, number] {
  const e = v.region.outer.edges[0];
  return e?.type === 'arc' ? [e.centre.u, e.centre.v] : [0, 0];
}

export interface Entry {
  /** How much lower the drill meets material on one side than on the other, mm. */
  readonly fallMm: number;
  readonly slopeDeg: number;
  /** Share of the rim that meets no material at all, 0 … 1. */
  readonly inAir: number;
}

/** How the drill meets the part on the side of `face` (or the opposite one, for a hole that may be drilled from there). */
export function entryOf(b: Bored, solid: Solid, face: Face = b.face): Entry {
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

function heightBelow(b: Bored, solid: Solid): number {
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
  readonly at: Vec3;
}

/** What counts as outside once it is cut: it has no far wall. */
const OUTER: ReadonlySet<Void['role']> = new Set(['step', 'contour', 'incline']);

/**
 * Where the side of a hole is open while the drill is still cutting on the other side: through a wall, or half into a
 * cavity. A slanting entry or exit does not count, up to half a diameter long; nor do bores that cross (`crossedBores`).
 */
export function sideOpenings(b: Bored, solid: Solid): readonly Opening[] {
  const core = b.core;
  const from = core[0]?.from;
  const to = core[core.length - 1]?.to;
  if (from === undefined || to === undefined) return [];
  const place = without(solid, b.hole.name, b.of);
  const found = new Map<Void | undefined, Opening>();
  for (const r of b.rim) {
    for (const gap of gapsWithin(r.material, core)) {
      const atEnd = gap.from < from + 1e-6 || gap.to > to - 1e-6;
      if (atEnd && r.material.length > 0 && gap.to - gap.from <= b.radiusMm) continue;
      const middle = (gap.from + gap.to) / 2;
      const p = add(r.at, inward(b.face), middle - depthBelow(solid, b.face, r.at));
      const cavity = place.voids.find((v) => holds(v, p));
      if (cavity?.role === 'bore' && !parallel(cavity, b.of)) continue;
      const key = cavity && !OUTER.has(cavity.role) ? cavity : undefined;
      const lengthMm = gap.to - gap.from;
      const beyondMm = beyond(b, place, p, middle);
      const before = found.get(key);
      if (
        !before ||
        lengthMm > before.lengthMm + 1e-9 ||
        (lengthMm > before.lengthMm - 1e-9 && beyondMm > before.beyondMm)
      )
        found.set(key, { ...(key && { to: key }), lengthMm, beyondMm, at: p });
    }
  }
  return [...found.values()].filter((o) => o.lengthMm > 0.05);
}

/** Bores of other holes, not parallel to this one, that it runs into. */
export function crossedBores(b: Bored, solid: Solid): readonly Void[] {
  const down = inward(b.face);
  return without(solid, b.hole.name, b.of).voids.filter(
    (v) =>
      v.role === 'bore' &&
      !parallel(v, b.of) &&
      [b.axis, ...b.rim.map((r) => r.at)].some((p) =>
        through(v, p, down).some((s) => {
          const at = depthBelow(solid, b.face, p);
          return Math.min(at + s.to, b.endMm) - Math.max(at + s.from, b.startMm) > 0.05;
        }),
      ),
  );
}

/** Parts of `whole` that `some` does not cover. */
function gapsWithin(some: readonly Stretch[], whole: readonly Stretch[]): readonly Stretch[] {
  let left = [...whole];
  for (const s of some) {
    left = left.flatMap((l) =>
      [
        { from: l.from, to: Math.min(l.to, s.from) },
        { from: Math.max(l.from, s.to), to: l.to },
      ].filter((x) => x.to - x.from > 1e-6),
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
  for (let i = 0; i < 24; i++) {
    const mid = (lo + hi) / 2;
    if (solidAt(mid)) lo = mid;
    else hi = mid;
  }
  return b.radiusMm * (1 - RIM * lo);
}

/** Whether two voids' axes run the same way. */
export function parallel(a: Void, b: Void): boolean {
  return Math.abs(dot(a.frame.w, b.frame.w)) > 1 - 1e-6;
}
