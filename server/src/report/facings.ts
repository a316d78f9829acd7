/** The faces that set-ups take the stock off: cuts like every other, each with what it takes. */

import { materialOf } from '../model/material-of';
import type { Setup } from '../model/model';
import type { Machine } from '../model/shop-model';
import { orderOf } from '../planning/piece-time';
import type { Priced } from '../process/operations/types';
import { cutsIn } from '../process/passes/cuts-in-setup';
import { machineOf } from '../process/workholding/forces';
import type { ReadPart } from '../rules/judging';

interface Faced {
  readonly face: string;
  readonly setup: Setup;
  readonly machine: Machine;
  readonly cuts: readonly Priced[];
}

/** Of the text's own set-ups, or of those that the times go by; empty without a known material or a machine. */
export function facingsOf(checked: ReadPart): readonly Faced[] {
  const { part, shop } = checked;
  const material = materialOf(part);
  if (!material || !part.body || shop.machines.length === 0) return [];
  const { setups } = orderOf(checked);
  const asked = { ...checked, part: { ...part, setups } };
  return setups.flatMap((setup) => {
    const machine = machineOf(setup, shop);
    if (!machine) return [];
    return cutsIn(setup, asked).flatMap(({ entry: { name }, steps }) => {
      const cuts = part.featureByName.has(name)
        ? []
        : steps.map(({ operation, priced }) => priced ?? { operation, minutes: [0, 0] as const });
      return cuts.length > 0 ? [{ face: name, setup, machine, cuts }] : [];
    });
  });
}
