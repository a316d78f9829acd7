/**
 * Which of a shop's end mills a milled volume can be cut with: how far each must reach for a corner, or all along the
 * outline, and the largest that fits and reaches.
 */

import { edgeRect, pointAt, tangentAt } from '../geometry/2d/edge';
import { regionEdges } from '../geometry/2d/moments';
import { nearTo } from '../geometry/solid/near';
import type { Edge, Point2, Vec3 } from '../geometry/types';
import { boxesNear } from '../geometry/vector';
import { memo } from '../memo';
import type { Mill, Shop } from '../model/shop-model';
import { HAIR, ROUNDING, SAME } from '../tolerance';
import { inward, type Place } from './column';
import type { Corner } from './corners';
import { fitting, type Gap, SAME_REACH_MM, shankRadius } from './cutters';
import type { MilledVoid } from './milling';
import { highestBeside, SHANK_CLEARANCE_MM } from './reach';
import { add, insideBy, ofFrame } from './section';

/** How far a mill of this shank radius must reach to cut a corner down to its foot, mm. */
export function cornerReach(
  m: MilledVoid,
  corner: Corner,
  solid: Place,
  cutterRadiusMm: number,
  shankMm: number,
): number {
  // The wall itself stands to the very top: nothing can ask for more.
  if (corner.topMm <= ROUNDING) return corner.floorMm;
  // The axis of the tool when it stands in the corner: on the bisector, its own radius off both walls.
  const p = ofFrame(m.of.frame, corner.u, corner.v, m.of.to);
  const base = corner.radiusMm > 0 ? corner.radiusMm : cutterRadiusMm;
  const radius = base + Math.max(0, shankMm - cutterRadiusMm) + SHANK_CLEARANCE_MM;
  const highest = Math.min(corner.topMm, highestBeside(solid, m.face, p, radius, corner));
  return corner.floorMm - highest;
}

/**
 * How far a mill must reach to follow the whole outline: the worst of points along the walls, mm. Once it is more than
 * `untilMm`, how much more is not worked out.
 */
export function outlineReach(
  m: MilledVoid,
  { body, voids }: Place,
  cutterRadiusMm: number,
  shankMm: number,
  untilMm = m.tipMm,
): number {
  const by = cutterRadiusMm + shankMm + SHANK_CLEARANCE_MM;
  const far = inward(m.face).map((c) => (c === 0 ? by : Number.POSITIVE_INFINITY)) as unknown as Vec3;
  const { min, max } = m.of.bounds;
  const box = { min: add(min, far, -1), max: add(max, far) };
  const near = nearTo(voids, box).filter((v) => boxesNear(v.bounds, box, 0));
  return reachAlong(m, { body, voids: near }, cutterRadiusMm, shankMm, untilMm);
}

/** Worked out anew where something changed that the shank may stand beside. */
const reachAlong = memo(findReach, {
  size: 8,
  by: (_, { body, voids }, cutterRadiusMm, shankMm, untilMm) => [body, voids, cutterRadiusMm, shankMm, untilMm],
});

function findReach(m: MilledVoid, solid: Place, cutterRadiusMm: number, shankMm: number, untilMm: number): number {
  let most = 0;
  for (const p of axisPoints(m, solid, cutterRadiusMm)) {
    const enough = Math.max(0, m.tipMm - untilMm - SAME);
    const highest = highestBeside(solid, m.face, p, shankMm + SHANK_CLEARANCE_MM, {
      floorMm: m.tipMm,
      enoughMm: enough,
    });
    most = Math.max(most, m.tipMm - highest);
    if (most > untilMm + SAME || most >= m.tipMm - ROUNDING) break;
  }
  return most;
}

/** Where the axis of a cutter stands while it follows the walls, over the body: a few points on each edge. */
function axisPoints(m: MilledVoid, solid: Place, radiusMm: number): readonly Vec3[] {
  const points: Vec3[] = [];
  const { min, max } = solid.body.box;
  for (const e of regionEdges(m.of.region)) {
    const rect = edgeRect(e);
    const n = Math.min(5, 1 + Math.ceil(Math.hypot(rect.u1 - rect.u0, rect.v1 - rect.v0) / 15));
    for (let i = 0; i < n; i++) {
      const { u, v } = offEdge(e, (i + 0.5) / n, Math.max(0, radiusMm - HAIR));
      if (insideBy(m.of.region, { u, v }) < radiusMm * 0.9) continue;
      const p = ofFrame(m.of.frame, u, v, m.of.to);
      const over = [0, 1, 2].every((k) => p[k]! >= min[k]! - radiusMm && p[k]! <= max[k]! + radiusMm);
      if (over) points.push(p);
    }
  }
  return points;
}

/** A point `by` mm to the left of an edge (inside its region), at a share of its length. */
function offEdge(e: Edge, share: number, by: number): Point2 {
  const p = pointAt(e, share);
  const t = tangentAt(e, p);
  return { u: p.u - t.v * by, v: p.v + t.u * by };
}

export interface Choice {
  /** The largest that fits, whatever it reaches. */
  readonly largest?: Mill;
  /** The largest that fits and reaches. */
  readonly reaching?: Mill;
  /** The longest of those that fit. */
  readonly longest?: Mill;
  /** What the slimmest of those that fit (or, without one, a cutter that fills the gap) must reach, mm. */
  neededMm(): number;
}

/** The shop's cutters for a whole outline, its corners aside. */
export function choiceForOutline(m: MilledVoid, solid: Place, shop: Shop): Choice {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.widestMm, floorRadiusMm: floorGap(m) };
  const widest = Math.min(m.widestMm / 2, 3);
  return choose(fitting(shop, gap), widest, m.tipMm, (cutter, shank, until) =>
    outlineReach(m, solid, cutter, shank, until),
  );
}

/** The shop's cutters for one corner. */
export function choiceForCorner(m: MilledVoid, corner: Corner, solid: Place, shop: Shop): Choice {
  const gap: Gap = { radiusMm: corner.radiusMm, neckMm: m.widestMm, floorRadiusMm: floorGap(m) };
  return choose(fitting(shop, gap), corner.radiusMm, corner.floorMm, (cutter, shank) =>
    cornerReach(m, corner, solid, cutter, shank),
  );
}

/** A radius between wall and floor is judged by its own rule: here any cutter's end will do. */
function floorGap(m: MilledVoid): number {
  return m.floorRadiusMm > 0 ? Number.POSITIVE_INFINITY : 0;
}

/** Those of `mills` (any order) that reach all along the outline. */
export function reachingAlong(m: MilledVoid, mills: readonly Mill[], solid: Place): readonly Mill[] {
  const reaches = judge(mills, m.tipMm, (cutter, shank, until) => outlineReach(m, solid, cutter, shank, until));
  return mills.filter((mill) => reaches.of(mill));
}

/** `mills` largest first; none needs more than `mostMm`, the depth below the face. */
function choose(mills: readonly Mill[], radiusMm: number, mostMm: number, needed: Needed): Choice {
  const reaches = judge(mills, mostMm, needed);
  const longest = mills.reduce<Mill | undefined>(
    (best, m) => (best && best.reachMm >= m.reachMm ? best : m),
    undefined,
  );
  const reaching = mills.find((m) => reaches.of(m));
  const neededMm = () => reaches.leastMm() ?? needed(radiusMm, radiusMm);
  return {
    ...(mills[0] && { largest: mills[0] }),
    ...(reaching && { reaching }),
    ...(longest && { longest }),
    neededMm,
  };
}

/** Says of each mill whether it reaches: measured only until that is known. */
function judge(
  mills: readonly Mill[],
  mostMm: number,
  needed: Needed,
): { of(mill: Mill): boolean; leastMm(): number | undefined } {
  // A thicker tool meets more beside it, so the one with the thinnest shank asks least.
  const thinnest = mills.reduce<Mill | undefined>(
    (best, m) => (best && shankRadius(best) <= shankRadius(m) ? best : m),
    undefined,
  );
  return {
    of: (m) =>
      m.reachMm >= mostMm - SAME_REACH_MM ||
      needed(m.diameterMm / 2, shankRadius(m), m.reachMm) <= m.reachMm + SAME_REACH_MM,
    leastMm: () => thinnest && needed(thinnest.diameterMm / 2, shankRadius(thinnest)),
  };
}

/** Reach that a cutter and shank of these radii need, mm; need not be exact beyond `untilMm`. */
type Needed = (cutterRadiusMm: number, shankMm: number, untilMm?: number) => number;
