/** Why the tools on hand that could have been meant for a feature do not cut it: each that was not chosen, and the reason. */

import type { Feature } from '../../model/model';
import type { Mill, Shop, Tool } from '../../model/shop-model';
import { SAME } from '../../tolerance';
import { cornerReach, outlineReach } from '../choice';
import type { Place } from '../column';
import { endMills, roughers, SAME_MM, shankRadius } from '../cutters';
import type { MilledVoid } from '../milling';
import type { PartInShop } from '../part-in-shop';
import { operationsOf } from './';
import { passedOverForms } from './passed-over-forms';
import { passedOverBores } from './passed-over-holes';
import { milledSeen } from './seen';
import type { PassedOver } from './types';

/** In the shop's order; of milled outlines those next in size to what was chosen first. */
export function passedOverOf(feature: Feature, inShop: PartInShop): readonly PassedOver[] {
  const { part, solid, shop } = inShop;
  const operations = operationsOf(feature, inShop);
  const chosen = new Set<Tool>(operations.flatMap((o) => ('tool' in o ? [o.tool] : [])));
  if (feature.kind === 'hole') return passedOverBores(feature, inShop, chosen);
  const seen = milledSeen(feature, part, solid);
  const [m] = seen.all;
  const milled = m ? passedOver(m, seen.place, shop, chosen, seen.how !== undefined) : [];
  return [...milled, ...passedOverForms(feature, part, shop, chosen)];
}

/** Why each end mill that was not chosen does not cut an outline, the nearest in size first. */
export function passedOver(
  m: MilledVoid,
  place: Place,
  shop: Shop,
  chosen: ReadonlySet<Tool> = new Set(),
  ownDepth = false,
): readonly PassedOver[] {
  const sizes = [...chosen].filter((t) => t.kind === 'end-mill').map((t) => t.diameterMm);
  const off = (t: Mill) =>
    sizes.length > 0 ? Math.min(...sizes.map((d) => Math.abs(d - t.diameterMm))) : t.diameterMm;
  return [...endMills(shop), ...roughers(shop)]
    .filter((t) => !chosen.has(t))
    .sort((a, b) => off(a) - off(b))
    .map((tool) => ({ tool, ...reasonFor(tool, m, place, ownDepth) }));
}

function reasonFor(tool: Mill, m: MilledVoid, place: Place, ownDepth: boolean): Pick<PassedOver, 'why' | 'all'> {
  const unfit = unfitFor(tool, m);
  if (unfit) return unfit;
  const neededMm = ownDepth ? m.tipMm : reachFor(tool, m, place);
  if (tool.reachMm < neededMm - SAME)
    return {
      why: `reaches ${mm(tool.reachMm)}, and ${mm(neededMm)} are needed`,
      all: `too short: ${mm(neededMm)} are needed`,
    };
  const all = tool.roughing ? 'roughs alone, and does not save time' : 'works, but is slower';
  return { why: all, all };
}

/** Why its shape does not make the outline, its reach aside; undefined where it does. */
export function unfitFor(tool: Mill, m: MilledVoid): Pick<PassedOver, 'why' | 'all'> | undefined {
  if (tool.diameterMm > m.neckMm + SAME_MM) {
    const all = `wider than the narrowest place, ${mm(m.neckMm)}`;
    return { why: all, all };
  }
  if (tool.diameterMm > m.widestMm + SAME_MM) {
    const all = `fills ${mm(m.neckMm)}: no stock is left to finish its walls`;
    return { why: all, all };
  }
  const corner = m.corners
    .filter((c) => c.radiusMm > 0 && tool.diameterMm > 2 * c.radiusMm + SAME_MM)
    .reduce<MilledVoid['corners'][number] | undefined>((a, b) => (a && a.radiusMm <= b.radiusMm ? a : b), undefined);
  if (corner)
    return {
      why: `its radius of ${mm(tool.diameterMm / 2)} does not go into a corner of ${mm(corner.radiusMm)}`,
      all: `too thick for a corner of ${mm(corner.radiusMm)}`,
    };
  const rounded = Number.isFinite(m.floorRadiusMm) ? m.floorRadiusMm : undefined;
  if (rounded !== undefined && Math.abs(tool.cornerRadiusMm - rounded) > 0.2) {
    const floor = rounded > 0 ? `the floor’s radius of ${mm(rounded)}` : 'a sharp floor';
    const why = `its corner of ${mm(tool.cornerRadiusMm)} does not make ${floor}`;
    return { why, all: `another corner than ${floor} takes` };
  }
  return undefined;
}

function reachFor(tool: Mill, m: MilledVoid, place: Place): number {
  const [radiusMm, shankMm] = [tool.diameterMm / 2, shankRadius(tool)];
  return Math.max(
    outlineReach(m, place, radiusMm, shankMm),
    ...m.corners.filter((c) => c.radiusMm > 0).map((c) => cornerReach(m, c, place, radiusMm, shankMm)),
  );
}

function mm(value: number): string {
  return `${Number(value.toFixed(2))} mm`;
}
