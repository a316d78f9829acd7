/**
 * The frame of a rule: what it looks for, what it says of what it finds, what would do about it. Looking is done once: what
 * is found is told, and what mending needs of it is kept with the finding.
 */
import type { Span } from '../../text/tree';
import { fact } from './message';
import { thingOf } from './parts';
import type { Facts, Finding, Fix, Rule, RuleContext, Saying, Severity } from './rule';

type Related = Finding['related'][number];

/** What is said of a hit. */
export interface Told {
  /** What is there, what is needed, what to change: in this order, the change from its first command on (`parts.ts`). */
  readonly message: string;
  /** Left out: the features it is about, with their kinds. */
  readonly thing?: string;
  readonly has?: string | undefined;
  readonly needs?: string | undefined;
  readonly of: readonly string[];
  readonly span: Span;
  /** Left out: the rule's own; of one that is mild by the built-in shop, a warning there. */
  readonly severity?: Severity | undefined;
  /** Numbers are rounded to a thousandth here; what is undefined is left out. */
  readonly facts?: Readonly<Record<string, number | string | undefined>> | undefined;
  readonly related?: readonly (Related | undefined)[];
  readonly at?: Finding['at'] | undefined;
  readonly says?: readonly Saying[];
}

interface Looking<Hit> extends Omit<Rule, 'find' | 'mend'> {
  /** What it looks for, each thing once. */
  find(context: RuleContext): Iterable<Hit>;
  /** What it says of a hit. */
  tell(hit: Hit, context: RuleContext): Told;
  /** Findings that say what could not be judged. */
  gaps?(context: RuleContext): Iterable<Finding>;
}

interface Mending<Hit, Kept> extends Looking<Hit> {
  /**
   * What mending needs of a hit, as plain data: names, numbers, places; no feature, no volume. Takes, and works
   * nothing out. Undefined: nothing would do.
   */
  keep(hit: Hit, context: RuleContext): Kept;
  /** Changes that may cure what was kept; each is tried before it is offered. Undefined: one that cannot be written here. */
  mend(kept: Exclude<Kept, undefined>, context: RuleContext): Iterable<Fix | undefined>;
}

export function defineRule<Hit, Kept>(spec: Looking<Hit> | Mending<Hit, Kept>): Rule {
  if (!('mend' in spec)) {
    const { find, tell, gaps, ...rule } = spec;
    return { ...rule, find: finding(spec) };
  }
  const { find, tell, gaps, keep, mend, ...rule } = spec;
  return {
    ...rule,
    find: finding(spec, keep),
    *mend({ data }, context) {
      // Without: made by the planner, or while the text was read, which hand in their own.
      if (data === undefined) return;
      for (const fix of mend(data as Exclude<Kept, undefined>, context)) if (fix) yield fix;
    },
  };
}

function finding<Hit>(
  rule: Looking<Hit>,
  keep?: (hit: Hit, context: RuleContext) => unknown,
): (context: RuleContext) => Generator<Finding> {
  return function* (context) {
    if (rule.when === 'setups' && !context.part.setups) return;
    if (rule.gaps) yield* rule.gaps(context);
    for (const hit of rule.find(context)) {
      const told = rule.tell(hit, context);
      const data = keep?.(hit, context);
      const thing = told.thing ?? thingOf(told.of, context);
      yield {
        ...said(rule, { ...told, ...(thing && { thing }) }, mild(rule, context)),
        ...(data !== undefined && { data }),
      };
    }
  };
}

/** What is told under a rule's name: also of what is found elsewhere, while a text is read or a plan is made. */
export function said({ name, severity: own }: Pick<Rule, 'name' | 'severity'>, told: Told, severity = own): Finding {
  const { message, thing, has, needs, of, span, related, facts = {}, at, says } = told;
  return {
    rule: name,
    severity: told.severity ?? severity,
    message,
    ...(thing !== undefined && { thing }),
    ...(has !== undefined && { has }),
    ...(needs !== undefined && { needs }),
    of,
    span,
    related: related?.filter((r) => r !== undefined) ?? [],
    facts: rounded(facts),
    ...(at && { at }),
    ...(says && { says }),
  };
}

/** With the built-in shop nothing is certain. */
function mild({ severity, mildByBuiltIn }: Pick<Rule, 'severity' | 'mildByBuiltIn'>, { shop }: RuleContext): Severity {
  return mildByBuiltIn && shop.builtIn && severity === 'error' ? 'warning' : severity;
}

function rounded(facts: NonNullable<Told['facts']>): Facts {
  const made: Record<string, number | string> = {};
  for (const [key, value] of Object.entries(facts)) {
    if (value !== undefined) made[key] = typeof value === 'number' ? fact(value) : value;
  }
  return made;
}
