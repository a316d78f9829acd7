/**
 * What a cut takes: speed, feed, force, power, deflection and time. Times are ranges: the low end is the cutting itself at
 * the conditions told, the high end allows for lifts, approaches and a cautious hand on the feed.
 */

import { memo } from '../../memo';
import type { Machine, Mill } from '../../model/shop-model';
import { cuttingOf } from '../../tables/cutting';
import { PASSES } from '../../tables/cutting.data';
import type { Material } from '../../tables/materials';
import { ROUNDING } from '../../tolerance';
import { type MillingConditions, type MillingTask, millingConditions } from '../cutting/conditions';
import { CAUTION, entryTime, faceApproachMm, slabApproachMm } from '../cutting/time';
import { drilled, sized, tapped } from './plunged';
import { threadMilled } from './thread-milled';
import { finishBendMm } from './tolerated';
import type { Facing, Finishing, FormCut, Operation, Priced, Roughing } from './types';
import { overlap, passWidth } from './widths';

export type { Priced } from './types';

/** Of the high end: share of the way that a pass cuts nothing, lifts and coming back. Common practice, no source. */
const AIR = 0.35;

export { FINISH_MM } from './widths';

export const priceOf = memo(pricedAnew, { size: 2 });

/** Of an operation that is only tried: nothing of it is kept. */
export function pricedAnew(operation: Operation, material: Material, machine: Machine): Priced {
  switch (operation.does) {
    case 'spot':
    case 'drill':
      return drilled(operation, material, machine);
    case 'ream':
    case 'counterbore':
    case 'countersink':
    case 'bore':
      return sized(operation, material, machine);
    case 'tap':
      return tapped(operation, material, machine);
    case 'thread':
      return threadMilled(operation, material, machine);
    case 'rough':
    case 'rest':
      return rough(operation, material, machine);
    case 'finish':
      return finish(operation, material, machine);
    case 'face':
      return face(operation, material, machine);
    case 'chamfer':
    case 'round':
    case 'engrave':
    case 'undercut':
    case 'slot':
      return formed(operation, material, machine);
    case 'missing':
      return { operation, minutes: [0, 0] };
    default:
      return operation satisfies never;
  }
}

/** Layers tried for roughing, and widths between those of the table: the pair that removes most without bending, stalling or running out of spindle. */
const LAYERS = [1, 2, 3, 4];

/** What a cutter removes in a minute is the same in every volume so deep, of this part and of others. */
const LAYERED = 64;

function rough(operation: Roughing, material: Material, machine: Machine): Priced {
  const { tool, volumeMm3, depthMm, neckMm, holder } = operation;
  // Its first way between two walls is in the full: of an opening less than twice as wide that is most of it.
  const full = neckMm < 2 * tool.diameterMm;
  const wideMm = operation.wideMm > WIDE * tool.diameterMm ? Number.POSITIVE_INFINITY : operation.wideMm;
  const deepMm = Math.min(depthMm, tool.fluteLengthMm);
  const best = layersOf(tool, { deepMm, full, wideMm, holder }, material, machine);
  const rate = best.load.removalMm3PerMin / overlap(wideMm, best.aeMm);
  const cutting = rate > 0 ? volumeMm3 / rate : Number.POSITIVE_INFINITY;
  return milled(operation, best, cutting + comingIn(operation, best));
}

/** Minutes of a roughing cut before its cutter is in the metal: each stroke's approach from outside, or the way down inside. */
function comingIn(
  { does, enters, tool, depthMm, wideMm }: Roughing,
  { aeMm, apMm, feedMmPerMin }: MillingConditions,
): number {
  if (enters && enters !== 'drilled') return entryTime(enters, tool, depthMm, feedMmPerMin);
  if (enters || does === 'rest' || !Number.isFinite(wideMm)) return 0;
  const strokes = Math.ceil(depthMm / apMm - ROUNDING) * Math.ceil(wideMm / aeMm - ROUNDING);
  return (strokes * slabApproachMm(tool.diameterMm, aeMm)) / feedMmPerMin;
}
/** So many times as wide as the cutter, whether the passes come out even changes next to nothing. */
const WIDE = 10;

interface RoughTask {
  readonly deepMm: number;
  readonly full: boolean;
  readonly wideMm: number;
  readonly holder: Roughing['holder'];
}

const layersOf = memo(bestLayers, {
  size: LAYERED,
  by: (_, { deepMm, full, wideMm, holder }, material, machine) => [deepMm, full, wideMm, holder, material, machine],
});

function bestLayers(
  tool: Mill,
  { deepMm, full, wideMm, holder }: RoughTask,
  material: Material,
  machine: Machine,
): MillingConditions {
  const { slotDepth, sideDepth, sideWidth } = cuttingOf(material);
  const slot = Math.max(0.1, slotDepth[1] * tool.diameterMm);
  const [thin, wide] = sideWidth;
  let best: MillingConditions | undefined;
  for (const share of full ? [1] : [thin, (thin + wide) / 2, wide]) {
    const deepest = Math.min(deepMm, share === 1 ? slot : sideDepth[1] * tool.diameterMm);
    for (const layers of LAYERS) {
      const aeMm = full ? Math.min(tool.diameterMm, wideMm) : passWidth(wideMm, share * tool.diameterMm);
      const c = millingConditions(material, tool, machine, { aeMm, apMm: deepest / layers, holder });
      if (!best || c.load.removalMm3PerMin > best.load.removalMm3PerMin) best = c;
    }
  }
  return best!;
}

function finish(operation: Finishing, material: Material, machine: Machine): Priced {
  const { tool, depthMm, wayMm, wideMm: aeMm, enters } = operation;
  const least = Math.max(1, Math.ceil(depthMm / tool.fluteLengthMm - ROUNDING));
  let best: { c: MillingConditions; minutes: number } | undefined;
  for (const passes of [least, least + 1, least + 2, 2 * least + 2]) {
    const { holder, finishFeedMm } = operation;
    const cut = { aeMm, apMm: depthMm / passes, mostBendMm: finishBendMm(operation.feature), holder, finishFeedMm };
    const c = millingConditions(material, tool, machine, cut);
    const minutes = (passes * (wayMm + slabApproachMm(tool.diameterMm, aeMm))) / c.feedMmPerMin;
    if (!best || minutes < best.minutes) best = { c, minutes };
  }
  const down = enters && enters !== 'drilled' ? entryTime(enters, tool, depthMm, best!.c.feedMmPerMin) : 0;
  return milled(operation, best!.c, best!.minutes + down);
}

/** Of a mill's width, what a pass of its end takes. Common practice: two thirds to three quarters. */
export const FACE_SHARE = 0.7;

function face(operation: Facing, material: Material, machine: Machine): Priced {
  const { tool, lengthMm, widthMm, depthMm } = operation;
  const aeMm = Math.min(widthMm, FACE_SHARE * tool.diameterMm);
  const passes = Math.ceil(widthMm / (FACE_SHARE * tool.diameterMm) - ROUNDING);
  const layers = Math.ceil(depthMm / Math.min(tool.fluteLengthMm, FACE_DEEP_MM) - ROUNDING);
  const { holder, finishFeedMm } = operation;
  const c = millingConditions(material, tool, machine, { aeMm, apMm: depthMm / layers, holder, finishFeedMm });
  const way = lengthMm + 2 * faceApproachMm(tool.diameterMm, aeMm);
  return milled(operation, c, (layers * passes * way) / c.feedMmPerMin);
}
/** A facing pass goes no deeper. Common practice, no source: 0.5 to 2 mm. */
const FACE_DEEP_MM = 1;

/** Steps to a radius that a ball goes round it in. Common practice, no source. */
export const ROUND_STEPS = 6;

function formed(operation: FormCut, material: Material, machine: Machine): Priced {
  const { tool, depthMm, wayMm, holder } = operation;
  const cutter = asMill(tool);
  const wideMm = Math.min(operation.wideMm ?? depthMm, cutter.diameterMm);
  const cutIn = (passes: number): MillingTask => {
    switch (operation.does) {
      case 'engrave':
        return { aeMm: cutter.diameterMm, apMm: depthMm / passes, holder };
      case 'slot':
        return { aeMm: wideMm / passes, apMm: depthMm, mostBendMm: UNDERCUT_BEND_MM, holder, edge: 'disc' };
      case 'undercut':
        return { aeMm: wideMm / passes, apMm: depthMm, mostBendMm: UNDERCUT_BEND_MM, holder, edge: 'form' };
      case 'chamfer':
      case 'round': {
        // A ball goes round in steps: each takes only what lies between it and the last.
        const stepMm = depthMm / ROUND_STEPS;
        if (operation.does === 'round' && cutter.kind === 'end-mill') return { aeMm: stepMm, apMm: stepMm, holder };
        // What a cone takes off is a triangle: half of its width, on average over its depth.
        return { aeMm: wideMm / 2 / passes, apMm: depthMm, holder, edge: 'chamfer' };
      }
      default:
        return operation.does satisfies never;
    }
  };
  const least = leastPasses(operation, cutter.diameterMm, wideMm);
  let best: { c: MillingConditions; minutes: number; passes: number } | undefined;
  for (const more of FORM_PASSES) {
    const passes = more * least;
    const c = millingConditions(material, cutter, machine, cutIn(passes));
    const minutes = (passes * wayMm) / c.feedMmPerMin;
    if (!best || minutes < best.minutes * 0.98) best = { c, minutes, passes };
    if (operation.does === 'round' || operation.once) break;
  }
  const { c, minutes, passes } = best!;
  return { ...milled(operation, c, minutes), ...(passes > 1 && { passes }) };
}

/** An undercutter on its thin neck gives more way than an end mill, and nothing is fitted to what it leaves. Common practice, no source. */
const UNDERCUT_BEND_MM = 0.1;

/** In as many times the fewest passes as take least time: each stays as deep, and takes its share of the width. */
const FORM_PASSES = [1, 2, 3, 4, 6, 8];

function leastPasses({ does, depthMm, once }: FormCut, diameterMm: number, wideMm: number): number {
  if (does === 'chamfer') return Math.max(1, Math.ceil(depthMm / PASSES.chamferMm - ROUNDING));
  if (does !== 'undercut' || once) return 1;
  return Math.max(PASSES.leastUndercuts, Math.ceil(wideMm / (PASSES.undercutShare * diameterMm) - ROUNDING));
}

function milled(operation: Operation, milling: MillingConditions, once: number): Priced {
  const low = operation.times * once;
  return {
    operation,
    conditions: milling,
    milling,
    torqueNm: milling.load.torqueNm,
    powerW: milling.load.powerW,
    minutes: [low, low * (1 + AIR) * CAUTION],
  };
}

/** A form cutter as the mill it is for speeds and forces: four teeth unless it says. */
export function asMill(tool: Extract<Operation, { wayMm: number }>['tool']): Mill {
  if ('cornerRadiusMm' in tool) return tool;
  const flutes = 'flutes' in tool ? tool.flutes : 4;
  const neck = 'neckMm' in tool ? tool.neckMm : tool.diameterMm;
  const shank = ('shankMm' in tool ? tool.shankMm : undefined) ?? neck;
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
    neckMm: Math.min(neck, shank),
    cornerRadiusMm: 0,
    ...(tool.stickoutMm !== undefined && { stickoutMm: tool.stickoutMm }),
    ...(tool.mostRpm !== undefined && { mostRpm: tool.mostRpm }),
    ...(tool.feedPerToothMm !== undefined && { feedPerToothMm: tool.feedPerToothMm }),
  };
}
