/**
 * A hole as its drill meets it: where around its rim there is material, air or another cavity, from entry to tip.
 * Looked at on the finished part with the hole itself filled in again.
 */

import type { Solid, Vec3, Void } from '../geometry/types';
import { memo } from '../memo';
import type { Face, Hole, Part } from '../model/model';
import { pointLengthMm } from '../tables/drill-point';
import { HAIR, SAME } from '../tolerance';
import { beside, depthBelow, materialAlong, type Place } from './column';
import { facesToJudge } from './milling';
import { across } from './reach';
import { add, dot, ofFrame, type Stretch } from './section';
import { type Site, siteOf } from './site';

export interface Bored {
  readonly hole: Hole;
  /** The round void of full diameter. */
  readonly of: Void;
  /** All that a line along it can meet, with the hole itself filled in again. */
  readonly about: Place;
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

interface RimPoint {
  readonly at: Vec3;
  readonly material: readonly Stretch[];
}

/** Rim points stand this far in from the wall, so that a hole that touches a plane does not count as cutting it. */
export const RIM = 0.94;
const TURNS = 16;

/** The bores of a hole, one for each member of its pattern; none for a leaning hole. */
export function boresOf(hole: Hole, part: Part, solid: Solid): readonly Bored[] {
  return boresIn(hole, solid, part);
}

/** The same solid is asked for other set-ups where a plan is tried: from which faces is part of the question. */
const boresIn = memo(
  (hole: Hole, solid: Solid, part: Part): readonly Bored[] =>
    boresFrom(siteOf(hole, solid), hole, facesToJudge(hole, part, solid)),
  { owners: 'second', size: 4, by: (_, __, { setups }) => [setups] },
);

const boresFrom = memo(
  (site: Site, hole: Hole, faces: readonly Face[]): readonly Bored[] => {
    const face = faces.includes(hole.face) ? hole.face : faces[0];
    if (!face) return [];
    const bores = site.own.filter((v) => v.role === 'bore');
    return bores.map((of) => bored(of, hole, face, faces, without(site, hole.name, of)));
  },
  { size: 4 },
);

/** Of a volume on the finished part, and where a planner drills it in several orders. */
const KEEP = 12;

/** One bore seen from `face`; `place` is the work with the hole filled in again. The same object as long as that and what is about it are. */
export const bored = memo(bore, {
  size: KEEP,
  by: (_, hole, face, faces, { body, voids }) => [hole, face, faces, body, voids],
});

function bore(of: Void, hole: Hole, face: Face, faces: readonly Face[], place: Place): Bored {
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
    about: place,
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
export function without(solid: Place, feature: string, near: Void): Place {
  return filledIn(near, solid, feature);
}

const filledIn = memo(
  (near: Void, solid: Place, feature: string): Place => {
    const voids = beside(near, solid).filter(
      (v) => v.feature !== feature && v.role !== 'edge' && v.role !== 'engraving',
    );
    return { body: solid.body, voids };
  },
  { owners: 2 },
);

function clipped(stretches: readonly Stretch[], from: number, to: number): readonly Stretch[] {
  return stretches
    .map((s) => ({ from: Math.max(s.from, from), to: Math.min(s.to, to) }))
    .filter((s) => s.to - s.from > SAME);
}

/** The middle of a round outline. */
function centreOf(v: Void): readonly [number, number] {
  const e = v.region.outer.edges[0];
  return e?.type === 'arc' ? [e.centre.u, e.centre.v] : [0, 0];
}

/** Whether two voids' axes run the same way. */
export function parallel(a: Void, b: Void): boolean {
  return Math.abs(dot(a.frame.w, b.frame.w)) > 1 - SAME;
}

/** An end mill or a flat drill makes the floor after it. */
export function endsFlat({ hole, of }: Pick<Bored, 'hole' | 'of'>): boolean {
  return hole.bottom === 'flat' && !of.through;
}

/** There is material at its floor, in the middle or beside it: not all cut away by another feature. */
export function floorStays({ core, rim, endMm }: Pick<Bored, 'core' | 'rim' | 'endMm'>): boolean {
  return [core, ...rim.map((r) => r.material)].some((stretches) => (stretches.at(-1)?.to ?? 0) >= endMm - HAIR);
}
