/** What could not be had of the documents that others name, as findings and in words; and whether that is as it was. */
import type { Shop } from '../model/shop-model';
import { unknownName } from '../rules/form/unknown-name';
import { said } from '../rules/kit/define';
import type { Finding } from '../rules/kit/rule';

/** Of few findings, whether they say the same. */
export function same(a: readonly Finding[], b: readonly Finding[]): boolean {
  return a.length === b.length && a.every((f, i) => JSON.stringify(f) === JSON.stringify(b[i]));
}

/** A shop that could not be had stays the same object while its reason is the same: then nothing is judged again. */
export function asBefore(shop: Shop, before: Shop | undefined): Shop {
  return shop.unread !== undefined && before?.unread === shop.unread && before.name === shop.name ? before : shop;
}

export function lackedShop({ name, unread }: Shop): readonly string[] {
  return unread === undefined ? [] : [`the shop ${name} ${unread}`];
}

export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export function fault(message: string, of: readonly string[], span: Finding['span'], facts: Finding['facts']): Finding {
  return said(unknownName, { message, of, span, facts });
}
