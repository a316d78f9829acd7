/** `accept:` – findings that the author knows of and lives with. */
import type { Accept } from '../model/model';
import { base } from './kit/message';
import type { Finding, When } from './kit/rule';
import { ruleByName } from './registry';

/** They say that the text means nothing, or what was accepted for nothing; or speak of a job, which accepts nothing. */
const NEVER_ACCEPTED: ReadonlySet<When | undefined> = new Set<When>(['read', 'last', 'job']);

/** A text that does not mean a part cannot be accepted: nothing else was judged then. */
export function canBeAccepted(rule: string): boolean {
  const known = ruleByName(rule);
  return known !== undefined && !NEVER_ACCEPTED.has(known.when);
}

/** Its findings come from the planner: whether there are any is not known where a part is checked. */
export function isOfPlan(rule: string): boolean {
  return ruleByName(rule)?.when === 'plan';
}

/** Whether this entry speaks of this finding. `mount` speaks of every member; `mount[2]` of one. */
export function accepts(accept: Accept, finding: Finding): boolean {
  if (accept.rule.name !== finding.rule || !canBeAccepted(finding.rule)) return false;
  const of = accept.of?.name;
  return of === undefined || finding.of.some((name) => name === of || base(name) === of);
}
