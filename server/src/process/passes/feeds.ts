/** How a pass is turned and fed on this machine: what the spindle is set to, and what moves the table. */

import type { Machine, Tool } from '../../model/shop-model';
import { formOfTool } from '../../model/tool-kinds';
import { DIGITS, ROUNDING } from '../../tolerance';
import { stepBelow } from '../cutting/speed';
import type { Priced } from '../operations/types';
import type { Feed, Speed } from './types';

/** Hands turn a wheel no faster. Common practice, no source. */
const FASTEST_HAND_MM_PER_S = 5;
/** What a hand can feel by the second: slower feeds are told over a stroke. Common practice, no source. */
const SLOW_HAND_MM_PER_S = 2;
/** The stroke that slow feeds are told over, mm: counted seconds, not fractions of them. */
const STROKE_MM = 10;

/** A highest speed that nobody told: at most this until it was asked for. Common practice, no source. */
const UNASKED_RPM = 800;

/** Wide or out of balance, they have a highest speed of their own. */
const HAS_HIGHEST = new Set(['face', 'bore', 'saw']);

export function speedOf({ operation, conditions: c }: Priced, tool: Tool, machine: Machine): Speed {
  if (!c || operation.does === 'missing') return { rpm: 0, wantedRpm: 0, setBy: 'hand', ask: false };
  const unknown = HAS_HIGHEST.has(formOfTool(tool)) && tool.mostRpm === undefined;
  const most = unknown ? Math.min(c.rpm, UNASKED_RPM) : c.rpm;
  return {
    rpm: settable(most, machine),
    wantedRpm: c.wantedRpm,
    setBy: machine.stepsRpm ? 'step' : (machine.setBy ?? 'any'),
    ask: unknown && c.rpm > UNASKED_RPM,
  };
}

/** The step below, or two digits rounded down; never slower than the spindle turns. */
function settable(rpm: number, { stepsRpm, rpm: [least] }: Machine): number {
  if (stepsRpm) return stepBelow(stepsRpm, rpm);
  const digit = 10 ** Math.max(0, Math.floor(Math.log10(rpm) + DIGITS) - 1);
  return Math.max(least, Math.floor(rpm / digit + ROUNDING) * digit);
}

const BY_QUILL: ReadonlySet<string> = new Set(['spot', 'drill', 'ream', 'counterbore', 'countersink', 'bore', 'tap']);

export function feedOf({ operation, conditions: c }: Priced, speed: Speed, machine: Machine): Feed {
  if (!c || speed.rpm === 0) return { by: 'feel' };
  // As much for each turn as was worked out.
  const mmPerMin = c.feedMmPerMin * (speed.rpm / c.rpm);
  if (machine.control === 'program') return { by: 'program', mmPerMin };
  if (BY_QUILL.has(operation.does)) return { by: 'feel', mmPerMin };
  const mmPerS = Math.min(FASTEST_HAND_MM_PER_S, mmPerMin / 60);
  const strokeMm = mmPerS < SLOW_HAND_MM_PER_S ? STROKE_MM : mmPerS * 10;
  return { by: 'hand', mmPerS, mmPerMin: 60 * mmPerS, strokeMm, secondsAStroke: strokeMm / mmPerS };
}
