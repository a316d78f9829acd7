import { nearest } from '../../tables/nearest';
import type { Span } from '../../text/tree';
import { edited, tidying } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { INSTEAD, type NotInShop, notInShop } from './shop-words';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  bearing-seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 20
    depth: 5
    bottom: flat
  clearance:
    kind: hole
    from: bearing-seet
    at: { x: center, y: center }
    diameter: 10
    depth: through
`;

interface NoRule {
  readonly name: string;
  readonly span: Span;
  readonly near: string | undefined;
}
type Unknown = NoRule | NotInShop;

function tellRule({ name, span, near }: NoRule): Told {
  return {
    severity: 'warning',
    message: near
      ? `There is no rule \`${name}\`, so this entry accepts nothing. Did you mean \`${near}\`?`
      : `There is no rule \`${name}\`, so this entry accepts nothing. Write a rule as topic/what, like wall/thin.`,
    of: [],
    span,
    facts: { name, nearest: near },
  };
}

function tellMissing({ what, name, span, setup, known, near }: NotInShop, { shop }: RuleContext): Told {
  const has = known.length > 0 && known.length <= MOST_LISTED ? ` It has ${list(known)}.` : '';
  const meant = near ? ` Did you mean \`${near}\`?` : has;
  return {
    severity: what !== 'machine' && what !== 'tool' && !shop.builtIn ? 'error' : 'warning',
    message: `The ${shop.builtIn ? 'built-in ' : ''}shop has no ${what} \`${name}\`.${meant} ${INSTEAD[what]}`,
    of: [],
    span,
    facts: { set_up: setup, name, nearest: near },
  };
}

/** More names than this are no help in a sentence. */
const MOST_LISTED = 6;

/**
 * Names of features, parameters, tools and faces are looked up while the text is resolved. Names of rules, and
 * those of the shop's things that set-ups mention, are looked up here: the spec knows neither rules nor shop.
 */
export const unknownName: Rule = defineRule({
  name: 'form/unknown-name',
  severity: 'error',
  summary: 'The text names something that is not there.',
  why: 'A name that does not exist is nearly always mistyped. Until it is corrected, what depends on it cannot be checked.',
  formula:
    'The nearest known name has the fewest letters changed, left out, added or swapped. It is offered where at most a third of the letters differ. A vise, machine or tool that a set-up names is looked up in the shop. An unknown vise is an error (a warning by the built-in shop): nothing of that hold is checked. Of the others a warning says what is used instead.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['from: bearing-seet', 'from: bearing-seat']),
  when: 'read',
  *find({ part, shop, ruleNames }): Generator<Unknown> {
    for (const { rule } of part.accept)
      if (!ruleNames.includes(rule.name)) yield { ...rule, near: nearest(rule.name, ruleNames) };
    yield* notInShop(part, shop);
  },
  tell: (hit, context) => ('what' in hit ? tellMissing(hit, context) : tellRule(hit)),
  mends: 'Write the nearest known name.',
  keep: ({ span, near }) => (near === undefined ? undefined : { span, near }),
  *mend({ span, near }) {
    yield tidying(`Write \`${near}\``, { span, newText: near });
  },
});
