/**
 * From text to findings: the one way that the command line, the language service and the tests all take.
 */
import type { Solid } from '../geometry/types';
import type { Part } from '../spec/model';
import type { Shop } from '../spec/shop-model';
import type { TextTree } from '../text/tree';
import type { Finding, Fix } from './rule';

export interface CheckedPart {
  readonly tree: TextTree;
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
  /** In text order; accepted ones left out. */
  readonly findings: readonly Finding[];
}

/** Reads, resolves and judges a part. Never throws. `before` lends what did not change. */
export function checkPart(_text: string, _shop: Shop, _before?: CheckedPart): CheckedPart {
  throw new Error('not there yet');
}

export interface CheckedShop {
  readonly tree: TextTree;
  readonly shop: Shop;
  readonly findings: readonly Finding[];
}
export function checkShop(_text: string, _uri?: string, _before?: CheckedShop): CheckedShop {
  throw new Error('not there yet');
}

/**
 * The fixes of one finding that were tried on the text and found to cure it, raise no new error and keep every comment.
 */
export function fixesFor(_checked: CheckedPart, _finding: Finding): readonly Fix[] {
  throw new Error('not there yet');
}
