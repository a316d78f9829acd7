/** What changed from another revision to this one: the whole of a comparison that takes long. */
import type { Shop } from '../model/shop-model';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import { findingChanges } from './findings';
import type { ComparedPart } from './json';
import { partChange } from './part';

export interface ComparedTold {
  readonly before: { readonly path: string; readonly text: string; readonly shop: Shop };
  /** The shop as it is now, where the part is one of an old revision. */
  readonly today?: Shop;
}

export function comparedWith(
  after: CheckedPart,
  { before, today }: ComparedTold,
): Pick<ComparedPart, 'change' | 'today'> {
  const change = partChange(checkPart(before.text, before.shop), after);
  if (!today) return { change };
  const { raised, cured } = findingChanges(after, checkPart(after.tree.text, today), (name) => name);
  return raised.length + cured.length > 0 ? { change, today: { raised, cured } } : { change };
}
