/** Which cutters wider than their necks make an undercut: no wider or higher than it, with enough beside the neck to cut out to its wall. */

import type { Groove, Hole, Slot } from '../model/model';
import type { Shop, UndercutMill } from '../model/shop-model';
import { isUndercutter } from '../model/tool-kinds';
import { SAME_MM, SAME_REACH_MM } from './cutters';

export function undercuttersOf(shop: Shop): readonly UndercutMill[] {
  return shop.tools.filter(isUndercutter);
}

/** How it gets in is another question: through an open end, or down a neck as wide as itself. */
export function makesTee(t: UndercutMill, slot: Slot): boolean {
  const { tee, width, depth } = slot;
  if (!tee || t.kind !== 'tee-cutter') return false;
  return (
    t.neckMm <= width.mm + SAME_MM &&
    t.diameterMm <= tee.width.mm + SAME_MM &&
    t.thicknessMm <= tee.height.mm + SAME_MM &&
    // With its neck in the slot it must cut as far out as the wide part reaches.
    (t.diameterMm - t.neckMm) / 2 >= (tee.width.mm - width.mm) / 2 - SAME_MM &&
    t.reachMm >= depth.mm - SAME_REACH_MM
  );
}

/** How wide a dovetail is at its floor, mm. */
export function dovetailFloorMm({ width, depth, dovetail }: Slot): number {
  return width.mm + (2 * depth.mm) / Math.tan(((dovetail?.angle.deg ?? 90) * Math.PI) / 180);
}

export function makesDovetail(t: UndercutMill, slot: Slot): boolean {
  return (
    t.kind === 'dovetail-cutter' &&
    Math.abs((t.angleDeg ?? 0) - (slot.dovetail?.angle.deg ?? 0)) < 0.5 &&
    t.diameterMm <= dovetailFloorMm(slot) + SAME_MM &&
    t.neckMm <= slot.width.mm + SAME_MM &&
    t.thicknessMm >= slot.depth.mm - SAME_MM &&
    t.reachMm >= slot.depth.mm - SAME_REACH_MM
  );
}

/** A ring groove inside a hole. */
export function makesRing(t: UndercutMill, groove: Groove, hole: Hole): boolean {
  const outMm = (groove.diameter.mm - hole.diameter.mm) / 2;
  const deepMm = (groove.below?.mm ?? 0) + groove.width.mm;
  return (
    t.kind !== 'dovetail-cutter' &&
    t.diameterMm <= hole.diameter.mm + SAME_MM &&
    t.thicknessMm <= groove.width.mm + SAME_MM &&
    (t.diameterMm - t.neckMm) / 2 >= outMm - SAME_MM &&
    t.reachMm >= deepMm - SAME_REACH_MM
  );
}
