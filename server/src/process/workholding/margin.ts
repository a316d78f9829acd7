/** How near tools may come to the hardened steel that holds the work: the shop's setting, or 1 mm. */
import type { Shop } from '../../model/shop-model';

/** Where it is found in a shop's `limits:`, and what holds where it does not say. */
const MARGIN_RULE = 'access/jaw';
export const MARGIN_MM = 1;

export function marginOf(shop: Shop): number {
  return shop.limits.get(MARGIN_RULE)?.get('clear') ?? MARGIN_MM;
}
