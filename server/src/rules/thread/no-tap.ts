/** thread/no-tap – the shop has no tap for this thread. */
import { tapsFor, tapsOf } from '../../process/cutters';
import { formHoleMm } from '../../tables/form-taps';
import { findThread, type Thread } from '../../tables/threads';
import { setLength } from '../kit/edits';
import { removeField, subjectOf, together } from '../kit/fields';
import { list } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { tapped } from './judge';

const NAME = 'thread/no-tap';

/** Taps on hand of the same diameter and another pitch. Never another size: that is another screw. */
function ofSameDiameter(thread: Thread, { shop }: RuleContext): readonly Thread[] {
  const had = tapsOf(shop).flatMap((t) => findThread(t.thread) ?? []);
  const near = (t: Thread) => Math.abs(t.diameterMm - thread.diameterMm) <= 0.001;
  return [...new Set(had)].filter(near).sort((a, b) => b.pitchMm - a.pitchMm);
}

export const noTap: Rule = {
  name: NAME,
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The shop has no tap for a thread.',
  why: 'A tap makes one thread only. One that is not on hand is borrowed or bought before the day at the machine; another thread is another screw, and changes what the part meets.',
  formula:
    'The taps of the shop file by thread, however each is written (`M5`, `M5x0.8`). A warning where the shop lists no taps at all, or is the built-in one.',
  limits: [],
  bad: `part: clamp
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 30 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M10x0.75
    thread-depth: 18
    depth: through
`,
  good: `part: clamp
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 30 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M10
    thread-depth: 18
    depth: through
`,
  mends: 'A thread of the same diameter that the shop has a tap for: the screw changes with it.',
  *find(context): Generator<Finding> {
    const { shop, length } = context;
    const any = tapsOf(shop).length > 0;
    for (const { hole, thread, taps } of tapped(context)) {
      if (taps.length > 0) continue;
      const near = ofSameDiameter(thread, context).map((t) => t.designation);
      const forms = tapsFor(shop, thread.designation).some((t) => t.forming);
      const other = near.length > 0 ? ` Of its diameter there is ${list(near, 'or')}.` : '';
      yield {
        rule: NAME,
        severity: any && !shop.builtIn ? 'error' : 'warning',
        message: any
          ? forms
            ? `The ${thread.designation} tap of this shop forms its thread: it breaks in a hole of ${length(hole.diameter.mm)}. Drill ${length(Number(formHoleMm(thread).toFixed(2)))} for it, or get one that cuts.`
            : `The shop${shop.builtIn ? ' (the built-in one)' : ''} has no ${thread.designation} tap. Borrow or buy one, and list it in the shop.${other}`
          : `The shop file lists no taps, so ${thread.designation} cannot be tapped as it stands. List the taps there are, or borrow or buy one.`,
        of: [hole.name],
        span: hole.thread!.span,
        related: [],
        facts: { thread: thread.designation, ...Object.fromEntries(near.map((n, i) => [`nearest_${i + 1}`, n])) },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec) return;
    if (tapsFor(context.shop, hole.thread.spec.designation).some((t) => t.forming)) {
      const wide = setLength(hole.diameter, Number(formHoleMm(hole.thread.spec).toFixed(2)), context.part);
      if (wide) yield { title: `Drill it for the form tap, ${wide.newText}`, safe: false, edits: [wide] };
      return;
    }
    for (const thread of ofSameDiameter(hole.thread.spec, context)) {
      const text = { span: hole.thread.span, newText: thread.designation };
      const edits = hole.diameterGiven ? together(text, removeField(context.tree, hole.name, 'diameter')) : [text];
      if (edits) yield { title: `Make it ${thread.designation}`, safe: false, edits };
    }
  },
};
