/**
 * How fast a cutter turns: from the range of the tables, as far up as the coolant allows, within what the spindle turns.
 * A spindle with steps is set to the nearest one below.
 */

import type { Machine, Tool, ToolMaterial } from '../../model/shop-model';
import { TOOL_KINDS_BY_NAME } from '../../model/tool-kinds';
import type { ToolForm } from '../../model/tool-kinds/kind';
import { type CutMaterial, coolingOf, cuttingOf, drillingOf } from '../../tables/cutting';
import { CARBIDE_DRILLS } from '../../tables/plunging.data';
import { DIGITS, ROUNDING } from '../../tolerance';

/** The speed range for a cutter material, m/min; carbide's where the other has none. */
export function speedRange(material: CutMaterial, cutter: ToolMaterial): readonly [number, number] {
  const { speed } = cuttingOf(material);
  return speed[cutter] ?? speed.carbide;
}

/** The same for a twist drill. Cobalt steel runs a quarter faster, as mills of it do. */
export function drillSpeedRange(material: CutMaterial, cutter: ToolMaterial): readonly [number, number] {
  const [low, high] = cutter === 'carbide' ? cuttingOf(material).speed.carbide : drillingOf(material).hss;
  const share = cutter === 'carbide' ? CARBIDE_DRILLS.share : cutter === 'cobalt' ? 1.25 : 1;
  return [low * share, high * share];
}

export interface Turning {
  readonly speedMPerMin: number;
  readonly rpm: number;
  /** Before the spindle had its say. */
  readonly wantedRpm: number;
  readonly limitedBy: 'range' | 'revolutions' | 'slowest' | 'step' | 'tool' | 'unasked';
}

/** What of a tool bears on how fast it may turn. */
interface Turned {
  readonly kind?: Tool['kind'];
  readonly mostRpm?: number;
}

/** A highest speed that nobody told: at most this until it was asked for. Common practice, no source. */
const UNASKED_RPM = 800;
/** Wide or out of balance, they have a highest speed of their own. Common practice, no source. */
const HAVE_HIGHEST: ReadonlySet<ToolForm> = new Set<ToolForm>(['face', 'bore', 'saw']);

function asksFirst({ kind, mostRpm }: Turned): boolean {
  return mostRpm === undefined && kind !== undefined && HAVE_HIGHEST.has(TOOL_KINDS_BY_NAME[kind].form);
}

/** It turns as fast as a tool may of which nobody told the highest speed. */
export function isUnasked(rpm: number, tool: Turned): boolean {
  return asksFirst(tool) && rpm >= UNASKED_RPM;
}

/** What this machine can be set to: the step below, or two digits, rounded down; never slower than the spindle turns. */
export function settable(rpm: number, { stepsRpm, rpm: [least] }: Machine): number {
  if (stepsRpm && stepsRpm.length > 0) return stepBelow(stepsRpm, rpm);
  const digit = 10 ** (Math.floor(Math.log10(rpm) + DIGITS) - 1);
  return Math.max(least, Math.floor(rpm / digit + ROUNDING) * digit);
}

/** Revolutions for a diameter within a speed range (m/min), within what the spindle turns and the tool may. */
export function turning(
  range: readonly [number, number],
  diameterMm: number,
  machine: Machine,
  material: CutMaterial,
  tool: Turned = {},
): Turning {
  const wanted = range[0] + (range[1] - range[0]) * coolingOf(material, machine.coolant).speedShare;
  const wantedRpm = rpmOf(wanted, diameterMm);
  const [least, fastest] = machine.rpm;
  const most = Math.min(fastest, tool.mostRpm ?? (asksFirst(tool) ? UNASKED_RPM : fastest));
  const within = Math.max(least, Math.min(most, wantedRpm));
  const rpm = settable(within, machine);
  return {
    speedMPerMin: (rpm * Math.PI * diameterMm) / 1000,
    rpm,
    wantedRpm,
    limitedBy:
      rpm > wantedRpm * (1 + ROUNDING)
        ? 'slowest'
        : within < wantedRpm * (1 - ROUNDING)
          ? most < fastest
            ? tool.mostRpm === undefined
              ? 'unasked'
              : 'tool'
            : 'revolutions'
          : machine.stepsRpm && rpm < within * (1 - ROUNDING)
            ? 'step'
            : 'range',
  };
}

/** Turned slower than it was, at least as slow as `rpm` and no slower than the spindle can. */
export function slowed(turned: Turning, rpm: number, diameterMm: number, machine: Machine): Turning {
  const less = Math.min(turned.rpm, Math.max(machine.rpm[0], settable(rpm, machine)));
  return { ...turned, rpm: less, speedMPerMin: (less * Math.PI * diameterMm) / 1000 };
}

export function rpmOf(mPerMin: number, diameterMm: number): number {
  return (1000 * mPerMin) / (Math.PI * diameterMm);
}

/** The nearest step not over a speed, or the slowest; the speed itself on a spindle without steps. */
function stepBelow(steps: readonly number[] | undefined, rpm: number): number {
  if (!steps || steps.length === 0) return rpm;
  const below = steps.filter((s) => s <= rpm * (1 + ROUNDING));
  return below.length > 0 ? Math.max(...below) : Math.min(...steps);
}
