/** A cutter from its tip up, as what it may run into sees it. */

import type { Shop, Tool, UndercutMill } from '../../model/shop-model';
import { bodyOf, homeOfTool, isUndercutter } from '../../model/tool-kinds';
import { HAIR, SAME } from '../../tolerance';
import { shapeOf } from '../access/shape';
import type { Stage } from './centre-area';

/** A flank that leans or is round is looked at in so many places. */
const LOOKS = [0.001, 0.25, 0.5, 0.75, 0.999] as const;

/** Its cut, and its neck, arbor or shank where another thickness begins. The first is the one that cuts. */
export function stagesOf(tool: Tool, shop: Shop): readonly Stage[] {
  if (isUndercutter(tool)) return headed(tool);
  const disc = homeOfTool(tool).disc(tool);
  if (disc)
    return [
      { fromMm: HAIR, radiusMm: tool.diameterMm / 2 },
      { fromMm: disc.thicknessMm, radiusMm: disc.hubRadiusMm },
    ];
  const { cutRadiusMm, shankRadiusMm } = bodyOf(tool);
  const { reachMm } = shapeOf(tool, shop);
  const corner = 'cornerRadiusMm' in tool ? tool.cornerRadiusMm : 0;
  const cuts = { fromMm: Math.max(HAIR, corner), radiusMm: cutRadiusMm };
  return shankRadiusMm > cutRadiusMm + SAME ? [cuts, { fromMm: reachMm, radiusMm: shankRadiusMm }] : [cuts];
}

function headed({ diameterMm, neckMm, thicknessMm, angleDeg }: UndercutMill): readonly Stage[] {
  const radiusMm = diameterMm / 2;
  const above = { fromMm: thicknessMm, radiusMm: neckMm / 2 };
  const at = (h: number, r: number): Stage => ({ fromMm: h, toMm: h + HAIR, radiusMm: r });
  // As high as it is wide: a ball, which cuts with its middle. That height comes first.
  if (thicknessMm >= diameterMm && angleDeg === undefined)
    return [1, ...LOOKS.map((t) => 2 * t)]
      .map((t) => at(t * radiusMm, radiusMm * Math.sqrt(Math.max(0, t * (2 - t)))))
      .concat(above);
  if (angleDeg === undefined) return [{ fromMm: HAIR, radiusMm }, above];
  const slope = 1 / Math.tan((angleDeg * Math.PI) / 180);
  return [...LOOKS.map((t) => at(t * thicknessMm, radiusMm - t * thicknessMm * slope)), above];
}
