/**
 * Speed and feed for a cutter in a material on a machine: from the ranges of the tables, taken down to what the spindle
 * turns, bears and feeds. Says what it was limited by, so that a number never looks like a recommendation from nowhere.
 */
import { cuttingOf, kienzleOf } from '../../reference/cutting';
import { CUTTER_YOUNG, FLUTE_CORE } from '../../reference/cutting.data';
import type { Material } from '../../reference/materials';
import type { Machine, Mill, ToolMaterial } from '../../spec/shop-model';
import { chipThinning } from './chip';
import { steppedCantilever } from './deflection';
import { type DrillingLoad, drillingLoad, type MillingLoad, millingLoad } from './force';

export type LimitedBy = 'range' | 'revolutions' | 'slowest' | 'feed' | 'power' | 'torque' | 'deflection';

export interface Conditions {
  readonly speedMPerMin: number;
  /** The tables' range for this cutter material; what was taken lies in it unless the spindle cannot turn so. */
  readonly speedRange: readonly [number, number];
  readonly rpm: number;
  readonly feedMmPerMin: number;
  readonly limitedBy: LimitedBy;
  readonly source: string;
}

export interface MillingConditions extends Conditions {
  readonly feedPerToothMm: number;
  readonly chipRangeMm: readonly [number, number];
  readonly aeMm: number;
  readonly apMm: number;
  readonly load: MillingLoad;
  /** At the tip, under the resultant. */
  readonly deflectionMm: number;
}

/** How far up its range a speed is taken: dry cutting stays low. Common practice, no source. */
const UP_THE_RANGE: Readonly<Record<Machine['coolant'], number>> = { flood: 0.6, mist: 0.45, air: 0.35, none: 0.15 };
/** Of the motor's power, what reaches the cutter through belts and bearings. Common practice: 0.7 to 0.9. */
const SPINDLE_EFFICIENCY = 0.8;
/** Feed may be raised for thin chips by so much at most. Common practice, no source. */
const MOST_THINNING = 2;
/** A roughing cutter may bend by so much; finishing goes by the tolerance. Common practice, no source. */
export const ROUGH_BEND_MM = 0.05;

/** The speed range for a cutter material; carbide's where the other has none. Cobalt steel runs a quarter faster (common practice). */
export function speedRange(material: Pick<Material, 'family'>, cutter: ToolMaterial): readonly [number, number] {
  const row = cuttingOf(material);
  if (cutter === 'carbide' || !row.hss) return row.carbide;
  return cutter === 'cobalt' ? [row.hss[0] * 1.25, row.hss[1] * 1.25] : row.hss;
}

interface Turning {
  readonly speedMPerMin: number;
  readonly rpm: number;
  readonly limitedBy: 'range' | 'revolutions' | 'slowest';
}

/** Revolutions for a diameter within a speed range, and within what the spindle turns. */
export function turning(range: readonly [number, number], diameterMm: number, machine: Machine): Turning {
  const wanted = range[0] + (range[1] - range[0]) * UP_THE_RANGE[machine.coolant];
  const rpm = (1000 * wanted) / (Math.PI * diameterMm);
  const [least, most] = machine.rpm;
  const taken = Math.min(most, Math.max(least, rpm));
  return {
    speedMPerMin: (taken * Math.PI * diameterMm) / 1000,
    rpm: taken,
    limitedBy: taken < rpm ? 'revolutions' : taken > rpm ? 'slowest' : 'range',
  };
}

/** What bends: the flutes as a core of 0.8 D, what is behind them as thick as the cut or the shank, up to the holder. */
export function bendOf(tool: Mill, stickoutMm: number, forceN: number): number {
  const flutes = Math.min(tool.fluteLengthMm, stickoutMm);
  const neck = Math.max(0, Math.min(tool.reachMm, stickoutMm) - flutes);
  const shank = Math.max(0, stickoutMm - flutes - neck);
  const young = tool.material === 'carbide' ? CUTTER_YOUNG.carbide.mPa : CUTTER_YOUNG.hss.mPa;
  return steppedCantilever(
    [
      { diameterMm: FLUTE_CORE.share * tool.diameterMm, lengthMm: flutes },
      { diameterMm: Math.min(tool.diameterMm, tool.shankMm), lengthMm: neck },
      { diameterMm: tool.shankMm, lengthMm: shank },
    ],
    forceN,
    young,
  );
}

/** How far a tool stands out of its holder: as the shop says, or its reach and as much again as its shank is thick. */
export function stickoutOf(tool: {
  readonly stickoutMm?: number;
  readonly reachMm: number;
  readonly shankMm: number;
}): number {
  return tool.stickoutMm ?? tool.reachMm + Math.max(3, tool.shankMm / 2);
}

/**
 * Conditions for a mill cutting `aeMm` wide and `apMm` deep. The feed comes down until power, torque and the machine's own
 * feed bear it, and until the cutter bends no more than `mostBendMm`.
 */
export function millingConditions(
  material: Material,
  tool: Mill,
  machine: Machine,
  cut: { readonly aeMm: number; readonly apMm: number; readonly mostBendMm?: number },
): MillingConditions {
  const row = cuttingOf(material);
  const law = kienzleOf(material);
  const range = speedRange(material, tool.material);
  const turned = turning(range, tool.diameterMm, machine);
  const chipRangeMm = [row.chip[0] * tool.diameterMm, row.chip[1] * tool.diameterMm] as const;
  const thinning = Math.min(MOST_THINNING, chipThinning(cut.aeMm, tool.diameterMm));
  const wanted = ((chipRangeMm[0] + chipRangeMm[1]) / 2) * thinning;
  const loadAt = (feedPerToothMm: number) =>
    millingLoad(law, {
      diameterMm: tool.diameterMm,
      teeth: tool.flutes,
      feedPerToothMm,
      aeMm: cut.aeMm,
      apMm: cut.apMm,
      rpm: turned.rpm,
    });
  const stickout = stickoutOf(tool);
  const powerW = machine.powerW * SPINDLE_EFFICIENCY;
  const torqueNm = machine.torqueNm ?? Number.POSITIVE_INFINITY;
  const bend = cut.mostBendMm ?? ROUGH_BEND_MM;
  // Force, power and torque grow with feed^(1 − mc); below the thinnest chip they grow faster, so this errs to the safe side.
  const checks: readonly (readonly [LimitedBy, (load: MillingLoad) => number, number])[] = [
    ['feed', (l) => l.feedMmPerMin / (machine.feedMmPerMin ?? Number.POSITIVE_INFINITY), 1],
    ['power', (l) => l.powerW / powerW, 1 / (1 - law.mc)],
    ['torque', (l) => l.torqueNm / torqueNm, 1 / (1 - law.mc)],
    ['deflection', (l) => bendOf(tool, stickout, l.resultantN) / bend, 1 / (1 - law.mc)],
  ];
  let feed = wanted;
  let limitedBy: LimitedBy = turned.limitedBy;
  let load = loadAt(feed);
  for (const [what, share, power] of checks) {
    const over = share(load);
    if (over <= 1 + 1e-9) continue;
    limitedBy = what;
    feed *= over ** -power;
    load = loadAt(feed);
  }
  return {
    speedMPerMin: turned.speedMPerMin,
    speedRange: range,
    rpm: turned.rpm,
    feedPerToothMm: feed,
    chipRangeMm,
    feedMmPerMin: load.feedMmPerMin,
    aeMm: cut.aeMm,
    apMm: cut.apMm,
    load,
    deflectionMm: bendOf(tool, stickout, load.resultantN),
    limitedBy,
    source: row.source,
  };
}

export interface DrillingConditions extends Conditions {
  readonly feedPerTurnMm: number;
  readonly load: DrillingLoad;
  /** After so many mm the chips are cleared; infinite where none is needed. */
  readonly peckMm: number;
}

/** Drilling speeds are taken at the low half of the milling range: the chips must come out. Common practice, no source. */
const DRILL_SHARE = 0.7;
/** From so many diameters on in pecks of one and a half diameters. Common practice: pecks from 3 to 5 diameters on. */
const PECK_FROM = 4;
const PECK_SHARE = 1.5;

/** Conditions for a twist drill going `depthMm` deep. */
export function drillingConditions(
  material: Material,
  tool: { readonly diameterMm: number; readonly material: ToolMaterial; readonly pointDeg: number },
  machine: Machine,
  depthMm: number,
): DrillingConditions {
  const row = cuttingOf(material);
  const [low, high] = speedRange(material, tool.material);
  const range = [low * DRILL_SHARE, high * DRILL_SHARE] as const;
  const turned = turning(range, tool.diameterMm, machine);
  const law = kienzleOf(material);
  const deep = depthMm / tool.diameterMm;
  // Deep holes are fed more gently: a fifth less beyond the first pecks.
  const share = ((row.drill[0] + row.drill[1]) / 2) * (deep > PECK_FROM ? 0.8 : 1);
  const loadAt = (feedPerTurnMm: number) =>
    drillingLoad(law, { diameterMm: tool.diameterMm, feedPerTurnMm, pointDeg: tool.pointDeg, rpm: turned.rpm });
  const mostPower = machine.powerW * SPINDLE_EFFICIENCY;
  const holds = (l: DrillingLoad) =>
    l.powerW <= mostPower + 1e-9 && l.torqueNm <= (machine.torqueNm ?? Number.POSITIVE_INFINITY) + 1e-9;
  let feed = share * tool.diameterMm;
  let limitedBy: LimitedBy = turned.limitedBy;
  if (!holds(loadAt(feed))) {
    limitedBy = loadAt(feed).powerW > mostPower ? 'power' : 'torque';
    for (let i = 0; i < 40 && !holds(loadAt(feed)); i++) feed *= 0.9;
  }
  const load = loadAt(feed);
  return {
    speedMPerMin: turned.speedMPerMin,
    speedRange: range,
    rpm: turned.rpm,
    feedPerTurnMm: feed,
    feedMmPerMin: load.feedMmPerMin,
    load,
    peckMm: deep > PECK_FROM ? PECK_SHARE * tool.diameterMm : Number.POSITIVE_INFINITY,
    limitedBy,
    source: row.source,
  };
}
