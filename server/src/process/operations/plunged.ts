/** What plunges take: drills with their pecks, reamers, seats, bores and taps. */

import type { Machine } from '../../model/shop-model';
import { cuttingOf, holeRowOf, kienzleOf } from '../../tables/cutting';
import type { Material } from '../../tables/materials';
import { FORM_TAP_TORQUE, PLUNGES, TAP_FORCE } from '../../tables/plunging.data';
import { type Conditions, drillFeedMm, drillingConditions, type LimitedBy } from '../cutting/conditions';
import { boringLoad, tappingTorqueNm } from '../cutting/force';
import { handTapMinutes, trialMinutes } from '../cutting/hands';
import { drillSpeedRange, settable, speedRange, type Turning, turning } from '../cutting/speed';
import { CAUTION, drillTime, tapTime } from '../cutting/time';
import type { BoreCut, Plunge, Priced, Tapping } from './types';

/** Between two plunges: up, over and down again, at the rapid feed; and at least so long. Common practice, no source. */
const BETWEEN_MINUTES = 0.05;
const RAPID_MM_PER_MIN = 3000;

export function drilled(operation: Plunge, material: Material, machine: Machine): Priced {
  const { tool, depthMm, diameterMm, times } = operation;
  const pointDeg = 'pointDeg' in tool ? tool.pointDeg : 118;
  const c = drillingConditions(material, { ...tool, diameterMm, pointDeg }, machine, depthMm);
  const time = drillTime({ depthMm, diameterMm, pointDeg }, c.feedMmPerMin, RAPID_MM_PER_MIN, c.peckMm);
  const { torqueNm, powerW, thrustN } = c.load;
  const pecks = time.pecks > 1 ? { pecks: time.pecks, peckMm: c.peckMm } : {};
  return { operation, conditions: c, torqueNm, powerW, thrustN, ...pecks, minutes: plunges(time.minutes, times) };
}

/** Reamers, cutters for seats, and boring heads: slower than a drill, each fed at its own pace. */
export function sized(operation: Plunge | BoreCut, material: Material, machine: Machine): Priced {
  const { does, diameterMm, depthMm, times } = operation;
  const row = PLUNGES[does as keyof typeof PLUNGES];
  const cutter = operation.tool.material;
  const [low, high] =
    row.of === 'drill'
      ? drillSpeedRange(material, cutter)
      : speedRange(material, row.of === 'hss-mill' ? 'hss' : cutter);
  const range = [low * row.speedShare, high * row.speedShare] as const;
  const turned = turning(range, diameterMm, machine, material, operation.tool);
  const turnMm = 'drillFeeds' in row ? row.drillFeeds * drillFeedMm(material, diameterMm) : row.feedShare * diameterMm;
  const wanted = Math.min(row.mostFeedMm, turnMm);
  const most = operation.finishFeedMm ?? Number.POSITIVE_INFINITY;
  const feed = Math.min(wanted, most) * turned.rpm;
  const conditions = {
    ...fed(turned, range, feed, machine, material),
    ...(most < wanted && { limitedBy: 'finish' as const }),
  };
  const load =
    does === 'bore'
      ? boringLoad(kienzleOf(material), {
          diameterMm,
          feedMm: feed / turned.rpm,
          deepMm: BORE_DEEP_MM,
          rpm: turned.rpm,
        })
      : undefined;
  const cutting = plunges((row.cuts * depthMm) / conditions.feedMmPerMin, times);
  const [quick, slow] = does === 'bore' ? trialMinutes(machine) : [0, 0];
  const tried = times * row.cuts;
  return { operation, conditions, ...load, minutes: [cutting[0] + tried * quick, cutting[1] + tried * slow] };
}
/** What a boring head takes off a side at most in its last cuts. Common practice: 0.1 to 0.25 mm. */
const BORE_DEEP_MM = 0.25;

export function tapped(operation: Tapping, material: Material, machine: Machine): Priced {
  const { tool, pitchMm, depthMm, times } = operation;
  const harder = tool.forming ? FORM_TAP_TORQUE.factor : 1;
  const torqueNm = harder * tappingTorqueNm(TAP_FORCE[holeRowOf(material)].kc, tool.diameterMm, pitchMm);
  if (machine.tapping === 'hand') {
    const [quick, slow] = handTapMinutes(machine, depthMm, pitchMm);
    return { operation, torqueNm, minutes: [times * quick, times * slow] };
  }
  const range = cuttingOf(material).tapMPerMin;
  const turned = turning(range, tool.diameterMm, machine, material, tool);
  // The feed is the pitch's: a machine that cannot follow turns slower.
  const most = (machine.feedMmPerMin ?? Number.POSITIVE_INFINITY) / pitchMm;
  const slowed = turned.rpm > most ? Math.max(machine.rpm[0], settable(most, machine)) : turned.rpm;
  const rpm = Math.min(turned.rpm, slowed);
  const limitedBy: LimitedBy = rpm < turned.rpm ? 'feed' : turned.limitedBy;
  return {
    operation,
    conditions: {
      ...turned,
      rpm,
      speedMPerMin: (rpm * Math.PI * tool.diameterMm) / 1000,
      limitedBy,
      speedRange: range,
      feedMmPerMin: rpm * pitchMm,
      source: cuttingOf(material).source,
    },
    torqueNm,
    powerW: (torqueNm * 2 * Math.PI * rpm) / 60,
    minutes: plunges(tapTime(depthMm, pitchMm, rpm), times),
  };
}

function fed(
  turned: Turning,
  range: readonly [number, number],
  feed: number,
  machine: Machine,
  material: Material,
): Conditions {
  const most = machine.feedMmPerMin ?? Number.POSITIVE_INFINITY;
  const limitedBy: LimitedBy = feed > most ? 'feed' : turned.limitedBy;
  return {
    ...turned,
    limitedBy,
    speedRange: range,
    feedMmPerMin: Math.min(feed, most),
    source: cuttingOf(material).source,
  };
}

function plunges(once: number, times: number): readonly [number, number] {
  const low = times * (once + BETWEEN_MINUTES);
  return [low, low * CAUTION];
}
