/** What the planner has to say of a part beside its plan: fewer set-ups, and changes that save time; what is accepted left out. */
import { accepts } from '../rules/accept';
import type { CheckedPart } from '../rules/checked-part';
import { lossesOf } from '../rules/follows';
import type { Finding } from '../rules/kit/rule';
import { fewerSetups } from './plan-cache';
import { costFindings } from './savings';

/** Takes longer than a keystroke allows. */
export function plannerFindings(checked: CheckedPart): readonly Finding[] {
  // Of a part that could not all be read nothing is known that would save time.
  if (checked.shop.unread !== undefined || lossesOf(checked.part, checked.tree)) return [];
  const found = [...fewerSetups(checked), ...costFindings(checked)];
  return found.filter((f) => !checked.part.accept.some((a) => accepts(a, f)));
}
