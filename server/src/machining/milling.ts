/**
 * What a milled feature asks of a cutter: its inside corners, its narrowest place, and how far down each must be
 * reached, from the approach that asks least. Of the part alone; which cutters a shop has comes in at the end.
 */
import { narrowestNeckMm } from '../geometry/distance/neck';
import { edgeRect } from '../geometry/edge';
import { regionEdges } from '../geometry/moments';
import type { Solid, Vec3, Void } from '../geometry/types';
import { type Face, type Feature, OPPOSITE, type Part } from '../spec/model';
import type { Mill, Shop } from '../spec/shop-model';
import { approachesOf } from './approach';
import { beside, depthBelow, inward, type Place } from './column';
import { type Corner, insideCorners, isWall } from './corners';
import { fitting, type Gap, shankRadius } from './cutters';
import { beforeEdges, highestBeside, SHANK_CLEARANCE_MM } from './reach';
import { dot, insideBy, ofFrame } from './section';

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
  /** Between wall and floor; infinite where it ends on none. */
  readonly floorRadiusMm: number;
  /** Where the tip is at its deepest, below `face`. */
  readonly tipMm: number;
}

const MILLED: ReadonlySet<Void['role']> = new Set(['pocket', 'slot', 'step', 'contour', 'groove']);
const kept = new WeakMap<Solid, Map<string, readonly MilledVoid[]>>();

/** The milled volumes of a feature, one for each member of a pattern; none for holes, edges, undercuts, leaning ones. */
export function milledVoids(feature: Feature, part: Part, solid: Solid): readonly MilledVoid[] {
  let byName = kept.get(solid);
  if (!byName) {
    byName = new Map();
    kept.set(solid, byName);
  }
  let found = byName.get(feature.name);
  if (!found) {
    found = work(feature, part, solid);
    byName.set(feature.name, found);
  }
  return found;
}

function work(feature: Feature, part: Part, solid: Solid): readonly MilledVoid[] {
  if (!isMilled(feature)) return [];
  const approaches = facesToJudge(feature, part, solid);
  const made = solid
    .voidsOf(feature.name)
    .filter((v) => MILLED.has(v.role))
    .flatMap((v) => milledVoid(v, feature, approaches, solid) ?? []);
  return made.map((m) => (made.length > 1 ? joined(m, made) : m));
}

interface Made {
  readonly feature: Feature;
  readonly body: Solid['body'];
  readonly approaches: string;
  readonly near: readonly Void[];
  readonly made: MilledVoid | undefined;
}
const keptVoids = new WeakMap<Void, Made>();

/** Worked out anew only when the feature, what stands or is cut beside it, or the faces it is judged from changed. */
function milledVoid(v: Void, feature: Feature, faces: readonly Face[], solid: Solid): MilledVoid | undefined {
  const near = beside(v, solid);
  const approaches = faces.join();
  const known = keptVoids.get(v);
  const same =
    known?.feature === feature &&
    known.body === solid.body &&
    known.approaches === approaches &&
    known.near.length === near.length &&
    known.near.every((n, i) => n === near[i]);
  if (same) return known.made;
  const made = makeMilled(v, feature, faces, { body: solid.body, voids: near });
  keptVoids.set(v, { feature, body: solid.body, approaches, near, made });
  return made;
}

function makeMilled(v: Void, feature: Feature, faces: readonly Face[], place: Place): MilledVoid | undefined {
  const own = faces.filter((f) => Math.abs(dot(inward(f), v.frame.w)) > 1 - 1e-6);
  const face = own.includes(feature.face) ? feature.face : own[0];
  if (!face) return undefined;
  const ends = [v.from, v.to].map((w) => depthBelow(place, face, ofFrame(v.frame, 0, 0, w)));
  return {
    feature,
    of: v,
    face,
    bothSides: own.includes(OPPOSITE[face]),
    corners: insideCorners(v, place, face),
    neckMm: neckOf(v, feature, place, face),
    floorRadiusMm: v.through ? Number.POSITIVE_INFINITY : 'floorRadius' in feature ? feature.floorRadius.mm : 0,
    tipMm: Math.max(...ends),
  };
}

/** A pocket with low islands comes in layers: a corner that goes on in the layer below is told of once, there. */
function joined(m: MilledVoid, all: readonly MilledVoid[]): MilledVoid {
  const under = all.filter((o) => o.of.member === m.of.member && Math.abs(o.of.from - m.of.to) < 1e-6);
  const over = all.filter((o) => o.of.member === m.of.member && o.of.to <= m.of.from + 1e-6);
  if (under.length === 0 && over.length === 0) return m;
  const same = (a: Corner, b: Corner) =>
    Math.abs(a.u - b.u) < 1e-6 && Math.abs(a.v - b.v) < 1e-6 && a.radiusMm === b.radiusMm;
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
  if (feature.kind === 'slot' && feature.line.length === 2) return feature.width.mm;
  const { min, max } = place.body.box;
  const w = v.frame.w.findIndex((c) => Math.abs(c) > 0.5);
  const closed = [0, 1, 2].every((i) => i === w || (v.bounds.min[i]! > min[i]! && v.bounds.max[i]! < max[i]!));
  const alone = place.body.form === 'box' && place.voids.every((o) => o === v || apartInDepth(o, v, w));
  if (closed && alone) return ofShape(feature) ?? narrowestNeckMm(v.region);
  const between = narrowestNeckMm(v.region, (p) => !isWall(p, v, place, face));
  return Number.isFinite(between) || !closed ? between : narrowestNeckMm(v.region);
}

/** Known without measuring: a plain rectangle or circle. */
function ofShape(feature: Feature): number | undefined {
  if (feature.kind !== 'pocket' || feature.islands.length > 0 || feature.relief) return undefined;
  const { shape } = feature;
  if (shape.type === 'rectangle') return Math.min(shape.u.mm, shape.v.mm);
  return shape.type === 'circle' ? shape.diameter.mm : undefined;
}

function apartInDepth(a: Void, b: Void, axis: number): boolean {
  return a.bounds.min[axis]! >= b.bounds.max[axis]! - 1e-6 || a.bounds.max[axis]! <= b.bounds.min[axis]! + 1e-6;
}

function isMilled(feature: Feature): boolean {
  if (feature.kind === 'groove') return !feature.in;
  return feature.kind === 'pocket' || feature.kind === 'slot' || feature.kind === 'step' || feature.kind === 'contour';
}

/** The faces a feature is judged from: those of the set-ups that cut it, where they can; else every approach. */
export function facesToJudge(feature: Feature, part: Part, solid: Solid): readonly Face[] {
  const all = approachesOf(feature, part, solid);
  const ups = (part.setups ?? [])
    .filter((s) => s.cuts.some((c) => c.name === feature.name))
    .flatMap((s) => (s.up ? [s.up.name] : []));
  const told = all.filter((f) => ups.includes(f));
  return told.length > 0 ? told : all;
}

/** How far a mill of this shank radius must reach to cut a corner down to its foot, mm. */
export function cornerReach(
  m: MilledVoid,
  corner: Corner,
  solid: Solid,
  cutterRadiusMm: number,
  shankMm: number,
): number {
  // The wall itself stands to the very top: nothing can ask for more.
  if (corner.topMm <= 1e-9) return corner.floorMm;
  // The axis of the tool when it stands in the corner: on the bisector, its own radius off both walls.
  const p = ofFrame(m.of.frame, corner.u, corner.v, m.of.to);
  const base = corner.radiusMm > 0 ? corner.radiusMm : cutterRadiusMm;
  const radius = base + Math.max(0, shankMm - cutterRadiusMm) + SHANK_CLEARANCE_MM;
  const highest = Math.min(corner.topMm, highestBeside(solid, m.face, p, radius, corner.floorMm, beforeEdges));
  return corner.floorMm - highest;
}

/** How far a mill must reach to follow the whole outline: the worst of points along the walls, mm. */
export function outlineReach(m: MilledVoid, solid: Solid, cutterRadiusMm: number, shankMm: number): number {
  let most = 0;
  for (const p of axisPoints(m, solid, cutterRadiusMm)) {
    const highest = highestBeside(solid, m.face, p, shankMm + SHANK_CLEARANCE_MM, m.tipMm, beforeEdges);
    most = Math.max(most, m.tipMm - highest);
    if (most >= m.tipMm - 1e-9) break;
  }
  return most;
}

/** Where the axis of a cutter stands while it follows the walls, over the body: a few points on each edge. */
function axisPoints(m: MilledVoid, solid: Solid, radiusMm: number): readonly Vec3[] {
  const points: Vec3[] = [];
  const { min, max } = solid.body.box;
  for (const e of regionEdges(m.of.region)) {
    const rect = edgeRect(e);
    const n = Math.min(5, 1 + Math.ceil(Math.hypot(rect.u1 - rect.u0, rect.v1 - rect.v0) / 15));
    for (let i = 0; i < n; i++) {
      const { u, v } = offEdge(e, (i + 0.5) / n, Math.max(0, radiusMm - 1e-3));
      if (insideBy(m.of.region, { u, v }) < radiusMm * 0.9) continue;
      const p = ofFrame(m.of.frame, u, v, m.of.to);
      const over = [0, 1, 2].every((k) => p[k]! >= min[k]! - radiusMm && p[k]! <= max[k]! + radiusMm);
      if (over) points.push(p);
    }
  }
  return points;
}

/** A point `by` mm to the left of an edge (inside its region), at a share of its length. */
function offEdge(e: ReturnType<typeof regionEdges>[number], share: number, by: number): { u: number; v: number } {
  if (e.type === 'line') {
    const [du, dv] = [e.b.u - e.a.u, e.b.v - e.a.v];
    const l = Math.hypot(du, dv) || 1;
    return { u: e.a.u + du * share - (dv / l) * by, v: e.a.v + dv * share + (du / l) * by };
  }
  const from = Math.atan2(e.a.v - e.centre.v, e.a.u - e.centre.u);
  const full = e.a.u === e.b.u && e.a.v === e.b.v;
  const to = Math.atan2(e.b.v - e.centre.v, e.b.u - e.centre.u);
  let sweep = full ? 2 * Math.PI : e.ccw ? to - from : from - to;
  if (sweep <= 0) sweep += 2 * Math.PI;
  const angle = from + (e.ccw ? 1 : -1) * sweep * share;
  const r = Math.max(0, e.ccw ? e.radius - by : e.radius + by);
  return { u: e.centre.u + r * Math.cos(angle), v: e.centre.v + r * Math.sin(angle) };
}

export interface Choice {
  /** The largest that fits, whatever it reaches. */
  readonly largest?: Mill;
  /** The largest that fits and reaches. */
  readonly reaching?: Mill;
  /** The longest of those that fit. */
  readonly longest?: Mill;
  /** What the smallest of those that fit (or, without one, a cutter that fills the gap) must reach, mm. */
  neededMm(): number;
}

/** The shop's cutters for a whole outline, its corners aside. */
export function choiceForOutline(m: MilledVoid, solid: Solid, shop: Shop): Choice {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.neckMm, floorRadiusMm: floorGap(m) };
  const widest = Math.min(m.neckMm / 2, 3);
  return choose(fitting(shop, gap), widest, m.tipMm, (cutter, shank) => outlineReach(m, solid, cutter, shank));
}

/** The shop's cutters for one corner. */
export function choiceForCorner(m: MilledVoid, corner: Corner, solid: Solid, shop: Shop): Choice {
  const gap: Gap = { radiusMm: corner.radiusMm, neckMm: m.neckMm, floorRadiusMm: floorGap(m) };
  return choose(fitting(shop, gap), corner.radiusMm, corner.floorMm, (cutter, shank) =>
    cornerReach(m, corner, solid, cutter, shank),
  );
}

/** A radius between wall and floor is judged by its own rule: here any cutter's end will do. */
function floorGap(m: MilledVoid): number {
  return m.floorRadiusMm > 0 ? Number.POSITIVE_INFINITY : 0;
}

/** `mills` largest first; none needs more than `mostMm`, the depth below the face. */
function choose(
  mills: readonly Mill[],
  radiusMm: number,
  mostMm: number,
  needed: (cutterRadiusMm: number, shankMm: number) => number,
): Choice {
  const smallest = mills[mills.length - 1];
  const longest = mills.reduce<Mill | undefined>(
    (best, m) => (best && best.reachMm >= m.reachMm ? best : m),
    undefined,
  );
  let least: number | undefined;
  const neededMm = () => {
    // A thicker tool meets more beside it, so the smallest asks least.
    least ??= smallest ? needed(smallest.diameterMm / 2, shankRadius(smallest)) : needed(radiusMm, radiusMm);
    return least;
  };
  const reaching = mills.find((m) => {
    if (m.reachMm >= mostMm - 1e-6) return true;
    if (m.reachMm < neededMm() - 1e-6) return false;
    return m.reachMm >= needed(m.diameterMm / 2, shankRadius(m)) - 1e-6;
  });
  return {
    ...(mills[0] && { largest: mills[0] }),
    ...(reaching && { reaching }),
    ...(longest && { longest }),
    neededMm,
  };
}
