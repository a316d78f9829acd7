/**
 * What a milled feature asks of a cutter: its inside corners, its narrowest place, and how far down each must be
 * reached, from the approach that asks least. Of the part alone; which cutters a shop has comes in at the end.
 */

import { pointAt } from '../geometry/2d/edge';
import { regionEdges } from '../geometry/2d/moments';
import { insetRegion } from '../geometry/2d/offset';
import { rectLoop } from '../geometry/2d/shape-outline';
import { narrowestNeckMm } from '../geometry/distance/neck';
import { faceFrame } from '../geometry/frame';
import { makeVoid, STRAIGHT } from '../geometry/solid/voids/make';
import type { Solid, Void } from '../geometry/types';
import { sharedBox } from '../geometry/vector';
import { memo } from '../memo';
import { type ByForm, isChannel, ofForm } from '../model/feature-kinds';
import { FACE_AXIS, type Face, type Feature, OPPOSITE, type Part } from '../model/model';
import { SAME } from '../tolerance';
import { approachesOf } from './approach';
import { beside, depthBelow, inward, type Place } from './column';
import { type Corner, insideCorners, isWall } from './corners';
import { lowestDepth } from './lowest';
import { widestFor } from './room';
import { dot, ofFrame } from './section';
import { type Site, siteOf } from './site';

/** One removed volume that a mill goes round in. */
export interface MilledVoid {
  readonly feature: Feature;
  readonly of: Void;
  /** The face it is cut from. */
  readonly face: Face;
  /** Open at both ends along the spindle: can also be cut half from the other side. */
  readonly bothSides: boolean;
  readonly corners: readonly Corner[];
  /** The narrowest place a cutter must pass; infinite where it is open. */
  readonly neckMm: number;
  /** The widest cutter that may: where walls are to be finished it leaves stock on both (`room`). */
  readonly widestMm: number;
  /** Between wall and floor; infinite where it ends on none. */
  readonly floorRadiusMm: number;
  /** Where the tip is at its deepest, below `face`. */
  readonly tipMm: number;
}

/** Roles that a mill goes round in. */
export const MILLED: ReadonlySet<Void['role']> = new Set(['pocket', 'slot', 'step', 'contour', 'groove']);

/** The milled volumes of a feature, one for each member of a pattern; none for holes, edges, undercuts, leaning ones. */
export function milledVoids(feature: Feature, part: Part, solid: Solid): readonly MilledVoid[] {
  if (!isMilled(feature)) return [];
  return milledHere(feature, solid, part);
}

/** The same solid is asked for other set-ups where a plan is tried: from which faces is part of the question. */
const milledHere = memo(
  (feature: Feature, solid: Solid, part: Part): readonly MilledVoid[] =>
    milledFrom(siteOf(feature, solid), feature, facesToJudge(feature, part, solid), part),
  { owners: 'second', size: 4, by: (_, __, { setups, tolerance }) => [setups, tolerance?.name] },
);

const milledFrom = memo(
  (site: Site, feature: Feature, faces: readonly Face[], part: Part): readonly MilledVoid[] =>
    sameList(
      feature,
      work(feature, faces, site).map((m) => wide(m, widestFor(feature, m.neckMm, part))),
    ),
  { size: 4, by: (_, feature, faces, { tolerance }) => [feature, faces, tolerance?.name] },
);

/** As long as nothing near it changes it is the same object, for what is worked out from it. */
const wide = memo((m: MilledVoid, widestMm: number): MilledVoid => ({ ...m, widestMm }));
const sameList = memo((_: Feature, list: readonly MilledVoid[]) => list, { size: 4 });

/** The same of volumes in their surroundings, seen from one face: from the top where work is held at an angle. */
export function milledIn(
  feature: Feature,
  voids: readonly Void[],
  place: Place,
  part: Part,
  face: Face = 'top',
): readonly MilledVoid[] {
  if (!isMilled(feature)) return [];
  const made = voids.filter((v) => MILLED.has(v.role)).flatMap((v) => makeMilled(v, feature, [face], place) ?? []);
  return made.map((m) => ({
    ...(made.length > 1 ? joined(m, made) : m),
    widestMm: widestFor(feature, m.neckMm, part),
  }));
}

/**
 * What opens to a side and is cut only from there: a step from the side that it runs along, a slot that runs right through
 * from an end. The same box of air, down from that face; a slot with a fillet on its floor, which is no box, as from its own.
 */
export function fromItsSide(feature: Feature, part: Part, solid: Solid): readonly MilledVoid[] {
  if (feature.kind !== 'step' && !isChannel(feature)) return [];
  if (isChannel(feature) && feature.floorRadius.mm > 0)
    return milledFrom(siteOf(feature, solid), feature, [feature.face], part);
  const [face] = facesToJudge(feature, part, solid);
  if (!face || FACE_AXIS[face].axis === FACE_AXIS[feature.face].axis) return [];
  return milledIn(feature, sidewaysOf(feature, solid, face), solid, part, face);
}

const sidewaysOf = memo(
  (feature: Feature, solid: Solid, face: Face): readonly Void[] => {
    const { box } = solid.body;
    const frame = faceFrame(face, box.max, { u: 0, v: 0 });
    const [u, v, w] = [frame.u, frame.v, frame.w].map((d) => d.findIndex((c) => c !== 0)) as [number, number, number];
    return solid.voidsOf(feature.name).map(({ bounds, member, role }) => {
      const { min, max } = sharedBox(bounds, box, 0);
      const deep = [min[w]!, max[w]!].map((at) => (at - frame.origin[w]!) * frame.w[w]!);
      const [from, to] = [Math.min(...deep), Math.max(...deep)];
      const outer = rectLoop(min[u]!, min[v]!, max[u]!, max[v]!);
      const through = to >= box.max[w]! - box.min[w]! - SAME;
      return makeVoid(feature, { member, role, frame, region: { outer, holes: [] }, from, to, through });
    });
  },
  { owners: 'second', size: 4 },
);

function work(feature: Feature, approaches: readonly Face[], site: Site): readonly MilledVoid[] {
  const made = site.own
    .filter((v) => MILLED.has(v.role))
    .flatMap((v) => milledVoid(v, feature, approaches, site) ?? []);
  return made.map((m) => (made.length > 1 ? joined(m, made) : m));
}

/**
 * Of a pocket whose walls lean: what an upright cutter takes, straight up from its floor. The rest is a tapered one's.
 * Others are themselves.
 */
export function coreOf(v: Void): Void {
  return v.role === 'pocket' && v.profile.type === 'taper' ? uprightCore(v) : v;
}

const uprightCore = memo((v: Void): Void => {
  const [region, ...more] = (v.profile.type === 'taper' && insetRegion(v.region, v.profile.insetTo)) || [];
  // A floor in several pieces is left as it is: its corners are then those of its mouth.
  return region && more.length === 0 ? { ...v, region, profile: STRAIGHT } : v;
});

/** Worked out anew only when the feature, what stands or is cut beside it, or the faces it is judged from changed. */
function milledVoid(v: Void, feature: Feature, faces: readonly Face[], { body, voids }: Site): MilledVoid | undefined {
  return milledBeside(coreOf(v), feature, faces, { body, voids: beside(v, { voids }).map(coreOf) });
}

const milledBeside = memo(makeMilled, {
  size: 4,
  by: (_, feature, faces, { body, voids }) => [feature, faces, body, voids],
});

function makeMilled(v: Void, feature: Feature, faces: readonly Face[], place: Place): MilledVoid | undefined {
  const own = faces.filter((f) => Math.abs(dot(inward(f), v.frame.w)) > 1 - SAME);
  const face = own.includes(feature.face) ? feature.face : own[0];
  if (!face) return undefined;
  const ends = [v.from, v.to].map((w) => depthBelow(place, face, ofFrame(v.frame, 0, 0, w)));
  const neckMm = neckOf(v, feature, place, face);
  return {
    feature,
    of: v,
    face,
    bothSides: own.includes(OPPOSITE[face]) || (v.through && !('floorRadius' in feature && feature.floorRadius.mm > 0)),
    corners: insideCorners(v, place, face),
    neckMm,
    widestMm: neckMm,
    floorRadiusMm: v.through ? Number.POSITIVE_INFINITY : 'floorRadius' in feature ? feature.floorRadius.mm : 0,
    tipMm: v.through
      ? lowestDepth(
          v,
          place,
          place.voids.filter((o) => o.feature === v.feature),
          face,
        )
      : Math.max(...ends),
  };
}

/** A pocket with low islands comes in layers: a corner that goes on in the layer below is told of once, there. */
function joined(m: MilledVoid, all: readonly MilledVoid[]): MilledVoid {
  const under = all.filter((o) => o.of.member === m.of.member && Math.abs(o.of.from - m.of.to) < SAME);
  const over = all.filter((o) => o.of.member === m.of.member && o.of.to <= m.of.from + SAME);
  if (under.length === 0 && over.length === 0) return m;
  const same = (a: Corner, b: Corner) =>
    Math.abs(a.u - b.u) < SAME && Math.abs(a.v - b.v) < SAME && a.radiusMm === b.radiusMm;
  const corners = m.corners
    .filter((c) => !under.some((o) => o.corners.some((d) => same(c, d))))
    .map((c) => {
      const above = over.flatMap((o) => o.corners.filter((d) => same(c, d)));
      return { ...c, topMm: Math.min(c.topMm, ...above.map((d) => d.topMm)) };
    });
  return { ...m, corners };
}

/** The narrowest place between walls that stay; a region that lies wholly inside the body has one in any case. */
function neckOf(v: Void, feature: Feature, place: Place, face: Face): number {
  if (isChannel(feature) && feature.line.length === 2) return feature.width.mm;
  const { min, max } = place.body.box;
  const w = v.frame.w.findIndex((c) => Math.abs(c) > 0.5);
  const closed = [0, 1, 2].every((i) => i === w || (v.bounds.min[i]! > min[i]! && v.bounds.max[i]! < max[i]!));
  const alone = place.body.form === 'box' && place.voids.every((o) => o === v || apartInDepth(o, v, w));
  if (closed && alone) return ofShape(feature) ?? narrowestNeckMm(v.region);
  const between = narrowestNeckMm(v.region, (p) => !isWall(p, v, place, face));
  if (Number.isFinite(between) || !closed) return between;
  // No two walls face each other: as wide as its largest circle, unless a side is open.
  const open = regionEdges(v.region).some((e) => !isWall(pointAt(e, 0.5), v, place, face));
  return open ? between : narrowestNeckMm(v.region);
}

/** Known without measuring: a plain rectangle or circle. */
function ofShape(feature: Feature): number | undefined {
  if (feature.kind !== 'pocket' || feature.islands.length > 0 || feature.relief) return undefined;
  const { shape } = feature;
  if (shape.type === 'rectangle') return Math.min(shape.u.mm, shape.v.mm);
  return shape.type === 'circle' ? shape.diameter.mm : undefined;
}

function apartInDepth(a: Void, b: Void, axis: number): boolean {
  return a.bounds.min[axis]! >= b.bounds.max[axis]! - SAME || a.bounds.max[axis]! <= b.bounds.min[axis]! + SAME;
}

/** A mill goes round in it. */
const IS_MILLED: ByForm<[], boolean> = {
  hole: () => false,
  opening: () => true,
  channel: () => true,
  shoulder: () => true,
  outside: () => true,
  ring: ({ in: hole }) => !hole,
  edge: () => false,
  letters: () => false,
  slope: () => false,
};
const isMilled = (feature: Feature) => ofForm(IS_MILLED, feature);

/** The faces a feature is judged from: those of the set-ups that cut it, where they can; else every approach. */
export function facesToJudge(feature: Feature, part: Part, solid: Solid): readonly Face[] {
  const all = approachesOf(feature, part, solid);
  const ups = (part.setups ?? [])
    .filter((s) => s.cuts.some((c) => c.name === feature.name))
    .flatMap((s) => (s.up ? [s.up.name] : []));
  const told = all.filter((f) => ups.includes(f));
  return told.length > 0 ? told : all;
}
