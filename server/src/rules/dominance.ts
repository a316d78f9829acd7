/** Of two findings that say the same of one thing, the graver one is told: a rule names those it stands `under`. */

import type { Finding, Saying, Severity } from './kit/rule';
import { ruleByName } from './registry';

const GRAVITY: Readonly<Record<Severity, number>> = { hint: 0, warning: 1, error: 2 };

interface Said extends Saying {
  readonly by: string;
}

/** Without those that say nothing which a finding of a rule above theirs does not say as well; `accepted`: those taken out. */
export function withoutOutranked(findings: readonly Finding[], accepted: readonly Finding[]): readonly Finding[] {
  const said = new Map<string, Said[]>();
  const grounds = [...findings, ...accepted.map((f) => ({ ...f, says: f.says?.filter((s) => s.evenAccepted) }))];
  for (const { rule, says = [] } of grounds) {
    for (const saying of says) {
      const known = said.get(saying.of);
      if (known) known.push({ ...saying, by: rule });
      else said.set(saying.of, [{ ...saying, by: rule }]);
    }
  }
  if (said.size === 0) return findings;
  return findings.filter(({ rule, says }) => {
    const above = says && ruleByName(rule)?.under;
    if (!above) return true;
    return !says.every((own) => said.get(own.of)!.some((s) => above.includes(s.by) && covers(s, own)));
  });
}

function covers(graver: Saying, own: Saying): boolean {
  return GRAVITY[graver.severity] >= GRAVITY[own.severity] && graver.asks >= own.asks;
}
