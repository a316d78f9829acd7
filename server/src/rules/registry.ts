import type { Rule } from './rule';

/** Every rule, in the order of the rule table. */
export const RULES: readonly Rule[] = [];

export function ruleByName(name: string): Rule | undefined {
  return RULES.find((r) => r.name === name);
}
