/**
 * The cuts that make a slope along an edge: one pass of a cutter with that flank; or the side of an end mill that comes
 * along the edge from its end; or, with the work held at the slope's angle, the end of a mill as for any flat.
 */

import type { Solid, Void } from '../../geometry/types';
import { FACE_AXIS, FACE_PLANE, type Face, type Part, type Slope } from '../../model/model';
import type { ChamferMill, Mill, Shop } from '../../model/shop-model';
import { isCone } from '../../model/tool-kinds';
import { endMills, SAME_MM, SAME_REACH_MM } from '../cutters';
import type { PartInShop } from '../part-in-shop';
import type { Operation } from './types';

/** A flank within this of the slope makes it, degrees: half of what ISO 2768-1 m allows a short angle (1°). */
const SAME_DEG = 0.5;
/** What roughing leaves on the slope. Common practice: 0.1 to 0.3 mm. */
const LEFT_MM = 0.2;

type SlopeWay = 'flank' | 'end' | 'tilted';

/** In the order tried where no set-up says: each is less trouble than the next. */
const WAYS: readonly SlopeWay[] = ['flank', 'end', 'tilted'];

export function slopeOperations(feature: Slope, { part, solid, shop }: PartInShop): readonly Operation[] {
  const [v] = solid.voidsOf(feature.name);
  if (!v) return [];
  const told = waysTold(feature, part);
  for (const way of told.length > 0 ? told : WAYS) {
    const made = BY_WAY[way](feature, v, solid, shop);
    if (made) return made;
  }
  const { angle } = feature;
  const wanted = `chamfer mill of ${round(180 - 2 * angle.deg)}°, or an end mill reaching ${round(v.to - v.from)} mm along the edge`;
  return [{ feature, times: 1, does: 'missing', lacks: 'slope', wanted }];
}

/** Whether a tool on hand cuts it with this face up, the work held level. */
export function cutsSlopeFrom(feature: Slope, up: Face, solid: Solid, shop: Shop): boolean {
  const [v] = solid.voidsOf(feature.name);
  if (!v) return false;
  if (up === feature.face || up === feature.along.name) return flankFor(feature, shop, [up]) !== undefined;
  return endFaces(feature).includes(up) && BY_WAY.end(feature, v, solid, shop) !== undefined;
}

/** By the set-ups that cut it. */
function waysTold(feature: Slope, { setups }: Part): readonly SlopeWay[] {
  const cutting = (setups ?? []).filter((s) => s.up && s.cuts.some((c) => c.name === feature.name));
  return cutting.map((s) => {
    if (s.hold?.type === 'angle') return 'tilted';
    return s.up!.name === feature.face || s.up!.name === feature.along.name ? 'flank' : 'end';
  });
}

const BY_WAY: Readonly<
  Record<SlopeWay, (f: Slope, v: Void, solid: Solid, shop: Shop) => readonly Operation[] | undefined>
> = {
  flank(feature, v, _solid, shop) {
    const found = flankFor(feature, shop);
    if (!found) return undefined;
    const { tool, from } = found;
    const depthMm = from === feature.face ? feature.depthMm : feature.widthMm;
    return [{ feature, times: 1, does: 'chamfer', tool, wayMm: v.to - v.from, depthMm, how: `from ${from}` }];
  },
  end(feature, v, solid, shop) {
    const lengthMm = v.to - v.from;
    const mill = endMills(shop).find((m) => m.reachMm >= lengthMm - SAME_REACH_MM);
    if (!mill) return undefined;
    const how = `along the edge, from ${endFaces(feature)[0]}`;
    return [
      { ...roughed(feature, v, solid, mill), depthMm: lengthMm, how },
      {
        feature,
        times: 1,
        does: 'finish',
        tool: mill,
        wayMm: slopeMm(feature),
        depthMm: lengthMm,
        wideMm: LEFT_MM,
        how,
      },
    ];
  },
  tilted(feature, v, solid, shop) {
    const flat = endMills(shop).filter((m) => m.cornerRadiusMm <= 0.25 * m.diameterMm);
    const highMm = (feature.widthMm * feature.depthMm) / slopeMm(feature);
    // As wide as the slope is enough: a wider one gains nothing.
    const mill = [...flat].reverse().find((m) => m.diameterMm >= slopeMm(feature)) ?? flat[0];
    if (!mill) return undefined;
    const how = `held at ${round(feature.angle.deg)}°`;
    const [lengthMm, widthMm] = [v.to - v.from, slopeMm(feature)];
    return [
      { ...roughed(feature, v, solid, mill), depthMm: highMm, how },
      { feature, times: 1, does: 'face', tool: mill, lengthMm, widthMm, depthMm: Math.min(LEFT_MM, highMm), how },
    ];
  },
};

function roughed(feature: Slope, v: Void, solid: Solid, tool: Mill) {
  const volumeMm3 = solid.insideMm3(v);
  // Across the slope it is as thick as the triangle is high.
  const wideMm = (feature.widthMm * feature.depthMm) / slopeMm(feature);
  return { feature, times: 1, does: 'rough', tool, volumeMm3, neckMm: Number.POSITIVE_INFINITY, wideMm } as const;
}

/** The cutter on hand with the slope's flank, from above or from the side, whose cone is as long as the slope. */
function flankFor(
  feature: Slope,
  shop: Shop,
  ups: readonly Face[] = [feature.face, feature.along.name],
): { readonly tool: ChamferMill; readonly from: Face } | undefined {
  const cones = shop.tools.filter(isCone);
  for (const tool of cones) {
    const half = tool.angleDeg / 2;
    const coneMm = (tool.diameterMm - tool.tipMm) / 2 + SAME_MM;
    const [above, beside] = [ups.includes(feature.face), ups.includes(feature.along.name)];
    if (above && Math.abs(90 - half - feature.angle.deg) < SAME_DEG && coneMm >= feature.widthMm)
      return { tool, from: feature.face };
    if (beside && Math.abs(half - feature.angle.deg) < SAME_DEG && coneMm >= feature.depthMm)
      return { tool, from: feature.along.name };
  }
  return undefined;
}

/** The faces at the two ends of the edge. */
function endFaces(feature: Slope): readonly Face[] {
  const axis = FACE_PLANE[feature.face].find((a) => a !== FACE_AXIS[feature.along.name].axis)!;
  return (Object.keys(FACE_AXIS) as Face[]).filter((f) => FACE_AXIS[f].axis === axis);
}

function slopeMm({ widthMm, depthMm }: Slope): number {
  return Math.hypot(widthMm, depthMm);
}

function round(value: number): number {
  return Number(value.toFixed(2));
}
