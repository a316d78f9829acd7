/** A part as it is made in one shop: what cutting, reaching and holding are asked of together. */
import type { Solid } from '../geometry/types';
import type { Part } from '../model/model';
import type { Shop } from '../model/shop-model';

export interface PartInShop {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
}
