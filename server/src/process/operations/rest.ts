/**
 * What a round cutter leaves in the inside corners of an outline: the outline less all that a circle of the cutter's
 * radius covers while it stays inside. Exact where every side of the outline is a wall; where some sides are open, corner
 * by corner, between straight walls.
 */

import { tangentAt } from '../../geometry/2d/edge';
import { regionMoments } from '../../geometry/2d/moments';
import { insetRegion } from '../../geometry/2d/offset';
import type { Region, Void } from '../../geometry/types';
import { memo } from '../../memo';
import { ROUNDING } from '../../tolerance';
import type { MilledVoid } from '../milling';

/** mm² that a cutter of this radius does not reach; 0 where it goes into every corner. */
export function restAreaMm2(m: MilledVoid, radiusMm: number, closed: boolean): number {
  const tight = m.corners.filter((c) => c.radiusMm < radiusMm - ROUNDING);
  if (tight.length === 0 && 2 * radiusMm <= m.neckMm + ROUNDING) return 0;
  // Of a bulging outline each corner is left by itself: no need to move it in and out.
  const whole = closed && !bulges(m.of.region) ? leftBy(m.of, radiusMm) : undefined;
  return whole ?? tight.reduce((sum, c) => sum + cornerAreaMm2(c.turnDeg, c.radiusMm, radiusMm), 0);
}

/** It has no islands and nowhere turns inward: what is too wide for its narrowest place gets in nowhere. */
export const bulges = memo(({ outer: { edges }, holes }: Region): boolean => {
  if (holes.length > 0) return false;
  return edges.every((e, i) => {
    if (e.type === 'arc' && !e.ccw) return false;
    const next = edges[(i + 1) % edges.length]!;
    const [t, n] = [tangentAt(e, e.b), tangentAt(next, next.a)];
    return t.u * n.v - t.v * n.u >= -ROUNDING;
  });
});

/** The share of a closed outline that a cutter too wide for its narrowest place covers all the same, 0 … 1; undefined where it cannot be told. */
export function coveredShare(m: MilledVoid, radiusMm: number): number | undefined {
  const left = leftBy(m.of, radiusMm);
  return left === undefined ? undefined : 1 - left / regionMoments(m.of.region).area;
}

/**
 * Left in one corner between two straight walls that turn by `turnDeg`, rounded with `cornerMm`, by a cutter of
 * `radiusMm`: (R² − r²)(tan(t/2) − t/2), from the tangent quadrilateral less the sector.
 */
export function cornerAreaMm2(turnDeg: number, cornerMm: number, radiusMm: number): number {
  const half = Math.min(85, turnDeg / 2) * (Math.PI / 180);
  return Math.max(0, radiusMm ** 2 - cornerMm ** 2) * (Math.tan(half) - half);
}

/** Each of a shop's cutters is tried. */
const leftBy = memo((v: Void, radiusMm: number): number | undefined => openingLeftMm2(v.region, radiusMm), {
  size: 32,
});

/** The region's area less its opening by a disc; undefined where the outline moved in and out again does not join up. */
export function openingLeftMm2(region: Region, radiusMm: number): number | undefined {
  const middles = insetRegion(region, radiusMm);
  if (!middles) return undefined;
  let covered = 0;
  for (const middle of middles) {
    const swept = insetRegion(middle, -radiusMm);
    if (!swept) return undefined;
    covered += swept.reduce((sum, r) => sum + regionMoments(r).area, 0);
  }
  return Math.max(0, regionMoments(region).area - covered);
}
