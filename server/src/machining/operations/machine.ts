/** Which machine a feature is priced on: the one its set-up names, or the shop's first. */
import type { Part } from '../../spec/model';
import type { Machine, Shop } from '../../spec/shop-model';

/** `feature` left out: of the first set-up that names a machine. */
export function machineFor({ setups }: Pick<Part, 'setups'>, shop: Shop, feature?: string): Machine | undefined {
  for (const setup of setups ?? []) {
    if (!setup.machine || (feature !== undefined && !setup.cuts.some((c) => c.name === feature))) continue;
    const found = shop.machines.find((m) => m.name === setup.machine!.name);
    if (found) return found;
  }
  return shop.machines[0];
}
