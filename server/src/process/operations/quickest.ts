/** Of the cutters that could rough and those that could finish, the two that take least time, a change between them counted. */

import type { Feature, Part } from '../../model/model';
import type { Mill, Shop } from '../../model/shop-model';
import { findMaterial } from '../../tables/materials';
import { SAME_MM } from '../cutters';
import { inHolder, machineFor } from './machine';
import { priceOf } from './priced';
import type { Operation } from './types';

/** What is to be cut, and with what. */
export interface Task {
  readonly feature: Feature;
  readonly part: Part;
  readonly shop: Shop;
}

type Ways = (large: Mill, small: Mill) => readonly Operation[];

/** Roughing takes time in proportion to its volume, so that each cutter is priced once for a width. */
export function quickest(
  rough: readonly Mill[],
  finish: readonly Mill[],
  ways: Ways,
  { feature, part, shop }: Task,
): readonly Operation[] {
  const material = part.material && findMaterial(part.material.name);
  const machine = machineFor(part, shop, feature.name);
  if (!material || !machine) return ways(rough[0]!, finish[0]!);
  const known = new Map<string, number>();
  const price = (o: Operation) => priceOf(inHolder(o, shop), material, machine).minutes[0];
  const minutesOf = (o: Operation): number => {
    if (o.does === 'rough' || o.does === 'rest')
      return o.volumeMm3 * once(known, `${o.tool.name} ${o.neckMm} ${o.wideMm}`, () => price({ ...o, volumeMm3: 1 }));
    return o.does === 'finish' ? once(known, `${o.tool.name} finish ${o.wideMm}`, () => price(o)) : 0;
  };
  let best: { made: readonly Operation[]; minutes: number } | undefined;
  for (const small of finish) {
    for (const large of rough) {
      if (large.diameterMm < small.diameterMm - SAME_MM) continue;
      const made = ways(large, small);
      const cutting = made.reduce((sum, o) => sum + minutesOf(o), 0);
      const minutes = cutting + (large === small ? 0 : machine.toolChangeS / 60);
      if (!best || minutes < best.minutes - 1e-9) best = { made, minutes };
    }
  }
  return best?.made ?? ways(finish[0]!, finish[0]!);
}

function once<K>(known: Map<K, number>, key: K, work: () => number): number {
  const found = known.get(key) ?? work();
  known.set(key, found);
  return found;
}
