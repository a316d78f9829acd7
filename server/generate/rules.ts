/** The rules' pages and their table, made from the rules themselves. Written by `npm run generate`, checked by a test. */
import type { DocumentKind } from '../src/model/lookup';
import { canBeAccepted } from '../src/rules/accept';
import type { Limit, Rule } from '../src/rules/kit/rule';
import { pagePath, rulePage, ruleTable, sourceText } from '../src/rules/page';
import { RULE_NAMES, RULES, TOPICS } from '../src/rules/registry';
import { workedExample } from './worked';

let made: ReadonlyMap<string, string> | undefined;

/** Path below the repository's root → text. Every example is checked for it: once for all that ask. */
export function rulePages(): ReadonlyMap<string, string> {
  made ??= pagesOfRules();
  return made;
}

function pagesOfRules(): ReadonlyMap<string, string> {
  const pages = new Map<string, string>(RULES.map((rule) => [pagePath(rule), rulePage(rule, workedExample(rule))]));
  const table = ruleTable(RULES, TOPICS, (rule) => `rules/${rule.name}.md`);
  pages.set(
    'schemas/RULES.md',
    `# The rules\n\n${RULES.length} rules, by topic. Each has a page of its own.\n\n${table}`,
  );
  return pages;
}

type Json = Record<string, unknown>;

/**
 * A document's JSON Schema with what only the rules know: the names that `accept` may take, and the limits that a shop
 * may set, each with its default and its source.
 */
export function withRules(kind: DocumentKind, schema: Json): Json {
  const properties = schema.properties as Record<string, Json>;
  if (kind === 'part') {
    const accept = properties.accept as { items: { properties: { rule: Json } } };
    const { description } = accept.items.properties.rule;
    accept.items.properties.rule = { description, enum: RULE_NAMES.filter(canBeAccepted) };
  }
  if (kind === 'shop') {
    const limited = RULES.filter((rule) => rule.limits.length > 0);
    properties.limits = {
      type: 'object',
      description: properties.limits?.description,
      properties: Object.fromEntries(limited.map((rule) => [rule.name, limitsSchema(rule)])),
      additionalProperties: false,
    };
  }
  return schema;
}

function limitsSchema(rule: Rule): Json {
  const one = (l: Limit): Json => ({
    type: ['number', 'string'],
    description: `${l.what} In ${l.unit}. Left out: ${l.value} (${sourceText(l.source)}).`,
  });
  return {
    type: 'object',
    description: rule.summary,
    properties: Object.fromEntries(rule.limits.map((l) => [l.name, one(l)])),
    additionalProperties: false,
  };
}
