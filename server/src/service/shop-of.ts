/**
 * Which shop judges a part: the one that is set for all, the one that the part names, the nearest going up the folders, else
 * the built-in one. Where one was named or found and cannot be had, no other takes its place.
 */

import { builtinShop } from '../model/builtin-shop';
import type { Shop } from '../model/shop-model';
import { unreadShop } from '../model/unread-shop';
import { checkShop } from '../rules/check';
import type { Reading } from '../rules/checked-part';
import { unknownName } from '../rules/form/unknown-name';
import { said } from '../rules/kit/define';
import type { Finding } from '../rules/kit/rule';
import { at, entry, type Span } from '../text/tree';
import { foldersUp, kindOf, resolvePath, rootOf } from './documents';
import { childOf } from './file-key';
import type { ShopSnapshot, Snapshot } from './snapshot';
import type { Listed } from './texts';

export interface FoundShop {
  readonly shop: Shop;
  /** Where it was read; undefined for the built-in one and for one that could not be had. */
  readonly path: string | undefined;
  /** Why the one that was named could not be had, and what would do. */
  readonly trouble?: string;
  readonly known?: ShopSnapshot;
  /** The folders nearer to the part in which there may be another: they could not be listed. The nearest, and why. */
  readonly unseen?: { readonly folder: string; readonly why: string };
}

/** What is known of files where a shop is looked for. */
export interface Shelf {
  readonly roots: readonly string[];
  /** The shop that is set to judge every part. */
  readonly set?: string;
  list(folder: string): Promise<Listed>;
  /** A shop that was read, or why not. */
  shop(path: string): Promise<ShopSnapshot | string>;
}

export const NOT_THERE = 'is not there';
const MEANWHILE = 'Until then only what needs no shop is checked.';

export async function shopOf(path: string, read: Reading, shelf: Shelf): Promise<FoundShop> {
  if (shelf.set !== undefined) return setShop(shelf.set, shelf);
  const { shopPath } = read.part;
  if (shopPath) return namedShop(path, shopPath.name, shelf);
  if (isUnclear(read)) return without('', 'could not be understood', 'Which shop file is meant is not clear.');
  let unseen: FoundShop['unseen'];
  for (const folder of foldersUp(path, shelf.roots)) {
    const { names, unlisted } = await shelf.list(folder);
    const name = names.filter((f) => kindOf(f) === 'shop').sort()[0];
    if (name !== undefined)
      return { ...(await nearShop(childOf(folder, name), name, shelf)), ...(unseen && { unseen }) };
    if (unlisted !== undefined) unseen ??= { folder: folder === '' ? '/' : folder, why: unlisted };
  }
  return { shop: builtinShop(), path: undefined, ...(unseen && { unseen }) };
}

/** The shop that a document names, from its own folder. */
export async function namedShop(path: string, name: string, shelf: Shelf): Promise<FoundShop> {
  const target = resolvePath(path, name);
  if (kindOf(target) !== 'shop')
    return without(name, NO_SHOP_FILE, `\`${name}\` is not a shop file: its name must end in \`.shop.yaml\`.`);
  if (rootOf(path, shelf.roots) !== undefined && rootOf(target, shelf.roots) === undefined)
    return without(
      name,
      'lies outside the open folder',
      `\`${name}\` lies outside the open folder, where nothing is read. Open the folder that holds both, or copy the shop file.`,
    );
  const known = await shelf.shop(target);
  if (typeof known !== 'string') return had(known);
  const what =
    known === NOT_THERE
      ? `There is no shop file \`${name}\` (looked for ${target}). Correct the path, or leave \`shop\` out.`
      : `The shop file \`${name}\` ${known}.`;
  return without(name, known, what);
}

/** The shop that is set for all. */
export async function setShop(path: string, shelf: Shelf): Promise<FoundShop> {
  const name = path.slice(path.lastIndexOf('/') + 1);
  if (kindOf(path) !== 'shop')
    return without(name, NO_SHOP_FILE, `${path}, set as the shop of every part, is not a shop file (NAME.shop.yaml).`);
  const known = await shelf.shop(path);
  if (typeof known !== 'string') return had(known);
  return without(name, known, `The shop file ${path}, set as the shop of every part, ${known}. Correct the setting.`);
}

async function nearShop(path: string, name: string, shelf: Shelf): Promise<FoundShop> {
  const known = await shelf.shop(path);
  if (typeof known !== 'string') return had(known);
  return without(name, known, `The nearest shop file, ${path}, ${known}. Correct it, or name another with \`shop\`.`);
}

const NO_SHOP_FILE = 'is not a shop file';

function had(known: ShopSnapshot): FoundShop {
  return { shop: known.checked.shop, path: known.path, known };
}

function without(name: string, why: string, trouble: string): FoundShop {
  return { shop: unreadShop(name, why), path: undefined, trouble: `${trouble} ${MEANWHILE}` };
}

/**
 * A shop as read. A copy in another folder is the same machines and tools, and what is kept with them is kept once: each
 * project has one.
 */
export function readShop(
  of: Pick<ShopSnapshot, 'path' | 'text' | 'lines'>,
  before: ShopSnapshot | undefined,
  others: Iterable<Snapshot>,
): ShopSnapshot {
  for (const other of others) {
    if (other.kind !== 'shop' || other === before || other.text !== of.text) continue;
    const checked = { ...other.checked, shop: { ...other.checked.shop, uri: of.path } };
    return { ...other, ...of, checked };
  }
  const checked = checkShop(of.text, of.path, before?.checked);
  return { ...of, kind: 'shop', checked, findings: checked.findings };
}

/** Something stands under `shop`, and it is no name: said by the reader of the text. */
function isUnclear({ tree }: Reading): boolean {
  const value = at(tree.root, 'shop');
  return (value !== undefined && value.type !== 'scalar') || tree.problems.some((p) => p.span.block === 'shop');
}

/** What is wrong with a part's shop, as findings of the part. */
export function shopTrouble({ tree, part }: Reading, { trouble, known, unseen, shop }: FoundShop): readonly Finding[] {
  const named = part.shopPath?.span ?? entry(tree.root, 'shop')?.span;
  const span = named ?? at(tree.root, 'part')?.span ?? { block: '', from: 0, to: 0 };
  const found: Finding[] = [];
  if (unseen) {
    const judge = shop.builtIn ? 'the built-in shop' : shop.name;
    const message = `Whether a nearer shop file lies in ${unseen.folder} is not known: it ${unseen.why}. Until then ${judge} is used. Open that folder for reading, or name the shop with \`shop\`.`;
    found.push(finding('warning', message, span));
  }
  if (trouble) return [finding('error', trouble, span), ...found];
  const errors = known?.findings.filter((f) => f.severity === 'error').length ?? 0;
  if (errors === 0) return found;
  const count = errors === 1 ? 'an error' : `${errors} errors`;
  const message = `The shop file ${known!.path} has ${count} of its own: what could not be read there is missing here.`;
  return [...found, finding('hint', message, span)];
}

function finding(severity: 'error' | 'warning' | 'hint', message: string, span: Span): Finding {
  return said(unknownName, { severity, message, of: [], span });
}
