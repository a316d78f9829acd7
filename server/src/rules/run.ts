/**
 * Runs the rules on one part: what each needs handed to it, and a fence around each, so that one that fails never
 * takes the others' findings with it.
 */
import { unlessStopped } from '../effort';
import { memoByValue } from '../memo';
import { mirroringEdits } from '../model/everyday/mirror-words';
import type { Part, SpecProblem } from '../model/model';
import { NAME_KEY } from '../model/resolve/problem';
import type { Shop } from '../model/shop-model';
import { addText, nameItems, removeEntry } from '../text/edit';
import { formatLength, formatNear, writeLength } from '../text/format';
import type { Span, TextProblem, TextTree } from '../text/tree';
import { checkerFailed } from './form/checker-failed';
import { inQuotes } from './form/hash-comment';
import { said } from './kit/define';
import { inPlace } from './kit/in-place';
import { isPlastic } from './kit/message';
import type { Finding, Fix, Rule, RuleContext, When } from './kit/rule';
import { withoutBrought } from './of-blank';
import { RULE_NAMES, ruleByName } from './registry';

/** What only some rules are handed, or only at times. */
type More = Pick<RuleContext, 'raised' | 'counting'>;

/** A part read and worked out. */
type Read = Pick<RuleContext, 'part' | 'shop' | 'solid' | 'tree'>;

/** What a rule is handed. */
export function contextOf(rule: Rule, { part, shop, solid, tree }: Read, more: More = {}): RuleContext {
  const { length, about, write } = inUnits(part.units);
  return {
    part,
    shop,
    solid,
    tree,
    ruleNames: RULE_NAMES,
    ruleNamed: ruleByName,
    ...more,
    limit: (name) => limitOf(rule, name, shop, part),
    limitOf: (other, name) => limitOf(other, name, shop, part),
    length,
    about,
    write,
  };
}

/** How lengths are written in a part's units: every rule is handed the same. */
const inUnits = memoByValue(
  (units: Part['units']): Pick<RuleContext, 'length' | 'about' | 'write'> => ({
    length: (mm) => formatLength(mm, units),
    about: (mm, besideMm) => formatNear(mm, units, besideMm),
    write: (mm) => writeLength(mm, units),
  }),
  2,
);

/**
 * The shop's setting, or the rule's default. A name that the rule does not declare asks for the limit of the part's
 * material: `thickness-metal` or plainly `metal`. Throws where there is none: a mistake in the rule.
 */
export function limitOf(rule: Pick<Rule, 'name' | 'limits'>, name: string, shop: Shop, part?: Part): number {
  const named = (wanted: string) => rule.limits.find((l) => l.name === wanted);
  let limit = named(name);
  if (!limit) {
    const kind = part && isPlastic(part) ? 'plastic' : 'metal';
    limit = named(`${name}-${kind}`) ?? named(kind);
  }
  if (!limit) throw new Error(`${rule.name} has no limit '${name}'`);
  return shop.limits.get(rule.name)?.get(limit.name) ?? limit.value;
}

/** They judge words, and need no solid. */
const WITHOUT_BODY: ReadonlySet<When | undefined> = new Set<When>(['text', 'read', 'last']);

const NOTHING: readonly Finding[] = [];

/** One rule behind its fence. */
export function runOne(rule: Rule, read: Read, more: More = {}): readonly Finding[] {
  const { part } = read;
  if (!part.body && !WITHOUT_BODY.has(rule.when)) return NOTHING;
  if (rule.when === 'setups' && !part.setups) return NOTHING;
  try {
    return withoutBrought([...rule.find(contextOf(rule, read, more))], read);
  } catch (failure) {
    unlessStopped(failure);
    return [failed(`The rule ${rule.name}`, failure, part.nameSpan, { failed_rule: rule.name })];
  }
}

/** What is said when a piece of the checker itself fails. */
export function failed(what: string, failure: unknown, span: Span, facts: Finding['facts'] = {}): Finding {
  const reason = failure instanceof Error ? failure.message : String(failure);
  return said(checkerFailed, {
    message: `${what} failed on this part and checked nothing (${reason}). The other findings are valid. Report this defect of the checker, with this file.`,
    of: [],
    span,
    facts: { ...facts, reason },
  });
}

/** Problems of the text as findings. */
export function fromTextProblem({ code, message, span }: TextProblem, tree: TextTree): Finding {
  const finding = said(readingRule(code === 'swallowed-comment' ? 'form/hash-comment' : 'form/schema'), {
    ...inPlace(message, span, tree),
    of: [],
    span,
  });
  const fix = code === 'swallowed-comment' ? inQuotes(span, tree) : undefined;
  return fix ? { ...finding, fixes: [fix] } : finding;
}

export function fromSpecProblem({ rule, message, of, span, facts, fixes }: SpecProblem, tree: TextTree): Finding {
  return {
    ...said(readingRule(rule), { ...inPlace(message, span, tree), of: of ? [of] : [], span, facts }),
    ...(fixes && { fixes: fixes.map((fix) => fixFrom(fix, tree)) }),
  };
}

/** One of several that are as likely changes nothing by itself. */
function fixFrom(
  { title, edits, without = [], added = [], named, mirrored, equal }: NonNullable<SpecProblem['fixes']>[number],
  tree: TextTree,
): Fix {
  const gone = without.flatMap(([map, entry]) => removeEntry(tree, map, entry));
  const come = added.flatMap(([map, key, value]) => addText(tree, map, key, value));
  const under = named ? nameItems(tree, ...named, NAME_KEY) : [];
  const copied = mirrored ? mirroringEdits(tree, mirrored) : [];
  return {
    title,
    safe: !equal && !mirrored,
    edits: [...edits, ...gone, ...come, ...under, ...copied],
    ...(equal && { equal }),
  };
}

function readingRule(name: string): Pick<Rule, 'name' | 'severity'> {
  return { name, severity: ruleByName(name)?.severity ?? 'error' };
}
