/** Of the cutters that could rough and those that could finish, the two that take least time, a change between them counted. */

import { materialOf } from '../../model/material-of';
import type { Feature, Part } from '../../model/model';
import type { Machine, Mill, Shop } from '../../model/shop-model';
import type { Material } from '../../tables/materials';
import { ROUNDING } from '../../tolerance';
import { SAME_MM } from '../cutters';
import { inHolder, machineFor } from './machine';
import { pricedAnew } from './priced';
import type { Finishing, Operation, Roughing } from './types';

/** What is to be cut, and with what. */
export interface Task {
  readonly feature: Feature;
  readonly part: Part;
  readonly shop: Shop;
}

/** How much of a volume a cutter takes off in layers. */
export interface Amount {
  readonly volumeMm3: number;
  readonly neckMm: number;
  readonly wideMm: number;
}

/** How two cutters share a volume: what the large one roughs, what it leaves in corners, and on the walls. */
export interface Shares {
  readonly rough?: Amount;
  readonly rest?: Amount;
  readonly leftMm: number;
}

/** A volume, and the cuts of it. */
export interface Shared {
  shares(large: Mill, small: Mill): Shares;
  roughing(does: Roughing['does'], tool: Mill, amount: Amount): Roughing;
  finishing(tool: Mill, leftMm: number): Finishing;
}

export function quickest(
  rough: readonly Mill[],
  finish: readonly Mill[],
  of: Shared,
  { feature, part, shop }: Task,
): readonly Operation[] {
  const material = materialOf(part);
  const machine = machineFor(part, shop, feature.name);
  if (!material || !machine) return cutsOf(of.shares(rough[0]!, finish[0]!), rough[0]!, finish[0]!, of);
  const prices = new Prices(of, material, machine, shop);
  let best: Pair | undefined;
  for (const small of finish) {
    for (const large of rough) {
      if (large.diameterMm < small.diameterMm - SAME_MM) continue;
      best = quicker(large, small, best?.minutes ?? Number.POSITIVE_INFINITY, prices) ?? best;
    }
  }
  const [first] = finish;
  if (!best) return cutsOf(of.shares(first!, first!), first!, first!, of);
  return cutsOf(best.shares, best.large, best.small, of);
}

/** A cutter that roughs and one that finishes. */
interface Pair {
  readonly shares: Shares;
  readonly large: Mill;
  readonly small: Mill;
  readonly minutes: number;
}

/** These two, where they take less than so long. */
function quicker(large: Mill, small: Mill, thanMin: number, prices: Prices): Pair | undefined {
  const shares = prices.of.shares(large, small);
  const change = large === small ? 0 : prices.machine.toolChangeS / 60;
  const roughing = shares.rough ? prices.ofLayers('rough', large, shares.rough) : 0;
  const finishing = prices.ofWalls(small, shares.leftMm);
  // What is left in the corners can only add to it.
  if (roughing + finishing + change >= thanMin - ROUNDING) return undefined;
  const resting = shares.rest ? prices.ofLayers('rest', small, shares.rest) : 0;
  const minutes = roughing + resting + finishing + change;
  return minutes < thanMin - ROUNDING ? { shares, large, small, minutes } : undefined;
}

function cutsOf({ rough, rest, leftMm }: Shares, large: Mill, small: Mill, of: Shared): readonly Operation[] {
  return [
    ...(rough ? [of.roughing('rough', large, rough)] : []),
    ...(rest ? [of.roughing('rest', small, rest)] : []),
    of.finishing(small, leftMm),
  ];
}

/** What a cutter takes for layers of one width: its way in, and time in proportion to the volume. */
interface Layers {
  readonly does: Roughing['does'];
  readonly neckMm: number;
  readonly wideMm: number;
  readonly wayInMin: number;
  readonly minPerMm3: number;
}

/** Each cutter is priced once for a width. */
class Prices {
  readonly #layers = new Map<Mill, Layers[]>();
  readonly #walls = new Map<Mill, { readonly leftMm: number; readonly minutes: number }[]>();

  constructor(
    readonly of: Shared,
    private readonly material: Material,
    readonly machine: Machine,
    private readonly shop: Shop,
  ) {}

  ofLayers(does: Roughing['does'], tool: Mill, { volumeMm3, neckMm, wideMm }: Amount): number {
    const known = this.#layers.get(tool) ?? [];
    this.#layers.set(tool, known);
    let each = known.find((k) => k.does === does && k.neckMm === neckMm && k.wideMm === wideMm);
    if (!each) {
      const of = (volumeMm3: number) => this.#price(this.of.roughing(does, tool, { volumeMm3, neckMm, wideMm }));
      const wayInMin = of(0);
      each = { does, neckMm, wideMm, wayInMin, minPerMm3: of(1) - wayInMin };
      known.push(each);
    }
    return each.wayInMin + volumeMm3 * each.minPerMm3;
  }

  ofWalls(tool: Mill, leftMm: number): number {
    const known = this.#walls.get(tool) ?? [];
    this.#walls.set(tool, known);
    let each = known.find((k) => k.leftMm === leftMm);
    if (!each) {
      each = { leftMm, minutes: this.#price(this.of.finishing(tool, leftMm)) };
      known.push(each);
    }
    return each.minutes;
  }

  #price(operation: Operation): number {
    return pricedAnew(inHolder(operation, this.shop), this.material, this.machine).minutes[0];
  }
}
