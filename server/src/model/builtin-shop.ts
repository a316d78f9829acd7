/** The shop that comes with Scribeline, for parts that have none of their own. */
import { KEPT } from './builtin-shop.generated';
import { unpack } from './builtin-shop-kept';
import type { Shop } from './shop-model';

export { BUILTIN_SHOP_TEXT } from './builtin-shop-text';

let shop: Shop | undefined;

/** The built-in shop, unpacked when first asked for: always the same object. Places in it are in `BUILTIN_SHOP_TEXT`. */
export function builtinShop(): Shop {
  shop ??= unpack(KEPT);
  return shop;
}
