/** What a milled thread takes. */
import type { Machine, Mill, ThreadMill } from '../../model/shop-model';
import type { Material } from '../../tables/materials';
import { type MillingConditions, type MillingTask, millingConditions } from '../cutting/conditions';
import { CAUTION } from '../cutting/time';
import { rowsOf, turnsOf } from '../thread-milling';
import type { Priced, ThreadMilling } from './types';

/** Height of an internal thread, of its pitch: 5/8 of the sharp profile's (ISO 68-1), 0.5413. */
const HEIGHT = 0.5413;
/** A profile that narrows to its tip fills about half of its width. */
const FILLED = 0.5;
/** Times round, each a little further out: as many as take least time. */
const CUTS = [1, 2, 3, 4];

export function threadMilled(operation: ThreadMilling, material: Material, machine: Machine): Priced {
  const { tool, majorMm, pitchMm, depthMm, times, holder } = operation;
  const cutter = threadCutter(tool);
  const { aeMm, apMm } = threadBite(tool, pitchMm, depthMm);
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
    // Along the wall the teeth are fed as said; the spindle's axis goes round on a smaller circle in the same time.
    conditions: { ...c, feedMmPerMin: c.feedMmPerMin * (1 - tool.diameterMm / majorMm) },
    milling: c,
    torqueNm: c.load.torqueNm,
    powerW: c.load.powerW,
    ...(passes > 1 && { passes }),
    minutes: [times * minutes, times * minutes * CAUTION],
  };
}

/** How much of the wall it cuts in one go, mm across and along. */
export function threadBite(tool: ThreadMill, pitchMm: number, depthMm: number): Pick<MillingTask, 'aeMm' | 'apMm'> {
  return { aeMm: HEIGHT * pitchMm, apMm: FILLED * Math.min(depthMm, rowsOf(tool, pitchMm) * pitchMm) };
}

/** As the mill that it is for speeds and forces. */
export function threadCutter({ pitchMm: _, kind: __, ...tool }: ThreadMill): Mill {
  return { ...tool, kind: 'end-mill', cornerRadiusMm: 0 };
}
