/** thread/percent – the given tap hole leaves too little or too much thread. */
import { threadShare } from '../../process/tapping';
import { setLength } from '../kit/edits';
import { removeField, subjectOf } from '../kit/fields';
import { fact, trimmed } from '../kit/message';
import type { Finding, Fix, Rule } from '../kit/rule';
import { holeConflict } from './hole-conflict';
import { tapped } from './judge';

const NAME = 'thread/percent';

export const percent: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'The tap hole leaves an unusual share of the thread’s height.',
  why: 'About three quarters of the full height is usual. Below half to six tenths the thread strips, above five sixths it holds hardly more but the tap needs far more torque and breaks.',
  formula:
    '`percent` = (D − d) / (1.299 P) · 100: D the thread’s diameter, d the hole’s, P the pitch; (D − d) / (0.0068 P) where a form tap presses it.',
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
    for (const { hole, thread, taps } of tapped(context)) {
      if (!hole.diameterGiven) continue;
      const { percent: share, usualMm, usualPercent, forming } = threadShare(thread, hole.diameter.mm, taps);
      // Outside these it is no tap hole at all: thread/hole-conflict.
      if (share < limitOf(holeConflict, 'least') || share > limitOf(holeConflict, 'most')) continue;
      if (share >= limit('least') - 1e-6 && share <= limit('most') + 1e-6) continue;
      const low = share < limit('least');
      yield {
        rule: NAME,
        severity: 'warning',
        message: `A ${length(hole.diameter.mm)} hole leaves ${trimmed(share, 0)} % of the ${thread.designation} thread, ${low ? `under ${limit('least')} %: it strips early` : `over ${limit('most')} %: the tap is overloaded and breaks`}. The ${forming ? 'hole for a form tap' : 'tap drill'}, ${length(usualMm)}, gives ${trimmed(usualPercent, 0)} %.`,
        of: [hole.name],
        span: hole.diameter.span,
        related: [{ span: hole.thread!.span, message: thread.designation }],
        facts: {
          percent: fact(share),
          limit_percent: low ? limit('least') : limit('most'),
          diameter_mm: fact(hole.diameter.mm),
          tap_drill_mm: fact(usualMm),
          tap_drill_percent: fact(usualPercent),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec) return;
    const usualMm = Number(finding.facts.tap_drill_mm);
    // Left out, the hole is that of a tap that cuts.
    const cuts = Math.abs(usualMm - hole.thread.spec.tapDrillMm) < 1e-3;
    const edits = cuts ? removeField(context.tree, hole.name, 'diameter') : undefined;
    if (edits) yield { title: 'Leave the diameter to the thread', safe: false, edits };
    const edit = setLength(
      hole.diameter,
      cuts ? hole.thread.spec.tapDrillMm : Number(usualMm.toFixed(2)),
      context.part,
    );
    if (edit)
      yield {
        title: `Write its ${cuts ? 'tap drill' : 'hole'}, ${context.length(usualMm)}`,
        safe: false,
        edits: [edit],
      };
  },
};
