/**
 * Which rules look neither at what a shop has nor at its `limits:`. Where the shop that was named could not be had, they
 * alone judge: whatever another shop would say there might be false, and a default may be what that shop has set.
 */
import type { Shop } from '../model/shop-model';
import type { Rule } from './kit/rule';

export const WITHOUT_SHOP: ReadonlySet<string> = new Set([
  'form/schema',
  'form/checker-failed',
  'form/unit',
  'form/unknown-name',
  'form/unused-parameter',
  'form/hash-comment',
  'form/hidden-character',
  'form/old-name',
  'form/outside-body',
  'form/removes-nothing',
  'form/overlap',
  'form/in-pieces',
  'form/self-crossing',
  'form/no-reason',
  'hole/screw-head',
  'thread/unknown',
  'access/no-setup',
  'access/covered',
  'hold/screws',
  'setup/order',
  'setup/unassigned',
  'setup/twice',
  'setup/zero-lost',
  'setup/opposite-zero',
  'tol/fit-unknown',
  'tol/shaft-or-hole',
  'tol/fastener',
  'tol/datum-missing',
  'tol/datum-order',
  'tol/distance',
  'stock/too-small',
  'stock/already-to-size',
  'stock/flatness',
  'stock/unknown-material',
  'safety/material',
]);

/** Whether a rule can judge by this shop. */
export function judgesBy(rule: Rule, shop: Shop): boolean {
  return shop.unread === undefined || WITHOUT_SHOP.has(rule.name);
}
