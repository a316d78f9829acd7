/** What a milled thread takes. */
import type { Machine, Mill, ThreadMill } from '../../model/shop-model';
import type { Material } from '../../tables/materials';
import { type MillingConditions, type MillingTask, millingConditions } from '../cutting/conditions';
import { CAUTION } from '../cutting/time';
import { rowsOf, turnsOf } from '../thread-milling';
import type { Priced, ThreadMilling } from './types';

/** A profile that narrows to its tip fills about half of its width. */
const FILLED = 0.5;
/** Times round, each a little further out: as many as take least time. */
const CUTS = [1, 2, 3, 4];

export function threadMilled(operation: ThreadMilling, material: Material, machine: Machine): Priced {
  const { tool, majorMm, pitchMm, depthMm, times, holder, outside } = operation;
  const cutter = threadCutter(tool);
  const { aeMm, apMm } = threadBite(tool, operation);
  const wallMm = Math.PI * majorMm * turnsOf(tool, pitchMm, depthMm);
  let best: { c: MillingConditions; minutes: number; passes: number } | undefined;
  for (const passes of CUTS) {
    const c = millingConditions(material, cutter, machine, {
      aeMm: aeMm / passes,
      apMm,
      holder,
      edge: 'form',
    });
    const minutes = (passes * wallMm) / c.feedMmPerMin;
    if (!best || minutes < best.minutes) best = { c, minutes, passes };
  }
  const { c, minutes, passes } = best!;
  return {
    operation,
    // Along the wall the teeth are fed as said; the spindle's axis goes round on a smaller circle in the same time, round a boss on a larger.
    conditions: { ...c, feedMmPerMin: c.feedMmPerMin * (1 + ((outside ? 1 : -1) * tool.diameterMm) / majorMm) },
    milling: c,
    torqueNm: c.load.torqueNm,
    powerW: c.load.powerW,
    ...(passes > 1 && { passes }),
    minutes: [times * minutes, times * minutes * CAUTION],
  };
}

/** How much of the wall it cuts in one go, mm across and along. */
export function threadBite(
  tool: ThreadMill,
  { pitchMm, depthMm, toothMm }: Pick<ThreadMilling, 'pitchMm' | 'depthMm' | 'toothMm'>,
): Pick<MillingTask, 'aeMm' | 'apMm'> {
  return { aeMm: toothMm, apMm: FILLED * Math.min(depthMm, rowsOf(tool, pitchMm) * pitchMm) };
}

/** As the mill that it is for speeds and forces. */
export function threadCutter({
  pitchMm: _,
  kind: __,
  flanksDeg: ___,
  tapered: ____,
  cuts: _____,
  ...tool
}: ThreadMill): Mill {
  return { ...tool, kind: 'end-mill', cornerRadiusMm: 0 };
}
