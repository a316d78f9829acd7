/** What an `accept:` entry may speak of, and what it speaks of. */

import { featureNameOf } from '../../model/member-name';
import type { Accept } from '../../model/model';
import type { Finding, Rule, When } from './rule';

/** They say that the text means nothing, or what was accepted for nothing; or speak of a job, which accepts nothing. */
const NEVER_ACCEPTED: ReadonlySet<When | undefined> = new Set<When>(['read', 'last', 'job']);

export function mayBeAccepted(rule: Pick<Rule, 'when'> | undefined): boolean {
  return rule !== undefined && !NEVER_ACCEPTED.has(rule.when);
}

/** Whether this entry speaks of this finding. `mount` speaks of every member; `mount[2]` of one. */
export function speaksOf(accept: Accept, finding: Finding): boolean {
  if (accept.rule.name !== finding.rule) return false;
  const of = accept.of?.name;
  return of === undefined || finding.of.some((name) => name === of || featureNameOf(name) === of);
}
