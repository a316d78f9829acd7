/**
 * What a cut takes: speed, feed, force, power, deflection and time. Times are ranges: the low end is the cutting itself at
 * the conditions told, the high end allows for lifts, approaches and a cautious hand on the feed.
 */
import { cuttingOf } from '../../reference/cutting';
import type { Material } from '../../reference/materials';
import type { Machine, Mill } from '../../spec/shop-model';
import {
  type Conditions,
  drillingConditions,
  type MillingConditions,
  millingConditions,
  ROUGH_BEND_MM,
  speedRange,
  turning,
} from '../cutting/conditions';
import { drillTime, faceApproachMm, slabApproachMm, tapTime } from '../cutting/time';
import type { Facing, Finishing, FormCut, Operation, Roughing } from './types';

export interface Priced {
  readonly operation: Operation;
  /** Absent where nothing on hand does it. */
  readonly conditions?: Conditions;
  /** Force, power and deflection of a milling cut. */
  readonly milling?: MillingConditions;
  readonly torqueNm?: number;
  readonly powerW?: number;
  readonly thrustN?: number;
  /** All members of a pattern together. */
  readonly minutes: readonly [low: number, high: number];
}

/** Between two plunges: up, over and down again, at the rapid feed; and at least so long. Common practice, no source. */
const BETWEEN_MINUTES = 0.05;
const RAPID_MM_PER_MIN = 3000;
/** Share of the way that a pass cuts nothing: lifts and coming back. Common practice, no source. */
const AIR = 0.35;
/** A cautious hand against the tables. Common practice, no source. */
const CAUTION = 1.6;
/** What roughing leaves on the wall. Common practice: 0.1 to 0.3 mm. */
const FINISH_MM = 0.2;
/** How far a finishing cutter may bend where no tolerance says. Common practice, no source. */
const FINISH_BEND_MM = 0.02;

const kept = new WeakMap<
  Operation,
  { readonly material: Material; readonly machine: Machine; readonly priced: Priced }
>();

export function priceOf(operation: Operation, material: Material, machine: Machine): Priced {
  const known = kept.get(operation);
  if (known?.material === material && known.machine === machine) return known.priced;
  const priced = work(operation, material, machine);
  kept.set(operation, { material, machine, priced });
  return priced;
}

function work(operation: Operation, material: Material, machine: Machine): Priced {
  switch (operation.does) {
    case 'spot':
    case 'drill': {
      const { tool, depthMm } = operation;
      const drill = {
        diameterMm: operation.diameterMm,
        material: tool.material,
        pointDeg: 'pointDeg' in tool ? tool.pointDeg : 118,
      };
      const c = drillingConditions(material, drill, machine, depthMm);
      const time = drillTime(depthMm, operation.diameterMm, drill.pointDeg, c.feedMmPerMin, RAPID_MM_PER_MIN, c.peckMm);
      return {
        operation,
        conditions: c,
        torqueNm: c.load.torqueNm,
        powerW: c.load.powerW,
        thrustN: c.load.thrustN,
        minutes: plunges(time.minutes, operation.times),
      };
    }
    case 'ream':
    case 'counterbore':
    case 'countersink':
    case 'bore': {
      // Slower and fed at its own pace: half the drilling speed, a tenth of a millimetre a turn. Common practice.
      const [low, high] = speedRange(material, operation.tool.material);
      const share = operation.does === 'bore' ? 1 : 0.5;
      const turned = turning([low * share, high * share], operation.diameterMm, machine);
      const feedMmPerMin = turned.rpm * (operation.does === 'bore' ? 0.05 : 0.1);
      // A bore takes two or three cuts, measured between.
      const cuts = operation.does === 'bore' ? 3 : 1;
      const minutes = (cuts * operation.depthMm) / feedMmPerMin + (operation.does === 'bore' ? 3 : 0);
      return {
        operation,
        conditions: {
          ...turned,
          speedRange: [low * share, high * share],
          feedMmPerMin,
          source: cuttingOf(material).source,
        },
        minutes: plunges(minutes, operation.times),
      };
    }
    case 'tap': {
      const [low, high] = cuttingOf(material).tapMPerMin;
      const turned = turning([low, high], operation.tool.diameterMm, machine);
      const minutes = tapTime(operation.depthMm, operation.pitchMm, turned.rpm);
      return {
        operation,
        conditions: {
          ...turned,
          speedRange: [low, high],
          feedMmPerMin: turned.rpm * operation.pitchMm,
          source: cuttingOf(material).source,
        },
        minutes: plunges(minutes, operation.times),
      };
    }
    case 'rough':
    case 'rest':
      return rough(operation, material, machine);
    case 'face':
      return face(operation, material, machine);
    case 'finish':
      return finish(operation, material, machine);
    case 'chamfer':
    case 'round':
    case 'engrave':
    case 'undercut':
      return formed(operation, material, machine);
    case 'missing':
      return { operation, minutes: [0, 0] };
  }
}

/** Layers and widths tried for roughing: the pair that removes most without bending, stalling or running out of spindle. */
const WIDTHS = [0.1, 0.25, 0.4];
const LAYERS = [1, 2, 3, 4];

function rough(operation: Roughing, material: Material, machine: Machine): Priced {
  const { tool, volumeMm3, depthMm, neckMm } = operation;
  const slot = Math.max(0.1, cuttingOf(material).slotDepth * tool.diameterMm);
  // Where the cutter just passes, it cuts in the full.
  const widths = neckMm < 1.3 * tool.diameterMm ? [1] : WIDTHS;
  let best: MillingConditions | undefined;
  for (const share of widths) {
    const deepest = Math.min(depthMm, tool.fluteLengthMm, share === 1 ? slot : 1.5 * tool.diameterMm);
    for (const layers of LAYERS) {
      const cut = { aeMm: share * tool.diameterMm, apMm: deepest / layers };
      const c = millingConditions(material, tool, machine, cut);
      if (!best || c.load.removalMm3PerMin > best.load.removalMm3PerMin) best = c;
    }
  }
  const rate = best!.load.removalMm3PerMin;
  return milled(operation, best!, rate > 0 ? volumeMm3 / rate : Number.POSITIVE_INFINITY);
}

function finish(operation: Finishing, material: Material, machine: Machine): Priced {
  const { tool, depthMm, wayMm } = operation;
  const least = Math.max(1, Math.ceil(depthMm / tool.fluteLengthMm - 1e-9));
  let best: { c: MillingConditions; minutes: number } | undefined;
  for (const passes of [least, least + 1, least + 2, 2 * least + 2]) {
    const cut = { aeMm: FINISH_MM, apMm: depthMm / passes, mostBendMm: FINISH_BEND_MM };
    const c = millingConditions(material, tool, machine, cut);
    const minutes = (passes * (wayMm + slabApproachMm(tool.diameterMm, FINISH_MM))) / c.feedMmPerMin;
    if (!best || minutes < best.minutes) best = { c, minutes };
  }
  return milled(operation, best!.c, best!.minutes);
}

/** Of a mill's width, what a pass of its end takes. Common practice: two thirds to three quarters. */
const FACE_SHARE = 0.7;

function face(operation: Facing, material: Material, machine: Machine): Priced {
  const { tool, lengthMm, widthMm, depthMm } = operation;
  const aeMm = Math.min(widthMm, FACE_SHARE * tool.diameterMm);
  const passes = Math.ceil(widthMm / (FACE_SHARE * tool.diameterMm) - 1e-9);
  const layers = Math.ceil(depthMm / Math.min(tool.fluteLengthMm, FACE_DEEP_MM) - 1e-9);
  const c = millingConditions(material, tool, machine, { aeMm, apMm: depthMm / layers, mostBendMm: ROUGH_BEND_MM });
  const way = lengthMm + 2 * faceApproachMm(tool.diameterMm, aeMm);
  return milled(operation, c, (layers * passes * way) / c.feedMmPerMin);
}
/** A facing pass goes no deeper. Common practice, no source: 0.5 to 2 mm. */
const FACE_DEEP_MM = 1;

/** In as many passes as take least time: each stays as deep, and takes its share of the width. */
const FORM_PASSES = [1, 2, 3, 4, 6, 8];

function formed(operation: FormCut, material: Material, machine: Machine): Priced {
  const { tool, depthMm, wayMm } = operation;
  const cutter = asMill(tool);
  let best: { c: MillingConditions; minutes: number } | undefined;
  for (const passes of operation.does === 'round' ? [1] : FORM_PASSES) {
    const full = { aeMm: cutter.diameterMm, apMm: depthMm / passes };
    const aside = { aeMm: Math.min(depthMm, cutter.diameterMm) / passes, apMm: depthMm };
    const c = millingConditions(material, cutter, machine, operation.does === 'engrave' ? full : aside);
    const minutes = (passes * wayMm) / c.feedMmPerMin;
    if (!best || minutes < best.minutes * 0.98) best = { c, minutes };
  }
  return milled(operation, best!.c, best!.minutes);
}

function milled(operation: Operation, milling: MillingConditions, once: number): Priced {
  const low = operation.times * once;
  return {
    operation,
    conditions: milling,
    milling,
    torqueNm: milling.load.torqueNm,
    powerW: milling.load.powerW,
    minutes: [low * (1 + AIR), low * (1 + AIR) * CAUTION],
  };
}

function plunges(once: number, times: number): readonly [number, number] {
  const low = times * (once + BETWEEN_MINUTES);
  return [low, low * CAUTION];
}

/** A form cutter as the mill it is for speeds and forces: four teeth unless it says. */
export function asMill(tool: Extract<Operation, { wayMm: number }>['tool']): Mill {
  if ('cornerRadiusMm' in tool) return tool;
  const flutes = 'flutes' in tool ? tool.flutes : 4;
  const shank = 'neckMm' in tool ? tool.neckMm : tool.diameterMm;
  return {
    name: tool.name,
    span: tool.span,
    diameterMm: tool.diameterMm,
    material: tool.material,
    kind: 'end-mill',
    flutes,
    fluteLengthMm: 'thicknessMm' in tool ? tool.thicknessMm : tool.diameterMm / 2,
    reachMm: tool.reachMm,
    shankMm: shank,
    cornerRadiusMm: 0,
  };
}
