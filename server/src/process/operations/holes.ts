/** The cuts that make a hole: spot, drill, then what makes its size, its seat and its thread. */

import type { Solid } from '../../geometry/types';
import type { Hole, Part } from '../../model/model';
import type { Drill, Mill, Shop, Tap, ThreadMill } from '../../model/shop-model';
import { pointLengthMm } from '../../tables/drill-point';
import { toothMm } from '../../tables/thread-form';
import { boreSize } from '../bore-size';
import { endMills, isMaker, type Maker, reachOf, SAME_MM, SAME_REACH_MM, SHARP_MM } from '../cutters';
import { type Bored, floorStays } from '../drilling';
import type { PartInShop } from '../part-in-shop';
import { LEAST_STOCK_MM } from '../room';
import { isMaterial, stockOf } from '../stock';
import { BEYOND_MM } from '../stock/partial';
import { tapsOfHole } from '../tapping';
import { threadMillsOf } from '../thread-milling';
import { askedOf, BOTH_SIDES, cutFromBothSides, toolAsked } from './asked';
import { type Making, makerFor, making, milledOut, type Once, PLAIN_MM, volumeOf } from './hole-makers';
import { seats } from './seats';
import { boresSeen } from './seen';
import type { Operation } from './types';

/** A spot goes in by so much of the hole, and no deeper than its own cone. Common practice: everything but a guided drill is spotted. */
const SPOT_DEPTH = 0.3;

export function holeOperations(hole: Hole, { part, solid, shop }: PartInShop): readonly Operation[] {
  const { all: bores, how } = boresSeen(hole, part, solid);
  const deepest = bores.reduce<Bored | undefined>((w, b) => (w && w.spanMm >= b.spanMm ? w : b), undefined);
  if (!deepest) return [];
  const once: Once = { feature: hole, times: bores.length, ...(how && { how }) };
  const { maker, of } = makingFor({ hole, depthMm: deepest.spanMm, once, part, shop });
  const floored = hole.bottom === 'flat' && bores.some((b) => !b.of.through && floorStays(b));
  const made = maker ? making(maker, of) : [missingBore(of)];
  // A drill leaves a cone, and of what goes over it only a mill takes that off.
  const coned = maker !== undefined && maker.kind !== 'flat-drill' && made.every((o) => o.does !== 'rough');
  return [
    ...(isCored(hole, part, solid) ? [] : spotted(maker, of)),
    ...made,
    ...(floored && coned ? flattened(of) : []),
    ...seats(hole, of.once, shop),
    ...threaded(of),
  ];
}

/** A blank has a hole there already, wherever it goes in: there is nothing to spot. */
function isCored(hole: Hole, part: Part, solid: Solid): boolean {
  if (!part.stock.blank) return false;
  const stock = stockOf(part, solid.body);
  const bores = solid.voidsOf(hole.name).filter((v) => v.role === 'bore');
  return bores.every(({ frame: { origin, w }, from, to }) => {
    const at = from + Math.min(HAIR_DEEP_MM, (to - from) / 2);
    return !isMaterial(stock, [origin[0] + w[0] * at, origin[1] + w[1] * at, origin[2] + w[2] * at]);
  });
}
/** Below where it begins, so far. */
const HAIR_DEEP_MM = 0.01;

/** The tool that makes its size, and of how much: drilled half from each side where two set-ups do so, or nothing reaches through. */
function makingFor(straight: Making): { readonly maker: Maker | undefined; readonly of: Making } {
  const { hole, depthMm, once, part, shop } = straight;
  const asked = toolAsked(hole.name, part, shop);
  const bore = boreSize(hole, part, PLAIN_MM);
  const own = (asked && isMaker(asked) ? asked : undefined) ?? makerFor(bore, straight);
  const open = hole.depth.through && !hole.thread && !hole.counterbore && !hole.countersink && !once.how;
  if (open && (!own || cutFromBothSides(hole.name, part))) {
    const twice: Once = { ...once, times: 2 * once.times, how: BOTH_SIDES };
    const half: Making = { ...straight, depthMm: Math.min(depthMm, depthMm / 2 + BEYOND_MM), once: twice };
    const maker = makerFor(bore, half);
    if (maker?.kind === 'drill' || maker?.kind === 'end-mill') return { maker, of: half };
  }
  return { maker: own, of: straight };
}

function missingBore({ hole, depthMm, once }: Making): Operation {
  const wanted = `drill, reamer or bore of ${round(hole.diameter.mm)} mm, ${round(depthMm)} mm deep`;
  return { ...once, does: 'missing', lacks: 'bore', wanted };
}

function spotted(maker: Maker | undefined, { hole, once, shop }: Making): readonly Operation[] {
  const diameterMm = hole.diameter.mm;
  const spot = maker?.kind !== 'end-mill' && !hole.from ? spotFor(shop, diameterMm) : undefined;
  if (!spot) return [];
  const tan = Math.tan((spot.pointDeg / 2) * (Math.PI / 180));
  const spotMm = Math.min(SPOT_DEPTH * diameterMm, spot.diameterMm / 2 / tan);
  // As wide as its cone is at that depth.
  return [{ ...once, does: 'spot', tool: spot, diameterMm: 2 * spotMm * tan, depthMm: spotMm }];
}

/** A drill leaves a cone, which a mill or a flat drill takes out. */
function flattened({ hole, depthMm, once, shop }: Making): readonly Operation[] {
  const diameterMm = hole.diameter.mm;
  // In a bore that something is asked of it must not touch the wall.
  const tool = flattener(shop, hole.diameter.tolerance ? diameterMm - 2 * LEAST_STOCK_MM : diameterMm, depthMm);
  if (!tool)
    return [{ ...once, does: 'missing', lacks: 'flat-bottom', wanted: 'end mill or flat drill for a flat bottom' }];
  const floor = { ...once, seat: 'floor' } as const;
  if (!('cornerRadiusMm' in tool)) return [{ ...floor, does: 'drill', tool, diameterMm: tool.diameterMm, depthMm }];
  const coneMm3 = volumeOf(diameterMm, pointLengthMm(diameterMm, hole.point.deg)) / 3;
  return [milledOut(tool, floor, coneMm3, depthMm, diameterMm)];
}

function threaded({ hole, depthMm, once, part, shop }: Making): readonly Operation[] {
  if (!hole.thread?.spec) return [];
  const { designation, pitchMm, diameterMm: majorMm, leftHand } = hole.thread.spec;
  const threadMm = Math.min(hole.threadDepth?.mm ?? depthMm, depthMm);
  const asked = toolAsked(hole.name, part, shop);
  const reaches = (t: Tap | ThreadMill) => t.reachMm >= threadMm - SAME_REACH_MM;
  const mill = askedOf(asked, 'thread-mill');
  const tap = mill ? undefined : (askedOf(asked, 'tap') ?? tapsOfHole(hole, shop).find(reaches));
  if (tap) return [{ ...once, does: 'tap', tool: tap, pitchMm, depthMm: threadMm }];
  const tool = mill ?? threadMillsOf(hole, shop).find(reaches);
  return [
    tool
      ? {
          ...once,
          does: 'thread',
          tool,
          majorMm,
          pitchMm,
          depthMm: threadMm,
          leftHand: leftHand === true,
          toothMm: toothMm(hole.thread.spec, 'inside'),
        }
      : { ...once, does: 'missing', lacks: 'tap', wanted: `${designation} tap or thread mill` },
  ];
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
    endMills(shop).find((m) => m.cornerRadiusMm <= SHARP_MM && goesIn(m)) ??
    shop.tools.find((t): t is Drill => t.kind === 'flat-drill' && goesIn(t))
  );
}

function round(mm: number): number {
  return Number(mm.toFixed(2));
}
