/** Which cutters wider than their necks make an undercut: no wider or higher than it, with enough beside the neck to cut out to its wall. */

import type { Groove, Hole, Slot } from '../model/model';
import type { Shop, UndercutMill } from '../model/shop-model';
import { isUndercutter } from '../model/tool-kinds';
import { ROUNDING } from '../tolerance';
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

/** So often it goes along, one layer beside the other, where it is thinner than what it cuts out. */
export function undercutLayers({ thicknessMm }: UndercutMill, deepMm: number): number {
  return Math.max(1, Math.ceil(deepMm / thicknessMm - ROUNDING));
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

/** A ring groove inside a hole: square, as only a wheel cuts it. How deep it lies counts from where the hole begins. */
export function makesRing(t: UndercutMill, groove: Groove, hole: Hole): boolean {
  return t.kind === 'tee-cutter' && getsIntoRing(t, groove, hole);
}

/** The first that cuts a ring; else a ball that reaches all of it, but leaves it round. */
export function ringCutterOf(shop: Shop, groove: Groove, hole: Hole): UndercutMill | undefined {
  const inside = undercuttersOf(shop).filter((t) => t.kind !== 'dovetail-cutter' && getsIntoRing(t, groove, hole));
  return inside.find((t) => makesRing(t, groove, hole)) ?? inside[0];
}

/** Whether it would reach all of the ring, whatever it leaves there. */
function getsIntoRing(t: UndercutMill, groove: Groove, hole: Hole): boolean {
  const outMm = (groove.diameter.mm - hole.diameter.mm) / 2;
  const deepMm = (groove.below?.mm ?? 0) + groove.width.mm;
  return (
    t.diameterMm <= hole.diameter.mm + SAME_MM &&
    t.thicknessMm <= groove.width.mm + SAME_MM &&
    (t.diameterMm - t.neckMm) / 2 >= outMm - SAME_MM &&
    t.reachMm >= deepMm - SAME_REACH_MM
  );
}
