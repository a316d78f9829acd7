/** Names under a shop's `limits:` that no rule knows. The spec cannot tell: it does not know the rules. */

import { nearest } from '../tables/nearest';
import { at, type Span, type TextTree } from '../text/tree';
import { unknownName } from './form/unknown-name';
import { said } from './kit/define';
import type { Finding } from './kit/rule';
import { RULES, ruleByName } from './registry';

export function shopFindings(tree: TextTree): readonly Finding[] {
  const limits = at(tree.root, 'limits');
  if (limits?.type !== 'map') return [];
  const findings: Finding[] = [];
  for (const entry of limits.entries) {
    const name = String(entry.key.value);
    const rule = ruleByName(name);
    if (!rule) {
      findings.push(
        unknown(
          `There is no rule '${name}'`,
          name,
          RULES.map((r) => r.name),
          entry.key.span,
        ),
      );
      continue;
    }
    if (entry.value?.type !== 'map') continue;
    for (const setting of entry.value.entries) {
      const word = String(setting.key.value);
      const known = rule.limits.map((l) => l.name);
      if (known.includes(word)) continue;
      const has = known.length ? `; its limits are ${known.join(', ')}` : '; it has none';
      findings.push(unknown(`${name} has no limit '${word}'${has}`, word, known, setting.key.span));
    }
  }
  return findings;
}

function unknown(what: string, word: string, known: readonly string[], span: Span): Finding {
  const near = nearest(word, known);
  return said(unknownName, {
    severity: 'warning',
    message: `${what}${near ? `: did you mean '${near}'?` : '.'}`,
    of: [],
    span,
    facts: { name: word, nearest: near },
  });
}
