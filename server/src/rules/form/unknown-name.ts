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
      ? `There is no rule \`${name}\`, so this entry accepts nothing; \`${near}\` is meant, perhaps.`
      : `There is no rule \`${name}\`, so this entry accepts nothing. The rules are written topic/what, like wall/thin.`,
    of: [],
    span,
    facts: { name, nearest: near },
  };
}

function tellMissing({ what, name, span, setup, known, near }: NotInShop, { shop }: RuleContext): Told {
  const has = known.length > 0 && known.length <= MOST_LISTED ? ` It has ${list(known)}.` : '';
  const meant = near ? ` \`${near}\` is meant, perhaps.` : has;
  return {
    severity: what !== 'machine' && what !== 'tool' && !shop.builtIn ? 'error' : 'warning',
    message: `The shop${shop.builtIn ? ' (the built-in one)' : ''} has no ${what} \`${name}\`.${meant} ${INSTEAD[what]}`,
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
  summary: 'Something is mentioned that is not there.',
  why: 'A name that answers to nothing is nearly always a mistyped one. Until it is mended, whatever depends on it cannot be judged.',
  formula:
    'The nearest known name is the one with the fewest letters changed, left out, added or swapped; it is named where at most a third of the letters differ. A vise, machine or tool that a set-up names is looked up in the shop: an unknown vise is an error (a warning by the built-in shop), for nothing of that hold is judged; of the others a warning says what is taken instead.',
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
  mends: 'The nearest known name.',
  keep: ({ span, near }) => (near === undefined ? undefined : { span, near }),
  *mend({ span, near }) {
    yield tidying(`Write \`${near}\``, { span, newText: near });
  },
});
