import { entry } from '../../text/tree';
import { mayBeAccepted, speaksOf } from '../kit/accepting';
import { removeItem } from '../kit/edits';
import type { Rule } from '../kit/rule';

/** Judges the `accept` entries against what the other rules found. */
export const unneededAccept: Rule = {
  name: 'form/unneeded-accept',
  severity: 'hint',
  summary: 'An accepted finding that is not there.',
  why: 'An `accept` entry that matches nothing hides the next finding of that kind before anybody has looked at it. It was mended since, or its name is no longer right.',
  limits: [],
  bad: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 3
accept:
  - { rule: wall/thin, of: window, because: only a cover }
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 7.5
accept:
  - { rule: wall/thin, of: window, because: only a cover }
`,
  when: 'last',
  *find({ part, ruleNamed, raised = [] }) {
    if (!part.body || raised.some((f) => f.facts.failed_rule)) return;
    for (const accept of part.accept) {
      // An unknown rule is told as such; a feature that was not understood could not be judged.
      const of = accept.of?.name;
      const rule = ruleNamed(accept.rule.name);
      if (!mayBeAccepted(rule) || (of && part.broken.has(of))) continue;
      // Whether there are any is known only where a plan is made.
      if (rule?.when === 'plan') continue;
      if (raised.some((f) => speaksOf(accept, f))) continue;
      yield {
        rule: 'form/unneeded-accept',
        severity: 'hint',
        message: `Nothing here raises ${accept.rule.name}${of ? ` of \`${of}\`` : ''} any more, so there is nothing to accept. Remove this entry.`,
        of: [],
        span: accept.span,
        related: [],
        facts: { rule: accept.rule.name, ...(of ? { feature: of } : {}) },
      };
    }
  },
  mends: 'The entry is removed.',
  *mend(finding, { part, tree }) {
    const owner = entry(tree.root, 'accept');
    const start = tree.locate(finding.span).start;
    const items = owner?.value?.type === 'list' ? owner.value.items : [];
    const index = items.findIndex((i) => tree.locate(i.span).start === start);
    if (!owner || index < 0 || part.accept.length === 0) return;
    yield { title: 'Remove this accept entry', safe: true, edits: removeItem(tree, owner, index) };
  },
};
