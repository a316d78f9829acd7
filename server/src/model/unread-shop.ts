/** What stands in a shop's place where it was named and could not be had: nothing on hand, and the reason. */
import { readText } from '../text/read';
import { resolveShop } from './shop';
import type { Shop } from './shop-model';

/** Why nothing is planned, exported or priced by it: one sentence without its end; undefined for a shop that was read. */
export function withoutItsShop({ name, unread }: Shop): string | undefined {
  return unread === undefined ? undefined : `its shop ${name} ${unread}, and no other takes its place`;
}

let bare: Shop | undefined;

/** `why`, to follow the name: `is not there`, `is a folder`. */
export function unreadShop(name: string, why: string): Shop {
  bare ??= { ...resolveShop(readText('shop: none\n')), problems: [], assumed: [] };
  return { ...bare, name, unread: why };
}
