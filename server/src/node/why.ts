/** `scribeline why`: a rule's page as it was generated. The pages lie beside the program. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Rule } from '../rules/kit/rule';
import { pagePath } from '../rules/page';
import { RULES, ruleByName } from '../rules/registry';
import { nearest } from '../tables/nearest';
import type { Terminal } from './terminal';

function pageOf(rule: Rule, script: string): string | undefined {
  try {
    return readFileSync(join(dirname(script), '..', pagePath(rule)), 'utf8');
  } catch {
    return undefined;
  }
}

export function runWhy(name: string, terminal: Terminal): 0 | 2 {
  const rule = ruleByName(name);
  if (rule) {
    const page = pageOf(rule, terminal.script);
    if (page === undefined) {
      terminal.say(`the page of ${rule.name} is not there. Install Scribeline again.`);
      return 2;
    }
    terminal.print(...page.trimEnd().split('\n'));
    return 0;
  }
  const near = nearest(
    name,
    RULES.map((r) => r.name),
  );
  terminal.say(`there is no rule \`${name}\`.${near ? ` Did you mean ${near}?` : ''} The rules are:`);
  terminal.aside(...RULES.map((known) => `  ${known.name.padEnd(28)} ${known.summary}`));
  return 2;
}
