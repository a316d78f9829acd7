/** What the machine rules share: which machines could take the part, and what it is of. */

import type { Part } from '../../model/model';
import type { Machine, Shop } from '../../model/shop-model';

/** The machines the part may go on: those its setups name, else all of the shop. */
export function machinesFor(part: Part, shop: Shop): readonly Machine[] {
  const named = new Set((part.setups ?? []).flatMap((s) => (s.machine ? [s.machine.name] : [])));
  const chosen = shop.machines.filter((m) => named.has(m.name));
  return chosen.length > 0 ? chosen : shop.machines;
}
