/**
 * The tool that makes a hole's size: a drill where a drill holds it, else a reamer made to its limits, else a boring head
 * or a mill on a circle, whichever is quicker. And the cuts that go before it.
 */

import { materialOf } from '../../model/material-of';
import type { Hole, Part } from '../../model/model';
import type { Boring, Drill, Mill, Reamer, Shop } from '../../model/shop-model';
import { type ByHoleWay, isDrill, makesHole, ofHoleWay } from '../../model/tool-kinds';
import { fitLimits, gradeOf, parseFit } from '../../tables/fits';
import { SAME } from '../../tolerance';
import {
  type Bore,
  drillsOf,
  endMills,
  type Maker,
  makersOf,
  pointBelowMm,
  reachOf,
  SAME_REACH_MM,
  SHARP_MM,
} from '../cutters';
import { gentlestDrilling, isBorne } from '../cutting/gentlest';
import { gradeHeld } from '../grades';
import { stockLeft, wayIn } from '../room';
import { inHolder, machineFor } from './machine';
import { priceOf } from './priced';
import type { Operation, Roughing } from './types';
import { FINISH_MM, roughedIn, SPRUNG_MM } from './widths';

/** ± of a hole for which neither it nor the part says a tolerance: ISO 2768-1 m for sizes to 6 mm. */
export const PLAIN_MM = 0.1;
/** A reamer and a boring head leave a hole that was drilled so much smaller. Common practice: 0.1 to 0.3 mm for reamers. */
const REAM_STOCK_MM = [0.05, 0.6] as const;

/** What every cut of a hole is said of. */
export interface Once {
  readonly feature: Hole;
  readonly times: number;
  readonly how?: string;
  readonly seat?: 'counterbore' | 'countersink' | 'floor';
}

/** Undefined where nothing on hand makes the size at that depth. */
export function makerFor(bore: Bore, of: Making): Maker | undefined {
  const { hole, depthMm, part, shop } = of;
  const flat = hole.bottom === 'flat' && !hole.depth.through;
  const reaching = makersOf(shop, bore).filter((t) => reachOf(t) >= depthMm + pointBelowMm(t, flat) - SAME_REACH_MM);
  const off = (t: Maker) => Math.abs(t.diameterMm - bore.nominalMm);
  const drills = reaching.filter(isDrill).sort((a, b) => off(a) - off(b));
  const grade = gradeOf(bore.nominalMm, bore.toMm - bore.fromMm) ?? 99;
  // Where nobody asks for a tolerance whatever drill is near enough will do.
  const plain = hole.thread !== undefined || (hole.diameter.tolerance === undefined && part.tolerance === undefined);
  if (drills[0] && (plain || grade >= gradeHeld(shop, 'drilling'))) return drills[0];
  const reamer = reaching.find((t): t is Reamer => makesHole(t, 'to-limits') && makesLimits(t, bore));
  if (reamer) return reamer;
  const round = reaching.filter(
    (t): t is Boring | Mill =>
      (makesHole(t, 'set') && grade >= gradeHeld(shop, 'boring')) ||
      (makesHole(t, 'round') && grade >= gradeHeld(shop, 'milling') && wayIn(t, bore.nominalMm, 0) !== undefined),
  );
  return quickest(round, of) ?? drills[0] ?? reaching[0];
}

/** All of the class it is made to lies within the limits. */
export function makesLimits(reamer: Reamer, bore: Bore): boolean {
  const fit = parseFit(reamer.fit);
  const limits = fit && fitLimits(reamer.diameterMm, fit.letter, fit.grade);
  if (!limits) return false;
  return (
    reamer.diameterMm + limits.lowerMm >= bore.fromMm - SAME && reamer.diameterMm + limits.upperMm <= bore.toMm + SAME
  );
}

function quickest(makers: readonly Maker[], of: Making): Maker | undefined {
  const { hole, part, shop } = of;
  const material = materialOf(part);
  const machine = machineFor(part, shop, hole.name);
  if (!material || !machine) return makers[0];
  let best: { maker: Maker; minutes: number } | undefined;
  for (const maker of largestOfEach(makers)) {
    const made = making(maker, of);
    const tools = new Set(made.flatMap((o) => ('tool' in o ? [o.tool] : [])));
    const cutting = made.reduce((sum, o) => sum + priceOf(inHolder(o, shop), material, machine).minutes[0], 0);
    const minutes = cutting + ((tools.size - 1) * machine.toolChangeS) / 60;
    if (!best || minutes < best.minutes) best = { maker, minutes };
  }
  return best?.maker;
}

/** Of mills of one diameter the shortest, and no more sizes than could be worth it: a smaller one is slower. */
function largestOfEach(makers: readonly Maker[]): readonly Maker[] {
  const mills = makers
    .filter((t): t is Mill => makesHole(t, 'round'))
    .sort((a, b) => b.diameterMm - a.diameterMm || a.reachMm - b.reachMm);
  const sizes = mills.filter((t, i) => t.diameterMm !== mills[i - 1]?.diameterMm);
  return [...makers.filter((t) => !makesHole(t, 'round')), ...sizes.slice(0, MOST_SIZES)];
}
const MOST_SIZES = 5;

/** The cuts with the tool that makes the size, and those before it where it cannot cut from the full. */
export function making(maker: Maker, of: Making): readonly Operation[] {
  return ofHoleWay(MAKING, maker, of) ?? [];
}

/** The hole, or half of it, and how often it is made. */
export interface Making {
  readonly hole: Hole;
  readonly depthMm: number;
  readonly once: Once;
  readonly part: Part;
  readonly shop: Shop;
}

const MAKING: ByHoleWay<[Making], readonly Operation[]> = {
  'as-wide': (tool, of) => [drilled(tool, of)],
  'to-limits': (tool, of) => {
    const { hole, depthMm, once } = of;
    const diameterMm = hole.diameter.mm;
    const before = firstDrill(of, [diameterMm - REAM_STOCK_MM[1], diameterMm - REAM_STOCK_MM[0]]);
    const wanted = `drill a little under ${Number(diameterMm.toFixed(2))} mm, to ream after`;
    return [
      before ? drilled(before, of) : { ...once, does: 'missing', lacks: 'bore-before', wanted },
      { ...once, does: 'ream', tool, diameterMm, depthMm },
    ];
  },
  set: (tool, of) => {
    const { hole, depthMm, once, shop } = of;
    const diameterMm = hole.diameter.mm;
    const before = firstDrill(of, [tool.diameterMm, diameterMm - 0.2]);
    // A boring head cuts at its rim only: the floor under the drill's cone is milled.
    const flat = hole.bottom === 'flat' && !hole.depth.through;
    const mill = endMills(shop).find(
      (m) =>
        m.diameterMm < 0.9 * diameterMm &&
        m.reachMm >= depthMm - SAME_REACH_MM &&
        (!flat || m.cornerRadiusMm <= SHARP_MM),
    );
    const opened = mill && (!before || flat || diameterMm - before.diameterMm > OPENED_MM);
    const coneMm3 = before && flat ? (2 / 3) * volumeOf(before.diameterMm, pointBelowMm(before, false)) : 0;
    const left = volumeOf(diameterMm, depthMm) - (before ? volumeOf(before.diameterMm, depthMm) : 0) + coneMm3;
    return [
      ...(before ? [drilled(before, of)] : []),
      ...(opened ? [ringOf(milledOut(mill, once, left, depthMm, diameterMm), before?.diameterMm ?? 0)] : []),
      ...(before || opened
        ? []
        : [{ ...once, does: 'missing', lacks: 'bore-before', wanted: 'drill or end mill to open it' } as const]),
      { ...once, does: 'bore', tool, diameterMm, depthMm },
    ];
  },
  round: (tool, { hole, depthMm, once }) => {
    const diameterMm = hole.diameter.mm;
    const wayMm = Math.PI * Math.max(0, diameterMm - tool.diameterMm);
    const enters = wayIn(tool, diameterMm, 0);
    const wideMm = Math.max(stockLeft(diameterMm, tool.diameterMm, FINISH_MM), SPRUNG_MM);
    return [
      {
        ...milledOut(tool, once, volumeOf(diameterMm, depthMm), depthMm, diameterMm),
        ...(enters && { enters }),
      },
      { ...once, does: 'finish', tool, wayMm, depthMm, wideMm },
    ];
  },
};

function drilled(tool: Drill, { once, depthMm }: Making): Operation {
  return { ...once, does: 'drill', tool, diameterMm: tool.diameterMm, depthMm };
}

/** More than this left by the drill is milled before it is bored. Common practice, no source. */
const OPENED_MM = 4;

/** Round and from the full, or what a drill left of it. */
export function milledOut(tool: Mill, once: Once, volumeMm3: number, depthMm: number, neckMm: number): Roughing {
  const { wideMm } = roughedIn({ neckMm, widestMm: neckMm, longMm: neckMm }, tool, false);
  return { ...once, does: 'rough', tool, volumeMm3, depthMm, neckMm, wideMm };
}

/** The same where a hole is there already: only the ring round it is metal. */
export function ringOf(cut: Roughing, holeMm: number): Roughing {
  if (holeMm <= 0) return cut;
  return { ...cut, neckMm: Number.POSITIVE_INFINITY, wideMm: Math.min(cut.wideMm, (cut.neckMm - holeMm) / 2) };
}

/** Largest drill in a range that reaches with its point, and that the spindle turns where one of them is so small. */
function firstDrill({ hole, depthMm, part, shop }: Making, [fromMm, toMm]: readonly [number, number]) {
  const flat = hole.bottom === 'flat' && !hole.depth.through;
  const reaching = [...drillsOf(shop)]
    .reverse()
    .filter(
      (d) =>
        d.diameterMm >= fromMm - SAME &&
        d.diameterMm <= toMm + SAME &&
        d.fluteLengthMm >= depthMm + pointBelowMm(d, flat) - SAME_REACH_MM,
    );
  const material = materialOf(part);
  const machine = machineFor(part, shop, hole.name);
  if (!material || !machine) return reaching[0];
  return reaching.find((d) => isBorne(gentlestDrilling(d, material, machine), machine)) ?? reaching[0];
}

export function volumeOf(diameterMm: number, depthMm: number): number {
  return (Math.PI / 4) * diameterMm ** 2 * depthMm;
}
