/** thread/hole-conflict – the diameter given cannot be the thread's tap hole. */
import { threadShare } from '../../process/tapping';
import { setLength } from '../kit/edits';
import { removeField, subjectOf } from '../kit/fields';
import { fact, trimmed } from '../kit/message';
import type { Finding, Fix, Rule } from '../kit/rule';
import { tapped } from './judge';

const NAME = 'thread/hole-conflict';

export const holeConflict: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'A tapped hole is given a diameter that is not a tap hole for its thread.',
  why: 'Too wide a hole leaves the tap nothing to cut, too narrow a one breaks it. Often a clearance diameter was written beside the thread: a hole is either tapped or cleared.',
  formula:
    '`percent` of full thread = (D − d) / (1.299 P) · 100. Nothing to hold under `least`, nothing a tap can cut over `most`.',
  limits: [
    {
      name: 'least',
      value: 30,
      unit: 'percent',
      what: 'of full thread height, below which it is no thread',
      source: 'common practice, no source (half a thread is the least that is used: OD 1621 lesson 2)',
    },
    {
      name: 'most',
      value: 100,
      unit: 'percent',
      what: 'of full thread height, beyond which the tap must cut more than a thread',
      source: 'geometry of the thread, ISO 68-1',
    },
  ],
  bad: `part: block
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 16 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    diameter: 5.5
    depth: through
`,
  good: `part: block
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 16 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    diameter: 4.2
    depth: through
`,
  mends: 'The diameter left out (the tap drill follows from the thread), or the tap drill written.',
  *find(context): Generator<Finding> {
    const { limit, length } = context;
    for (const { hole, thread, taps } of tapped(context)) {
      if (!hole.diameterGiven) continue;
      const { percent, usualMm, forming } = threadShare(thread, hole.diameter.mm, taps);
      if (percent >= limit('least') && percent <= limit('most')) continue;
      const wide = percent < limit('least');
      yield {
        rule: NAME,
        severity: 'error',
        message: `A ${length(hole.diameter.mm)} hole ${wide ? `leaves ${percent <= 0 ? 'nothing' : `only ${trimmed(percent, 0)} % of a thread`} of ${thread.designation}` : `is too narrow for a ${thread.designation} tap (${trimmed(percent, 0)} % of a thread)`}. ${forming ? 'The hole for its form tap' : 'Its tap drill'} is ${length(usualMm)}.`,
        of: [hole.name],
        span: hole.diameter.span,
        related: [{ span: hole.thread!.span, message: thread.designation }],
        facts: {
          diameter_mm: fact(hole.diameter.mm),
          tap_drill_mm: fact(usualMm),
          percent: Math.round(percent),
          thread: thread.designation,
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec) return;
    const edits = removeField(context.tree, hole.name, 'diameter');
    if (edits) yield { title: 'Leave the diameter to the thread', safe: false, edits };
    const edit = setLength(hole.diameter, hole.thread.spec.tapDrillMm, context.part);
    if (edit)
      yield {
        title: `Write its tap drill, ${context.length(hole.thread.spec.tapDrillMm)}`,
        safe: false,
        edits: [edit],
      };
    const plain = removeField(context.tree, hole.name, 'thread');
    if (plain && (!hole.threadDepth || hole.threadDepth.from))
      yield { title: `Make it a plain hole of ${context.length(hole.diameter.mm)}`, safe: false, edits: plain };
  },
};
