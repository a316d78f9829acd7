/** The cuts that make the seat of a screw's head: counterbores and countersinks. */

import type { Hole } from '../../model/model';
import type { ChamferMill, Mill, Shop } from '../../model/shop-model';
import { isCone } from '../../model/tool-kinds';
import { CIRCLE, endMills, SAME_MM, SAME_REACH_MM, SHARP_MM } from '../cutters';
import { LEAST_STOCK_MM } from '../room';
import { milledOut, type Once, ringOf, volumeOf } from './hole-makers';
import type { Operation } from './types';

export function seats(hole: Hole, once: Once, shop: Shop): readonly Operation[] {
  const done: Operation[] = [];
  const { counterbore, countersink } = hole;
  const bored = { ...once, seat: 'counterbore' } as const;
  if (counterbore) {
    const { diameter, depth } = counterbore;
    const cutter = shop.tools.find(
      (t): t is ChamferMill =>
        t.kind === 'counterbore-cutter' &&
        Math.abs(t.diameterMm - diameter.mm) <= 0.1 + SAME_MM &&
        (t.pilotMm ?? 0) <= hole.diameter.mm + SAME_MM &&
        t.reachMm >= depth.mm - SAME_REACH_MM,
    );
    const mill = seatMill(hole, counterbore, shop);
    if (cutter)
      done.push({
        ...bored,
        does: 'counterbore',
        tool: cutter,
        diameterMm: diameter.mm,
        depthMm: depth.mm,
      });
    else if (mill)
      done.push(
        ringOf(
          milledOut(
            mill,
            bored,
            volumeOf(diameter.mm, depth.mm) - volumeOf(hole.diameter.mm, depth.mm),
            depth.mm,
            diameter.mm,
          ),
          hole.diameter.mm,
        ),
      );
    else
      done.push({
        ...bored,
        does: 'missing',
        lacks: 'counterbore',
        wanted: `counterbore cutter or end mill for ${trimmed(diameter.mm)} mm`,
      });
  }
  if (countersink) done.push(sunk(hole, countersink, { ...once, seat: 'countersink' }, shop));
  return done;
}

/**
 * One that goes round in it; or, where nothing is asked of its size, one that goes straight down over the hole, and fills
 * it or is taken round it by what is left on its wall.
 */
function seatMill(hole: Hole, { diameter, depth }: NonNullable<Hole['counterbore']>, shop: Shop): Mill | undefined {
  const flat = endMills(shop).filter((m) => m.cornerRadiusMm <= SHARP_MM && m.reachMm >= depth.mm - SAME_REACH_MM);
  const round = flat.find((m) => m.diameterMm <= CIRCLE * diameter.mm);
  if (round || diameter.tolerance) return round;
  const down = flat.filter((m) => m.diameterMm > hole.diameter.mm);
  return (
    down.find((m) => Math.abs(m.diameterMm - diameter.mm) <= SAME_MM) ??
    down.find((m) => m.diameterMm <= diameter.mm - 2 * LEAST_STOCK_MM)
  );
}

type Sink = NonNullable<Hole['countersink']>;

/** Plunged with a cone as wide as the seat; or one that is narrower goes round in it. */
function sunk(hole: Hole, { diameter, angle }: Sink, once: Once, shop: Shop): Operation {
  const cones = shop.tools.filter((t): t is ChamferMill => isCone(t) && Math.abs(t.angleDeg - angle.deg) < 1);
  const depthMm = (diameter.mm - hole.diameter.mm) / 2 / Math.tan((angle.deg / 2) * (Math.PI / 180));
  const starts = cones.filter((t) => t.tipMm <= hole.diameter.mm + SAME_MM);
  const wide = starts
    .filter((t) => t.diameterMm >= diameter.mm - SAME_MM)
    .sort((a, b) => kindOrder(a) - kindOrder(b) || a.diameterMm - b.diameterMm)[0];
  if (wide) return { ...once, does: 'countersink', tool: wide, diameterMm: diameter.mm, depthMm };
  const round = starts.find((t) => t.kind === 'chamfer-mill');
  if (round) return { ...once, does: 'chamfer', tool: round, wayMm: Math.PI * diameter.mm, depthMm };
  const wanted = `countersink of ${trimmed(angle.deg)}°, ${trimmed(diameter.mm)} mm wide`;
  return { ...once, does: 'missing', lacks: 'countersink', wanted };
}

const kindOrder = (t: ChamferMill): number => (t.kind === 'countersink' ? 0 : 1);

function trimmed(value: number): number {
  return Number(value.toFixed(2));
}
