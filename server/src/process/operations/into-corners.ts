/**
 * Inside corners that only a thin cutter makes, which is too short to go all round: a larger one finishes the walls, and the
 * thin one goes into the corners alone, where less stands beside it.
 */
import type { Mill, Shop } from '../../model/shop-model';
import { cornerReach } from '../choice';
import type { Place } from '../column';
import { endMills, fits, SAME_REACH_MM, shankRadius } from '../cutters';
import type { MilledVoid } from '../milling';
import { restAreaMm2 } from './rest';
import type { Volume } from './shares';
import type { Roughing } from './types';
import { restWidth } from './widths';

export interface IntoCorners {
  readonly tool: Mill;
  /** To the foot of the deepest, from what stands beside it, mm. */
  readonly depthMm: number;
}

/** The largest that goes into every rounded corner and down to its foot; undefined where none does. */
export function cornerMill(m: MilledVoid, place: Place, shop: Shop): IntoCorners | undefined {
  const rounded = m.corners.filter((c) => c.radiusMm > 0);
  if (rounded.length === 0) return undefined;
  const radiusMm = Math.min(...rounded.map((c) => c.radiusMm));
  // As elsewhere: a corner on the cutter's end is asked of where the floor has a radius of its own.
  const gap = { radiusMm, neckMm: m.widestMm, floorRadiusMm: m.floorRadiusMm };
  for (const tool of endMills(shop)) {
    if (!fits(tool, gap)) continue;
    const [cut, shank] = [tool.diameterMm / 2, shankRadius(tool)];
    const depthMm = Math.max(...rounded.map((c) => cornerReach(m, c, place, cut, shank)));
    if (tool.reachMm >= depthMm - SAME_REACH_MM) return { tool, depthMm };
  }
  return undefined;
}

/** What it takes out there, after a larger cutter went round. */
export function cornersAfter({ tool, depthMm }: IntoCorners, round: Mill, volume: Volume): Roughing {
  const { m, closed, room, fullMm, piece: told } = volume;
  const leftMm2 = restAreaMm2(m, round.diameterMm / 2, closed) - restAreaMm2(m, tool.diameterMm / 2, closed);
  return {
    ...told,
    does: 'rest',
    tool,
    volumeMm3: Math.max(0, leftMm2) * Math.min(fullMm, depthMm),
    depthMm,
    neckMm: room.neckMm,
    wideMm: restWidth(m, room, round, tool),
  };
}
