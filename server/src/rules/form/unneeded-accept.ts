import { entry, samePlace } from '../../text/tree';
import { mayBeAccepted, speaksOf } from '../kit/accepting';
import { edited, tidying } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeItem } from '../kit/edits';
import type { Rule } from '../kit/rule';

const BAD = `part: cover
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
`;

/** Judges the `accept` entries against what the other rules found. */
export const unneededAccept: Rule = defineRule({
  name: 'form/unneeded-accept',
  severity: 'hint',
  summary: 'An accepted finding does not exist.',
  why: 'An `accept` entry that matches nothing hides the next finding of that kind. The part was corrected since, or the name is no longer right.',
  formula: 'Each entry under `accept` is compared with the findings of its rule. One that matches none is reported.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['depth: 3', 'depth: 7.5']),
  when: 'last',
  *find({ part, ruleNamed, raised = [] }) {
    // Of a part in many sizes it is said of all sizes together (`rules/variants.ts`).
    if (!part.body || part.variants.length > 0 || raised.some((f) => f.facts.failed_rule)) return;
    for (const accept of part.accept) {
      const rule = ruleNamed(accept.rule.name);
      // An unknown rule is told as such; what the planner finds is not known here.
      if (!mayBeAccepted(rule) || rule?.when === 'plan') continue;
      // A feature that was not understood could not be judged.
      if (accept.of && part.broken.has(accept.of.name)) continue;
      if (!raised.some((f) => speaksOf(accept, f))) yield accept;
    }
  },
  tell({ rule: { name }, of, span }) {
    return {
      message: `Nothing here is reported as ${name}${of ? ` of ${of.name}` : ''} any more, so there is nothing to accept. Delete this entry.`,
      of: [],
      span,
      facts: { rule: name, feature: of?.name },
    };
  },
  mends: 'Delete the entry.',
  keep: ({ span }) => span,
  *mend(span, { part, tree }) {
    const owner = entry(tree.root, 'accept');
    const items = owner?.value?.type === 'list' ? owner.value.items : [];
    const index = items.findIndex((i) => samePlace(i.span, span));
    if (!owner || index < 0 || part.accept.length === 0) return;
    yield tidying('Delete this accept entry', removeItem(tree, owner, index));
  },
});
