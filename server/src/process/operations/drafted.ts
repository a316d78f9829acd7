/** Walls that lean: an upright mill clears what stands over the floor, and a tapered one of their angle goes round them. */
import type { Pocket } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { SAME_MM, SAME_REACH_MM, SHARP_MM, taperedMills } from '../cutters';
import { milledVoids } from '../milling';
import type { PartInShop } from '../part-in-shop';
import { askedOf, toolAsked } from './asked';
import type { Operation } from './types';

/** A tapered mill of nearly the angle is one of the angle. */
const SAME_DEG = 0.1;

export function draftedOperations(
  pocket: Pocket,
  upright: readonly Operation[],
  { part, solid, shop }: PartInShop,
): readonly Operation[] {
  const { draft, depth } = pocket;
  if (!draft || upright.some((o) => o.does === 'missing' && o.lacks === 'mill')) return upright;
  const corners = milledVoids(pocket, part, solid).flatMap((m) => m.corners.map((c) => c.radiusMm));
  const necks = milledVoids(pocket, part, solid).map((m) => m.widestMm / 2);
  const most = 2 * Math.min(...necks, ...corners.filter((r) => r > 0));
  const makes = (t: Mill) =>
    Math.abs((t.taperDeg ?? 0) - draft.deg) <= SAME_DEG &&
    t.diameterMm <= most + SAME_MM &&
    t.cornerRadiusMm <= SHARP_MM &&
    Math.min(t.fluteLengthMm, t.reachMm) >= depth.mm - SAME_REACH_MM;
  const asked = askedOf(toolAsked(pocket.name, part, shop), 'end-mill');
  const tool = asked && makes(asked) ? asked : taperedMills(shop).find(makes);
  // On the wall it finds a wedge: on average half as thick as it is at the mouth.
  const wideMm = (depth.mm * Math.tan((draft.deg * Math.PI) / 180)) / 2;
  const size = Number.isFinite(most) ? `, its tip at most ${Number(most.toFixed(2))} mm` : '';
  const wanted = `tapered end mill of ${Number(draft.deg.toFixed(2))}° a side${size}, cutting ${Number(depth.mm.toFixed(2))} mm deep`;
  return upright.map((o): Operation => {
    if (o.does !== 'finish') return o;
    const { tool: _, wayMm, depthMm, wideMm: __, does, ...told } = o;
    return tool
      ? { ...told, does, tool, wayMm, depthMm, wideMm: Math.max(wideMm, o.wideMm) }
      : { feature: pocket, times: o.times, does: 'missing', lacks: 'mill', wanted };
  });
}
