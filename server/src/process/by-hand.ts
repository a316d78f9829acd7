/**
 * Small edges: a set-up that is there anyway breaks them; else they are broken with a file, for no set-up is made for them.
 * Common practice, no source.
 */

import type { Void } from '../geometry/types';
import { breaksEdges, homeOf } from '../model/feature-kinds';
import type { Feature, Setup } from '../model/model';
import type { Shop } from '../model/shop-model';
import { ROUNDING } from '../tolerance';
import { edgeWayOf } from './operations/edge-way';
import type { PartInShop } from './part-in-shop';
import { comesCut } from './stock/brought';
import { isCutFrom } from './stock/extend-to-stock';

/** Where it is found in a shop's `limits:`, and what holds where it does not say. */
const RULE = 'setup/unassigned';
export const BY_HAND_MM = 1;

/** Edges no wider than that, and of no size that is measured. */
export function mayBeByHand(feature: Feature | undefined, shop: Shop): boolean {
  if (!breaksEdges(feature)) return false;
  const most = shop.limits.get(RULE)?.get('by-hand') ?? BY_HAND_MM;
  return [...homeOf(feature).sizes(feature)].every(
    ([, size]) => !size || (!size.tolerance && size.mm <= most + ROUNDING),
  );
}

export interface ByHand {
  readonly feature: Feature;
  /** All its edges, or those that no set-up sees which cuts others of them. */
  readonly all: boolean;
  readonly wayMm: number;
}

/** What of the small edges no set-up breaks; nothing where no set-ups are written. */
export function edgesByHand({ part, solid, shop }: PartInShop): readonly ByHand[] {
  const { setups } = part;
  if (!setups || setups.length === 0) return [];
  return part.features.flatMap((feature) => {
    if (!mayBeByHand(feature, shop) || comesCut(feature, part, solid)) return [];
    const voids = solid.voidsOf(feature.name);
    const cutting = setups.filter((s) => s.cuts.some((c) => c.name === feature.name));
    const left = voids.filter((v) => !cutting.some((s) => sees(s, v)));
    if (left.length === 0) return [];
    return [{ feature, all: left.length === voids.length, wayMm: left.reduce((mm, v) => mm + edgeWayOf(v), 0) }];
  });
}

/** Work held at an angle is seen from wherever it leans. */
function sees({ up, hold }: Setup, v: Void): boolean {
  return !up || hold?.type === 'angle' || isCutFrom(v, up.name);
}
