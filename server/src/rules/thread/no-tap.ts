/** thread/no-tap – the shop has no tap for this thread. */
import { tapsOf } from '../../machining/cutters';
import { findThread, type Thread } from '../../reference/threads';
import { removeField, subjectOf, together } from '../fields';
import { list } from '../message';
import type { Finding, Fix, Rule, RuleContext } from '../rule';
import { tapped } from './judge';

const NAME = 'thread/no-tap';

/** Threads of taps on hand, the most alike first: same system, then diameter, then pitch. */
function alike(thread: Thread, { shop }: RuleContext): readonly Thread[] {
  const system = (t: Thread) => t.series === 'UNC' || t.series === 'UNF';
  const cost = (t: Thread) =>
    (system(t) === system(thread) ? 0 : 1) +
    Math.abs(t.diameterMm - thread.diameterMm) +
    0.1 * Math.abs(t.pitchMm - thread.pitchMm);
  const had = tapsOf(shop).flatMap((t) => findThread(t.thread) ?? []);
  return [...new Set(had)].sort((a, b) => cost(a) - cost(b));
}

export const noTap: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'The shop has no tap for a thread.',
  why: 'A tap makes one thread only. One that is not on hand is an order and a wait; mostly a neighbouring size holds as well.',
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
  mends: 'The nearest threads the shop has taps for.',
  *find(context): Generator<Finding> {
    const { shop } = context;
    const any = tapsOf(shop).length > 0;
    for (const { hole, thread, taps } of tapped(context)) {
      if (taps.length > 0) continue;
      const near = alike(thread, context)
        .slice(0, 2)
        .map((t) => t.designation);
      yield {
        rule: NAME,
        severity: any && !shop.builtIn ? 'error' : 'warning',
        message: any
          ? `The shop${shop.builtIn ? ' (the built-in one)' : ''} has no ${thread.designation} tap. Nearest on hand: ${list(near)}.`
          : `The shop file lists no taps, so ${thread.designation} cannot be tapped as it stands. List the taps there are.`,
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
    for (const thread of alike(hole.thread.spec, context).slice(0, 3)) {
      const text = { span: hole.thread.span, newText: thread.designation };
      const edits = hole.diameterGiven ? together(text, removeField(context.tree, hole.name, 'diameter')) : [text];
      if (edits) yield { title: `Make it ${thread.designation}`, safe: false, edits };
    }
  },
};
