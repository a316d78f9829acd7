/** The passes of one cut in its set-up: tool, speed, feed, where and how deep, and what to look for. */

import { undercutBoss } from '../boss-undercuts';
import type { Operation } from '../operations/types';
import type { Cut } from '../stock/types';
import { seenCut, seenVoid } from '../tilted/place';
import type { AlongSpindle } from './along-spindle';
import type { EntryCuts, Step } from './cuts-in-setup';
import { edged } from './edged';
import { isThereNow } from './edges-later';
import { feedOf, speedOf } from './feeds';
import type { Making, Pass, Shape } from './making';
import { milled } from './milled';
import { plunged } from './plunged';
import { undercutRound } from './round-boss';

/** Nothing for what is missing, or has no place in the set-up. */
export function passesOf(entry: EntryCuts, m: Making): readonly Pass[] {
  const { cut } = entry;
  if (!cut) return [];
  return entry.steps.flatMap((step, i) => {
    const { operation, priced } = step;
    if (operation.does === 'missing' || !priced || step.missing !== undefined) return [];
    if (EDGED.has(operation.does) && !cut.removes.some((v) => isThereNow(v, cut))) return [];
    const speed = speedOf(priced, m.machine);
    const base = {
      of: [entry.entry.name],
      operation,
      tool: operation.tool,
      stickoutMm: m.outMm(cut, operation.tool),
      speed,
      feed: feedOf(priced, speed, m.machine),
      ...(priced.passes !== undefined && { strokes: priced.passes }),
      minutes: step.minutes,
    };
    const later = entry.steps.slice(i + 1);
    const shape = m.spindle
      ? shapeOf(seenOperation(operation, m.spindle), step, later, seenCut(cut, m.spindle.axes), seenBy(m, m.spindle))
      : shapeOf(operation, step, later, cut, m);
    return [{ ...base, ...(m.square ? shape : { ...shape, where: { type: 'as drawn' as const } }) }];
  });
}

type Made = Exclude<Operation, { does: 'missing' }>;

const PLUNGED: ReadonlySet<Operation['does']> = new Set([
  'spot',
  'drill',
  'ream',
  'counterbore',
  'countersink',
  'bore',
  'tap',
  'thread',
]);
const EDGED: ReadonlySet<Operation['does']> = new Set(['chamfer', 'round', 'engrave']);

/** Heights as the spindle sees them; where in the plane is in the drawing. */
function seenBy(m: Making, { readOut }: AlongSpindle): Making {
  return { ...m, readOut, obstacles: [], seatZ: Number.NEGATIVE_INFINITY };
}

function seenOperation(operation: Made, { axes }: AlongSpindle): Made {
  const { volume } = operation;
  return volume ? { ...operation, volume: seenVoid(volume, axes) } : operation;
}

function shapeOf(operation: Made, step: Step, later: readonly Step[], cut: Cut, m: Making): Shape {
  if (PLUNGED.has(operation.does)) return plunged(operation, step, cut, m);
  const boss = operation.does === 'undercut' && cut.feature && undercutBoss(cut.feature);
  if (boss) return undercutRound(boss, operation, cut, m);
  return EDGED.has(operation.does) ? edged(operation, cut, m) : milled(operation, step, later, cut, m);
}
