/** `accept:` – findings that the author knows of and lives with. */
import type { Accept } from '../model/model';
import { ruleByName } from './registry';
import type { Finding } from './rule';

/** A text that does not mean a part cannot be accepted: nothing else was judged then. */
export function canBeAccepted(rule: string): boolean {
  const known = ruleByName(rule);
  return known !== undefined && !known.fromProblems && !known.last && !known.ofJob;
}

/** Its findings come from the planner: whether there are any is not known where a part is checked. */
export function isOfPlan(rule: string): boolean {
  return ruleByName(rule)?.ofPlan === true;
}

/** Whether this entry speaks of this finding. `mount` speaks of every member; `mount[2]` of one. */
export function accepts(accept: Accept, finding: Finding): boolean {
  if (accept.rule.name !== finding.rule || !canBeAccepted(finding.rule)) return false;
  const of = accept.of?.name;
  return of === undefined || finding.of.some((name) => name === of || base(name) === of);
}

/** `mount[2]` → `mount`. */
export function base(name: string): string {
  const bracket = name.indexOf('[');
  return bracket < 0 ? name : name.slice(0, bracket);
}
