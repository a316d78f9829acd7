/** Settings of rules, what a shop may say otherwise under `limits:`, as rows beside the tables. */
import { RULES } from '../rules/registry';
import type { TableRow } from './tables/source';

export function ruleLimits(): readonly TableRow[] {
  return RULES.flatMap((rule) =>
    rule.limits.map(({ name, value, unit, what, source }) => ({
      rule: rule.name,
      limit: name,
      value,
      unit,
      what,
      source,
    })),
  );
}
