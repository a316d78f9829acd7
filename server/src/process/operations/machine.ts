/** What a feature is priced on: the machine its set-up names, or the shop's first; the holder a tool sits in. */
import type { Part } from '../../model/model';
import type { Machine, Shop, Tool } from '../../model/shop-model';
import type { Operation } from './types';

/** `feature` left out: of the first set-up that names a machine. */
export function machineFor({ setups }: Pick<Part, 'setups'>, shop: Shop, feature?: string): Machine | undefined {
  for (const setup of setups ?? []) {
    if (!setup.machine || (feature !== undefined && !setup.cuts.some((c) => c.name === feature))) continue;
    const found = shop.machines.find((m) => m.name === setup.machine!.name);
    if (found) return found;
  }
  return shop.machines[0];
}

/** The operation with the holder of its tool, where the shop says. */
export function inHolder<T extends Operation>(operation: T, shop: Shop): T {
  if (!('tool' in operation) || operation.holder) return operation;
  const holder = holderOf(operation.tool, shop);
  return holder ? { ...operation, holder } : operation;
}

function holderOf(tool: Tool, shop: Shop): Shop['holders'][number] | undefined {
  return tool.holder === undefined ? undefined : shop.holders.find((h) => h.name === tool.holder);
}
