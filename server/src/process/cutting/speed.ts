/**
 * How fast a cutter turns: from the range of the tables, as far up as the coolant allows, within what the spindle turns.
 * A spindle with steps is set to the nearest one below.
 */

import type { Machine, ToolMaterial } from '../../model/shop-model';
import { type CutMaterial, coolingOf, cuttingOf, drillingOf } from '../../tables/cutting';
import { CARBIDE_DRILLS } from '../../tables/plunging.data';
import { ROUNDING } from '../../tolerance';

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
  readonly limitedBy: 'range' | 'revolutions' | 'slowest' | 'step' | 'tool';
}

/** Revolutions for a diameter within a speed range (m/min), within what the spindle turns and the tool may. */
export function turning(
  range: readonly [number, number],
  diameterMm: number,
  machine: Machine,
  material: CutMaterial,
  tool: { readonly mostRpm?: number } = {},
): Turning {
  const wanted = range[0] + (range[1] - range[0]) * coolingOf(material, machine.coolant).speedShare;
  const wantedRpm = rpmOf(wanted, diameterMm);
  const [least, fastest] = machine.rpm;
  const most = Math.min(fastest, tool.mostRpm ?? fastest);
  const within = Math.max(least, Math.min(most, wantedRpm));
  const rpm = stepBelow(machine.stepsRpm, within);
  return {
    speedMPerMin: (rpm * Math.PI * diameterMm) / 1000,
    rpm,
    wantedRpm,
    limitedBy:
      rpm > wantedRpm * (1 + ROUNDING)
        ? 'slowest'
        : within < wantedRpm * (1 - ROUNDING)
          ? most < fastest
            ? 'tool'
            : 'revolutions'
          : rpm < within * (1 - ROUNDING)
            ? 'step'
            : 'range',
  };
}

/** Turned slower than it was, at least as slow as `rpm` and no slower than the spindle can. */
export function slowed(turned: Turning, rpm: number, diameterMm: number, machine: Machine): Turning {
  const less = Math.min(turned.rpm, Math.max(machine.rpm[0], stepBelow(machine.stepsRpm, rpm)));
  return { ...turned, rpm: less, speedMPerMin: (less * Math.PI * diameterMm) / 1000 };
}

export function rpmOf(mPerMin: number, diameterMm: number): number {
  return (1000 * mPerMin) / (Math.PI * diameterMm);
}

/** The nearest step not over a speed, or the slowest; the speed itself on a spindle without steps. */
export function stepBelow(steps: readonly number[] | undefined, rpm: number): number {
  if (!steps || steps.length === 0) return rpm;
  const below = steps.filter((s) => s <= rpm * (1 + ROUNDING));
  return below.length > 0 ? Math.max(...below) : Math.min(...steps);
}
