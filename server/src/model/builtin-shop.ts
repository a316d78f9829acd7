/**
 * The shop that comes with Scribeline, for parts that have none of their own: `schemas/everyday.shop.yaml`, worked out
 * once when that is changed. Reading YAML takes as long as checking fifty parts; nobody should wait for it at start.
 */
import { KEPT } from './builtin-shop.generated';
import type { Shop } from './shop-model';

let shop: Shop | undefined;

/** Unpacked when first asked for: always the same object. It sets no limits, which JSON has no maps for. */
export function builtinShop(): Shop {
  shop ??= { ...(JSON.parse(KEPT) as Omit<Shop, 'limits'>), limits: new Map() };
  return shop;
}
