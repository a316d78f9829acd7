/** What the spindle would have to do for a drill, for the rules on speed, power and torque: by the largest hole that is drilled from the full. */

import { materialOf } from '../../model/material-of';
import type { Hole } from '../../model/model';
import type { Drill, Machine } from '../../model/shop-model';
import { gentlestDrilling } from '../../process/cutting/gentlest';
import { drillSpeedRange, rpmOf } from '../../process/cutting/speed';
import { operationsOf } from '../../process/operations';
import type { RuleContext } from '../kit/rule';
import { machinesFor } from './shared';

export interface Drilled {
  readonly hole: Hole;
  readonly drill: Drill;
}

/** Holes that are drilled, each with the drill that it is drilled with: its own, or the one before a reamer or a tap. */
export function* drilledHoles(context: RuleContext): Generator<Drilled> {
  const { part } = context;
  for (const hole of part.features) {
    if (hole.kind !== 'hole') continue;
    const drilled = operationsOf(hole, context).find((o) => o.does === 'drill');
    if (drilled?.does === 'drill' && drilled.tool.kind === 'drill') yield { hole, drill: drilled.tool };
  }
}

export interface Demand {
  readonly machine: Machine;
  /** Surface speed range of the drill in this material, m/min. */
  readonly range: readonly [number, number];
  /** The spindle speed the middle of it asks for. */
  readonly rpm: number;
  readonly torqueNm: number;
  readonly powerW: number;
}

/** What the gentlest feed of the tables takes at the slowest that a drill is still turned, for each machine that could drill it. */
export function* demandsOf({ drill }: Drilled, { part, shop }: RuleContext): Generator<Demand> {
  const material = materialOf(part);
  if (!material) return;
  const range = drillSpeedRange(material, drill.material);
  for (const machine of machinesFor(part, shop)) {
    const rpm = rpmOf((range[0] + range[1]) / 2, drill.diameterMm);
    const load = gentlestDrilling(drill, material, machine);
    yield { machine, range, rpm, torqueNm: load.torqueNm, powerW: load.powerW };
  }
}
