/** The rules' pages and their table, made from the rules themselves. Written by `npm run generate`, checked by a test. */
import { pagePath, rulePage, ruleTable } from '../src/rules/page';
import { RULES, TOPICS } from '../src/rules/registry';

/** Path below the repository's root → text. */
export function rulePages(): ReadonlyMap<string, string> {
  const pages = new Map<string, string>(RULES.map((rule) => [pagePath(rule), rulePage(rule)]));
  const table = ruleTable(RULES, TOPICS, (rule) => `rules/${rule.name}.md`);
  pages.set(
    'schemas/RULES.md',
    `# The rules\n\n${RULES.length} rules, by topic. Each has a page of its own.\n\n${table}`,
  );
  return pages;
}

/** Writes every page through `write`. */
export function generateRules(write: (path: string, text: string) => void): void {
  for (const [path, text] of rulePages()) write(path, text);
}

const FROM = '<!-- rules -->';
const TO = '<!-- /rules -->';

/** A README with the rule table between its markers; unchanged where it has none. */
export function withRuleTable(readme: string): string {
  const from = readme.indexOf(FROM);
  const to = readme.indexOf(TO);
  if (from < 0 || to < from) return readme;
  const table = ruleTable(RULES, TOPICS, (rule) => pagePath(rule));
  return `${readme.slice(0, from + FROM.length)}\n\n${table}\n${readme.slice(to)}`;
}
