/** `accept:` – findings that the author knows of and lives with. */
import type { Accept } from '../model/model';
import { mayBeAccepted, speaksOf } from './kit/accepting';
import type { Finding } from './kit/rule';
import { ruleByName } from './registry';

/** A text that does not mean a part cannot be accepted: nothing else was judged then. */
export function canBeAccepted(rule: string): boolean {
  return mayBeAccepted(ruleByName(rule));
}

/** Whether this entry speaks of this finding. `mount` speaks of every member; `mount[2]` of one. */
export function accepts(accept: Accept, finding: Finding): boolean {
  return canBeAccepted(finding.rule) && speaksOf(accept, finding);
}
