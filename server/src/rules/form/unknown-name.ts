import { nearest } from '../../tables/nearest';
import { edited, tidying } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

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

/**
 * Names of features, parameters, tools and faces are looked up while the text is resolved. Names of rules are looked up
 * here: the spec does not know the rules.
 */
export const unknownName: Rule = defineRule({
  name: 'form/unknown-name',
  severity: 'error',
  summary: 'Something is mentioned that is not there.',
  why: 'A name that answers to nothing is nearly always a mistyped one. Until it is mended, whatever depends on it cannot be judged.',
  formula:
    'The nearest known name is the one with the fewest letters changed, left out, added or swapped; it is named where at most a third of the letters differ.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['from: bearing-seet', 'from: bearing-seat']),
  when: 'read',
  find: ({ part, ruleNames }) =>
    part.accept
      .filter((a) => !ruleNames.includes(a.rule.name))
      .map(({ rule: { name, span } }) => ({ name, span, near: nearest(name, ruleNames) })),
  tell: ({ name, span, near }) => ({
    severity: 'warning',
    message: near
      ? `There is no rule \`${name}\`, so this entry accepts nothing; \`${near}\` is meant, perhaps.`
      : `There is no rule \`${name}\`, so this entry accepts nothing. The rules are written topic/what, like wall/thin.`,
    of: [],
    span,
    facts: { name, nearest: near },
  }),
  mends: 'The nearest known name.',
  keep: ({ span, near }) => (near === undefined ? undefined : { span, near }),
  *mend({ span, near }) {
    yield tidying(`Write \`${near}\``, { span, newText: near });
  },
});
