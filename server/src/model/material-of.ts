/** What a part is made of: a material of its shop's own, or one of the tables. */
import { memo } from '../memo';
import { findMaterial, type Material } from '../tables/materials';
import type { Part } from './model';
import type { Shop } from './shop-model';

/** Undefined where nothing is written, or what is written is neither. */
export function materialOf({ material }: Pick<Part, 'material'>): Material | undefined {
  return material && (material.own ?? findMaterial(material.name));
}

/** The part as this shop knows it: the same object where the shop has no material of that name. */
export function inShop(part: Part, shop: Shop): Part {
  const own = part.material && shop.materials?.get(part.material.name);
  return own ? withOwn(part, own) : part;
}

const withOwn = memo((part: Part, own: Material): Part => ({ ...part, material: { ...part.material!, own } }));
