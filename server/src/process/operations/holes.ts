/** The cuts that make a hole: spot, drill, then what makes its size, its seat and its thread. */
import type { Solid } from '../../geometry/types';
import type { Hole, Part } from '../../model/model';
import type { Drill, Mill, Shop, Tap } from '../../model/shop-model';
import { pointLengthMm } from '../../tables/drill-point';
import { boreSize } from '../bore-size';
import { endMills, isMaker, reachOf, SAME_MM, SAME_REACH_MM } from '../cutters';
import { type Bored, floorStays } from '../drilling';
import { LEAST_STOCK_MM } from '../room';
import { BEYOND_MM } from '../stock/partial';
import { tapsOfHole } from '../tapping';
import { askedOf, BOTH_SIDES, cutFromBothSides, toolAsked } from './asked';
import { makerFor, making, milledOut, type Once, PLAIN_MM, volumeOf } from './hole-makers';
import { seats } from './seats';
import { boresSeen } from './seen';
import type { Operation } from './types';

/** A spot goes in by so much of the hole, and no deeper than its own cone. Common practice: everything but a guided drill is spotted. */
const SPOT_DEPTH = 0.3;

export function holeOperations(hole: Hole, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const { all: bores, how } = boresSeen(hole, part, solid);
  const deepest = bores.reduce<Bored | undefined>((w, b) => (w && w.spanMm >= b.spanMm ? w : b), undefined);
  if (!deepest) return [];
  const straight: Once = { feature: hole, times: bores.length, ...(how && { how }) };
  const diameterMm = hole.diameter.mm;
  const fullMm = deepest.spanMm;
  const asked = toolAsked(hole.name, part, shop);
  const bore = boreSize(hole, part, PLAIN_MM);
  const own = (asked && isMaker(asked) ? asked : undefined) ?? makerFor(hole, bore, fullMm, straight, part, shop);
  // Drilled half from each side: where two set-ups do so, or nothing reaches through.
  const open = hole.depth.through && !hole.thread && !hole.counterbore && !hole.countersink && !how;
  const halved = open && (!own || cutFromBothSides(hole.name, part));
  const halfMm = Math.min(fullMm, fullMm / 2 + BEYOND_MM);
  const twice: Once = { ...straight, times: 2 * bores.length, how: BOTH_SIDES };
  const drill = halved ? makerFor(hole, bore, halfMm, twice, part, shop) : undefined;
  const both = drill?.kind === 'drill' || drill?.kind === 'end-mill';
  const [maker, once, depthMm] = both ? [drill, twice, halfMm] : [own, straight, fullMm];
  const done: Operation[] = [];
  const spot = maker?.kind !== 'end-mill' && !hole.from ? spotFor(shop, diameterMm) : undefined;
  if (spot) {
    const tan = Math.tan((spot.pointDeg / 2) * (Math.PI / 180));
    const spotMm = Math.min(SPOT_DEPTH * diameterMm, spot.diameterMm / 2 / tan);
    // As wide as its cone is at that depth.
    done.push({ ...once, does: 'spot', tool: spot, diameterMm: 2 * spotMm * tan, depthMm: spotMm });
  }
  if (maker) done.push(...making(maker, hole, depthMm, once, shop));
  else {
    const wanted = `drill, reamer or bore of ${round(diameterMm)} mm, ${round(depthMm)} mm deep`;
    done.push({ ...once, does: 'missing', lacks: 'bore', wanted });
  }
  // A drill leaves a cone.
  const coned = maker?.kind === 'drill' || maker?.kind === 'reamer';
  const floor = { ...once, seat: 'floor' } as const;
  const flattened = (tool: Mill | Drill): Operation =>
    'cornerRadiusMm' in tool
      ? milledOut(tool, floor, volumeOf(diameterMm, pointLengthMm(diameterMm, hole.point.deg)) / 3, depthMm, diameterMm)
      : { ...floor, does: 'drill', tool, diameterMm: tool.diameterMm, depthMm };
  if (hole.bottom === 'flat' && coned && bores.some((b) => !b.of.through && floorStays(b))) {
    // In a bore that something is asked of it must not touch the wall.
    const flat = flattener(shop, hole.diameter.tolerance ? diameterMm - 2 * LEAST_STOCK_MM : diameterMm, depthMm);
    done.push(
      flat
        ? flattened(flat)
        : { ...once, does: 'missing', lacks: 'flat-bottom', wanted: 'end mill or flat drill for a flat bottom' },
    );
  }
  done.push(...seats(hole, once, shop));
  if (hole.thread?.spec) {
    const { designation, pitchMm } = hole.thread.spec;
    const threadMm = Math.min(hole.threadDepth?.mm ?? depthMm, depthMm);
    const tap = askedOf(asked, 'tap') ?? tapsOfHole(hole, shop).find((t: Tap) => t.reachMm >= threadMm - SAME_REACH_MM);
    done.push(
      tap
        ? { ...once, does: 'tap', tool: tap, pitchMm, depthMm: threadMm }
        : { ...once, does: 'missing', lacks: 'tap', wanted: `${designation} tap` },
    );
  }
  return done;
}

/** The smallest whose cone is wide enough for a drill of this size to find its middle. Common practice: over half of it. */
function spotFor(shop: Shop, diameterMm: number): Drill | undefined {
  const spots = shop.tools
    .filter((t): t is Drill => t.kind === 'spot-drill')
    .sort((a, b) => a.diameterMm - b.diameterMm);
  return spots.find((s) => s.diameterMm >= 0.6 * diameterMm) ?? spots.at(-1);
}

function flattener(shop: Shop, diameterMm: number, depthMm: number): Mill | Drill | undefined {
  const goesIn = (t: Mill | Drill) => t.diameterMm <= diameterMm + SAME_MM && reachOf(t) >= depthMm - SAME_REACH_MM;
  return (
    endMills(shop).find((m) => m.cornerRadiusMm <= 0.2 && goesIn(m)) ??
    shop.tools.find((t): t is Drill => t.kind === 'flat-drill' && goesIn(t))
  );
}

function round(mm: number): number {
  return Number(mm.toFixed(2));
}
