/**
 * Speed and feed for a cutter in a material on a machine: from the ranges of the tables, taken down to what the spindle
 * turns, bears and feeds. Says what it was limited by, so that a number never looks like a recommendation from nowhere.
 */

import { memo } from '../../memo';
import type { Drill, Machine, Mill } from '../../model/shop-model';
import { coolingOf, cuttingOf, drillingOf, kienzleOf } from '../../tables/cutting';
import { EDGES, RADIAL_SHARE, WORN_EDGE } from '../../tables/cutting.data';
import type { Material } from '../../tables/materials';
import { MOST_DRILL_FEED, SLOW_DRILL } from '../../tables/plunging.data';
import { ROUNDING } from '../../tolerance';
import { bendOf, type HeldIn, machineGives, stickoutOf } from './bend';
import { chipThinning } from './chip';
import { type Edge, edgeSpeed, toothFeed } from './chip-load';
import {
  type DrillingLoad,
  drillingLoad,
  type ForceLaw,
  helixesOf,
  type MillingLoad,
  millingLoad,
  pushesOver,
} from './force';
import { shankForceN, slipsAtN } from './grip';
import { wallPush } from './helix';
import { drillSpeedRange, rpmOf, slowed, speedRange, type Turning, turning } from './speed';

export type LimitedBy =
  | Turning['limitedBy']
  | 'finish'
  | 'feed'
  | 'power'
  | 'torque'
  | 'holder'
  | 'deflection'
  | 'stiffness';

export interface Conditions {
  readonly speedMPerMin: number;
  /** The tables' range for this cutter material; what was taken lies in it unless the spindle cannot turn so. */
  readonly speedRange: readonly [number, number];
  readonly rpm: number;
  readonly wantedRpm: number;
  readonly feedMmPerMin: number;
  readonly limitedBy: LimitedBy;
  readonly source: string;
}

export interface MillingConditions extends Conditions {
  readonly feedPerToothMm: number;
  /** The shop's own feed of a tooth, not the tables'. */
  readonly ownFeed: boolean;
  readonly chipRangeMm: readonly [number, number];
  readonly aeMm: number;
  readonly apMm: number;
  readonly load: MillingLoad;
  /** At the tip, under the resultant: cutter, holder and, where it is known, the machine. */
  readonly deflectionMm: number;
  readonly stickoutMm: number;
}

/** Of the motor's power, what reaches the cutter through belts and bearings. Common practice: 0.7 to 0.9. */
export const SPINDLE_EFFICIENCY = 0.8;
/** Feed may be raised for thin chips by so much at most. Common practice, no source. */
const MOST_THINNING = 2;
/** A roughing cutter may bend by so much; finishing goes by the tolerance. Common practice, no source. */
const ROUGH_BEND_MM = 0.05;

export interface MillingTask {
  readonly aeMm: number;
  readonly apMm: number;
  readonly mostBendMm?: number;
  readonly holder?: HeldIn | undefined;
  /** What kind of tooth; left out: the side or end of a mill. */
  readonly edge?: Edge;
  /** For the roughness asked, mm a tooth at most; chips too thin to be cut do not help. */
  readonly finishFeedMm?: number | undefined;
}

/** The same cut is asked for again and again: by every pair of cutters that could share a pocket, every pocket, every keystroke. */
const KEEP = 32;

/**
 * Conditions for a mill cutting `aeMm` wide and `apMm` deep. The feed comes down until power, torque and the machine's own
 * feed bear it, and until the cutter bends no more than `mostBendMm`.
 */
export function millingConditions(
  material: Material,
  tool: Mill,
  machine: Machine,
  cut: MillingTask,
): MillingConditions {
  return milled(tool, machine, material, cut);
}

const milled = memo(
  (tool: Mill, machine: Machine, material: Material, cut: MillingTask) => work(material, tool, machine, cut),
  {
    size: KEEP,
    by: (_, machine, material, { aeMm, apMm, mostBendMm, edge, finishFeedMm, holder }) => [
      apMm,
      aeMm,
      mostBendMm,
      edge,
      finishFeedMm,
      holder?.diameterMm,
      holder?.lengthMm,
      holder?.slipsAtN,
      machine,
      material,
    ],
  },
);

/** Of the motor's power, what reaches the cutter. */
function atCutterW({ powerW, efficiency }: Machine): number {
  return powerW * (efficiency ?? SPINDLE_EFFICIENCY);
}

function work(material: Material, tool: Mill, machine: Machine, cut: MillingTask): MillingConditions {
  const row = cuttingOf(material);
  const law = wornLaw(material);
  const edge = EDGES[cut.edge ?? 'side'];
  const range = edgeSpeed(speedRange(material, tool.material), tool.material, cut.edge);
  const turned = turning(range, tool.diameterMm, machine, material, tool);
  const tooth = toothFeed(row, tool, cut.edge);
  const chipRangeMm = tooth.rangeMm;
  // Teeth with a shape are never fed more for a narrow cut: they break at their points. Nor is what the shop sets.
  const thinning = cut.edge || tooth.own ? 1 : Math.min(MOST_THINNING, chipThinning(cut.aeMm, tool.diameterMm));
  const wanted = tooth.wantedMm * thinning;
  const engaged = engagedBy(tool, cut);
  const pushes = pushesOver(engaged, law.mc);
  const loadAt = (feedPerToothMm: number) => millingLoad(law, { ...engaged, feedPerToothMm, rpm: turned.rpm }, pushes);
  const stickoutMm = stickoutOf(tool);
  const powerW = atCutterW(machine);
  const torqueNm = machine.torqueNm ?? Number.POSITIVE_INFINITY;
  const most = cut.mostBendMm ?? ROUGH_BEND_MM;
  const cutterGives = (l: MillingLoad) => bendOf(tool, stickoutMm, l.resultantN, cut.holder);
  const gives = (l: MillingLoad) => cutterGives(l) + machineGives(machine, l.resultantN);
  // Forces, power and torque grow with feed^(1 − mc).
  const checks: readonly (readonly [LimitedBy, (load: MillingLoad) => number, number])[] = [
    ['feed', (l) => l.feedMmPerMin / (machine.feedMmPerMin ?? Number.POSITIVE_INFINITY), 1],
    ['power', (l) => l.powerW / powerW, 1 / (1 - law.mc)],
    ['torque', (l) => l.torqueNm / torqueNm, 1 / (1 - law.mc)],
    ['holder', (l) => shankForceN(l, tool) / slipsAtN(tool, cut.holder), 1 / (1 - law.mc)],
    ['deflection', (l) => gives(l) / most, 1 / (1 - law.mc)],
  ];
  const finest = Math.max(chipRangeMm[0], cut.finishFeedMm ?? Number.POSITIVE_INFINITY);
  let feed = Math.min(wanted, finest);
  let limitedBy: LimitedBy = finest < wanted ? 'finish' : turned.limitedBy;
  let load = loadAt(feed);
  for (const [what, share, power] of checks) {
    const over = share(load);
    if (over <= 1 + ROUNDING) continue;
    limitedBy = what === 'deflection' && 2 * cutterGives(load) < gives(load) ? 'stiffness' : what;
    feed *= over ** -power;
    load = loadAt(feed);
  }
  return {
    ...turned,
    speedRange: range,
    feedPerToothMm: feed,
    ownFeed: tooth.own,
    chipRangeMm,
    feedMmPerMin: load.feedMmPerMin,
    aeMm: cut.aeMm,
    apMm: cut.apMm,
    load,
    deflectionMm: gives(load),
    stickoutMm,
    limitedBy,
    source: cut.edge ? `${row.source}; ${edge.source}` : row.source,
  };
}

/** What of a cutter is in a cut. */
function engagedBy(tool: Mill, { aeMm, apMm }: Pick<MillingTask, 'aeMm' | 'apMm'>) {
  const { diameterMm, flutes: teeth, helixDeg } = tool;
  return { diameterMm, teeth, aeMm, apMm, ...(helixDeg && { helixDeg }) };
}

/** The law for an edge as it is when it has worked for a while. */
function wornLaw(material: Pick<Material, 'name' | 'family'>): ForceLaw {
  const law = kienzleOf(material);
  return { kc11: law.kc11 * WORN_EDGE.factor, mc: law.mc };
}

/**
 * What a wall that the cut leaves feels at its top, N: the edges pass along its height in turn. `wallMm` is how high the
 * wall stands, the cut reaching from below up to its top.
 */
export function wallForceN(material: Material, tool: Mill, milling: MillingConditions, wallMm: number): number {
  const law = wornLaw(material);
  const push = pushOnWall(tool, milling.aeMm, Math.min(milling.apMm, wallMm), wallMm, law.mc);
  return law.kc11 * milling.feedPerToothMm ** (1 - law.mc) * push;
}

/** Most walls of a part are as high as others, and so are all that an edit leaves alone. */
const pushOnWall = memo(
  (tool: Mill, aeMm: number, apMm: number, wallMm: number, mc: number): number => {
    const cut = engagedBy(tool, { aeMm, apMm });
    return Math.max(
      ...helixesOf(tool.helixDeg).map((helixDeg) => wallPush({ ...cut, helixDeg }, wallMm, mc, RADIAL_SHARE.share)),
    );
  },
  { size: 64 },
);

interface DrillingConditions extends Conditions {
  readonly feedPerTurnMm: number;
  readonly load: DrillingLoad;
  /** After so many mm the chips are cleared; infinite where none is needed. */
  readonly peckMm: number;
}

/** Conditions for a twist drill going `depthMm` deep. */
export function drillingConditions(
  material: Material,
  tool: Pick<Drill, 'diameterMm' | 'material' | 'pointDeg' | 'mostRpm'>,
  machine: Machine,
  depthMm: number,
): DrillingConditions {
  const range = drillSpeedRange(material, tool.material);
  const law = kienzleOf(material);
  const { peckFromD, peckD } = coolingOf(material, machine.coolant);
  const pecks = depthMm / tool.diameterMm > peckFromD;
  const mostPower = atCutterW(machine);
  let turned: Turning = turning(range, tool.diameterMm, machine, material, tool);
  const loadAt = (feedPerTurnMm: number) =>
    drillingLoad(law, { diameterMm: tool.diameterMm, feedPerTurnMm, pointDeg: tool.pointDeg, rpm: turned.rpm });
  let limitedBy: LimitedBy = turned.limitedBy;
  let feed = drillFeedMm(material, tool.diameterMm);
  // A drill that asks for more power than there is turns slower before it is fed less: it must cut, not rub.
  const over = loadAt(feed).powerW / mostPower;
  if (over > 1 + ROUNDING) {
    limitedBy = 'power';
    const slow = rpmOf(SLOW_DRILL.share * range[0], tool.diameterMm);
    turned = slowed(turned, Math.max(turned.rpm / over, slow), tool.diameterMm, machine);
  }
  const mostFeed = machine.feedMmPerMin ?? Number.POSITIVE_INFINITY;
  const holds = (l: DrillingLoad) =>
    l.powerW <= mostPower + ROUNDING && l.torqueNm <= (machine.torqueNm ?? Number.POSITIVE_INFINITY) + ROUNDING;
  if (feed * turned.rpm > mostFeed) {
    limitedBy = 'feed';
    feed = mostFeed / turned.rpm;
  }
  if (!holds(loadAt(feed))) {
    limitedBy = loadAt(feed).powerW > mostPower ? 'power' : 'torque';
    for (let i = 0; i < 40 && !holds(loadAt(feed)); i++) feed *= 0.9;
  }
  const load = loadAt(feed);
  return {
    ...turned,
    speedRange: range,
    feedPerTurnMm: feed,
    feedMmPerMin: load.feedMmPerMin,
    load,
    peckMm: pecks ? peckD * tool.diameterMm : Number.POSITIVE_INFINITY,
    limitedBy,
    source: drillingOf(material).source,
  };
}

/** Feed a turn of a twist drill: the middle of its range, however deep (pecking clears chips, it does not thin them). */
export function drillFeedMm(material: Material, diameterMm: number): number {
  const [low, high] = drillingOf(material).feed;
  return Math.min(MOST_DRILL_FEED.mm, ((low + high) / 2) * diameterMm);
}
