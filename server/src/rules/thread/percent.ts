/** thread/percent – the given tap hole leaves too little or too much thread. */
import { threadPercent } from '../../reference/threads';
import { setLength } from '../edits';
import { removeField, subjectOf } from '../fields';
import { fact, trimmed } from '../message';
import type { Finding, Fix, Rule } from '../rule';
import { holeConflict } from './hole-conflict';
import { tapped } from './judge';

const NAME = 'thread/percent';

export const percent: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'The tap hole leaves an unusual share of the thread’s height.',
  why: 'About three quarters of the full height is usual. Below half to six tenths the thread strips, above five sixths it holds hardly more but the tap needs far more torque and breaks.',
  formula: '`percent` = (D − d) / (1.299 P) · 100: D the thread’s diameter, d the hole’s, P the pitch.',
  limits: [
    {
      name: 'least',
      value: 60,
      unit: 'percent',
      what: 'of full thread height (deep or small holes go down to 50)',
      source: 'US Army OD 1621 lesson 2 p. 177: 75 usual, 50 to 53 for small or deep holes',
    },
    {
      name: 'most',
      value: 85,
      unit: 'percent',
      what: 'of full thread height',
      source: 'US Army OD 1621 lesson 2 p. 177: 83 at most',
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
    thread: M6
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
    thread: M6
    diameter: 5
    depth: through
`,
  mends: 'The diameter left out (the tap drill follows from the thread), or the tap drill written.',
  *find(context): Generator<Finding> {
    const { limit, limitOf, length } = context;
    for (const { hole, thread } of tapped(context)) {
      if (!hole.diameterGiven) continue;
      const share = threadPercent(thread, hole.diameter.mm);
      // Outside these it is no tap hole at all: thread/hole-conflict.
      if (share < limitOf(holeConflict, 'least') || share > limitOf(holeConflict, 'most')) continue;
      if (share >= limit('least') - 1e-6 && share <= limit('most') + 1e-6) continue;
      const low = share < limit('least');
      yield {
        rule: NAME,
        severity: 'warning',
        message: `A ${length(hole.diameter.mm)} hole leaves ${trimmed(share, 0)} % of the ${thread.designation} thread, ${low ? `under ${limit('least')} %: it strips early` : `over ${limit('most')} %: the tap is overloaded and breaks`}. The tap drill, ${length(thread.tapDrillMm)}, gives ${trimmed(threadPercent(thread, thread.tapDrillMm), 0)} %.`,
        of: [hole.name],
        span: hole.diameter.span,
        related: [{ span: hole.thread!.span, message: thread.designation }],
        facts: {
          percent: fact(share),
          limit_percent: low ? limit('least') : limit('most'),
          diameter_mm: fact(hole.diameter.mm),
          tap_drill_mm: fact(thread.tapDrillMm),
          tap_drill_percent: fact(threadPercent(thread, thread.tapDrillMm)),
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
  },
};
