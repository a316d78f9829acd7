import { nearest } from '../../tables/nearest';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';

/**
 * Names of features, parameters, tools and faces are looked up while the text is resolved. Names of rules are looked up
 * here: the spec does not know the rules.
 */
export const unknownName: Rule = {
  name: 'form/unknown-name',
  severity: 'error',
  summary: 'Something is mentioned that is not there.',
  why: 'A name that answers to nothing is nearly always a mistyped one. Until it is mended, whatever depends on it cannot be judged.',
  formula:
    'The nearest known name is the one with the fewest letters changed, left out, added or swapped; it is named where at most a third of the letters differ.',
  limits: [],
  bad: `part: cover
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
`,
  good: `part: cover
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
    from: bearing-seat
    at: { x: center, y: center }
    diameter: 10
    depth: through
`,
  when: 'read',
  find: unknownRules,
  mends: 'The nearest known name.',
  *mend(finding): Iterable<Fix> {
    const near = finding.facts.nearest;
    if (typeof near !== 'string') return;
    yield { title: `Write \`${near}\``, safe: true, edits: [{ span: finding.span, newText: near }] };
  },
};

function unknownRules({ part, ruleNames }: RuleContext): readonly Finding[] {
  return part.accept
    .filter((a) => !ruleNames.includes(a.rule.name))
    .map(({ rule: { name, span } }): Finding => {
      const near = nearest(name, ruleNames);
      return {
        rule: 'form/unknown-name',
        severity: 'warning',
        message: near
          ? `There is no rule \`${name}\`, so this entry accepts nothing; \`${near}\` is meant, perhaps.`
          : `There is no rule \`${name}\`, so this entry accepts nothing. The rules are written topic/what, like wall/thin.`,
        of: [],
        span,
        related: [],
        facts: near ? { name, nearest: near } : { name },
      };
    });
}
