/** How a pass is turned and fed on this machine: what the spindle is set to, and what moves the table. */
import type { Machine } from '../../model/shop-model';
import { isUnasked } from '../cutting/speed';
import type { Priced } from '../operations/types';
import type { Feed, Speed } from './types';

/** Hands turn a wheel no faster. Common practice, no source. */
const FASTEST_HAND_MM_PER_S = 5;
/** What a hand can feel by the second: slower feeds are told over a stroke. Common practice, no source. */
const SLOW_HAND_MM_PER_S = 2;
/** The stroke that slow feeds are told over, mm: counted seconds, not fractions of them. */
const STROKE_MM = 10;

export function speedOf({ operation, conditions: c }: Priced, machine: Machine): Speed {
  if (!c || operation.does === 'missing') return { rpm: 0, wantedRpm: 0, setBy: 'hand', ask: false };
  return {
    rpm: c.rpm,
    wantedRpm: c.wantedRpm,
    setBy: machine.stepsRpm ? 'step' : (machine.setBy ?? 'any'),
    ask: c.limitedBy === 'unasked' || isUnasked(c.rpm, operation.tool),
  };
}

const BY_QUILL: ReadonlySet<string> = new Set(['spot', 'drill', 'ream', 'counterbore', 'countersink', 'bore', 'tap']);

export function feedOf({ operation, conditions: c }: Priced, speed: Speed, machine: Machine): Feed {
  if (!c || speed.rpm === 0) return { by: 'feel' };
  const mmPerMin = c.feedMmPerMin;
  if (machine.control === 'program') return { by: 'program', mmPerMin };
  if (BY_QUILL.has(operation.does)) return { by: 'feel', mmPerMin };
  const mmPerS = Math.min(FASTEST_HAND_MM_PER_S, mmPerMin / 60);
  const strokeMm = mmPerS < SLOW_HAND_MM_PER_S ? STROKE_MM : mmPerS * 10;
  return { by: 'hand', mmPerS, mmPerMin: 60 * mmPerS, strokeMm, secondsAStroke: strokeMm / mmPerS };
}
