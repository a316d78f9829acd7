/** The faces that set-ups take the stock off: cuts like every other, each with what it takes. */

import type { Setup } from '../model/model';
import type { Machine } from '../model/shop-model';
import { orderOf } from '../planning/piece-time';
import { machineOf } from '../planning/times';
import { facingCuts } from '../process/operations/facing';
import { type Priced, priceOf } from '../process/operations/priced';
import type { ReadPart } from '../rules/judging';
import { findMaterial } from '../tables/materials';

interface Faced {
  readonly face: string;
  readonly setup: Setup;
  readonly machine: Machine;
  readonly cuts: readonly Priced[];
}

/** Of the text's own set-ups, or of those that the times go by; empty without a known material or a machine. */
export function facingsOf(checked: ReadPart): readonly Faced[] {
  const { part, shop } = checked;
  const material = part.material && findMaterial(part.material.name);
  if (!material || !part.body || shop.machines.length === 0) return [];
  return orderOf(checked).setups.flatMap((setup) => {
    const machine = machineOf(setup, checked);
    if (!machine) return [];
    return setup.cuts.flatMap(({ name }) => {
      const cuts = facingCuts(name, setup, part, shop).map((o) => priceOf(o, material, machine));
      return cuts.length > 0 ? [{ face: name, setup, machine, cuts }] : [];
    });
  });
}
