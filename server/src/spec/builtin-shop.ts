import type { Shop } from './shop-model';

/** The text of the shop that comes with Scribeline, as a `*.shop.yaml` document. */
export const BUILTIN_SHOP_TEXT = '';

/** The built-in shop, resolved once. */
export function builtinShop(): Shop {
  throw new Error('not there yet');
}
