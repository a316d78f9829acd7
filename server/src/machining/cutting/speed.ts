/**
 * How fast a cutter turns: from the range of the tables, as far up as the coolant allows, within what the spindle turns.
 * A spindle with steps is set to the nearest one below.
 */
import { coolingOf, cuttingOf } from '../../reference/cutting';
import type { Material } from '../../reference/materials';
import type { Machine, ToolMaterial } from '../../spec/shop-model';

export type Cut = Pick<Material, 'family' | 'ultimateMPa'>;

/** The speed range for a cutter material, m/min; carbide's where the other has none. */
export function speedRange(material: Cut, cutter: ToolMaterial): readonly [number, number] {
  const { speed } = cuttingOf(material);
  return speed[cutter] ?? speed.carbide;
}

export interface Turning {
  readonly speedMPerMin: number;
  readonly rpm: number;
  /** Before the spindle had its say. */
  readonly wantedRpm: number;
  readonly limitedBy: 'range' | 'revolutions' | 'slowest' | 'step';
}

/** Revolutions for a diameter within a speed range (m/min), and within what the spindle turns. */
export function turning(
  range: readonly [number, number],
  diameterMm: number,
  machine: Machine,
  material: Cut,
): Turning {
  const wanted = range[0] + (range[1] - range[0]) * coolingOf(material, machine.coolant).speedShare;
  const wantedRpm = (1000 * wanted) / (Math.PI * diameterMm);
  const [least, most] = machine.rpm;
  const within = Math.min(most, Math.max(least, wantedRpm));
  const rpm = stepBelow(machine.stepsRpm, within);
  return {
    speedMPerMin: (rpm * Math.PI * diameterMm) / 1000,
    rpm,
    wantedRpm,
    limitedBy:
      rpm > wantedRpm * (1 + 1e-9)
        ? 'slowest'
        : within < wantedRpm * (1 - 1e-9)
          ? 'revolutions'
          : rpm < within * (1 - 1e-9)
            ? 'step'
            : 'range',
  };
}

/** The nearest step not over a speed, or the slowest; the speed itself on a spindle without steps. */
export function stepBelow(steps: readonly number[] | undefined, rpm: number): number {
  if (!steps || steps.length === 0) return rpm;
  const below = steps.filter((s) => s <= rpm * (1 + 1e-9));
  return below.length > 0 ? Math.max(...below) : Math.min(...steps);
}
