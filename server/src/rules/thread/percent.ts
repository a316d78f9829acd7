/** thread/percent – the given tap hole leaves too little or too much thread. */
import { HAIR, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { removeField } from '../kit/fields';
import { subjectOf, trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { holeConflict } from './hole-conflict';
import { misfit, shares } from './tapped-holes';

const BAD = `part: block
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
`;

export const percent: Rule = defineRule({
  name: 'thread/percent',
  severity: 'warning',
  summary: 'The tap hole leaves an unusual share of the thread’s height.',
  why: 'About three quarters of the full height is usual. Below half to six tenths the thread strips. Above five sixths it holds little more, but the tap needs far more torque and breaks.',
  formula:
    'Share of the full thread in % = (D − d) / (1.299 P) · 100. D is the diameter of the thread, d of the hole, P the pitch. For a form tap: (D − d) / (0.0068 P). Of a pipe or trapezoidal thread the widest hole is that of its standard.',
  limits: [
    {
      name: 'least',
      value: 60,
      unit: 'percent',
      what: 'Smallest share of the full thread height (deep or small holes go down to 50).',
      source:
        'common practice, no source; US Army OD 1621 lesson 2 p. 177 has 75 usual, 50 to 53 for small or deep holes',
    },
    {
      name: 'most',
      value: 85,
      unit: 'percent',
      what: 'Largest share of the full thread height.',
      source: 'common practice, no source; US Army OD 1621 lesson 2 p. 177 has 83 at most',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['diameter: 5.5', 'diameter: 5']),
  mends: 'Leave the diameter out (the tap drill follows from the thread), or write the tap drill.',
  *find(context) {
    const { limit, limitOf } = context;
    for (const found of shares(context)) {
      const { percent: share, allowed, hole } = found;
      // Outside these it is no tap hole at all: thread/hole-conflict.
      if (share === undefined || misfit(found, limitOf(holeConflict, 'least'), limitOf(holeConflict, 'most'))) continue;
      const unusual = allowed
        ? hole.diameter.mm > allowed.maxMm + HAIR
        : share < limit('least') - SAME || share > limit('most') + SAME;
      if (unusual) yield { ...found, share };
    }
  },
  tell({ hole, thread, share, allowed, usualMm, usualPercent = 0, forming }, { limit, length, part }) {
    const low = allowed !== undefined || share < limit('least');
    const why = allowed
      ? `${allowed.tolerance} allows ${length(Number(trimmed(allowed.maxMm, 2)))} at most`
      : low
        ? `Under ${limit('least')} % it strips early`
        : `Over ${limit('most')} % the tap breaks`;
    return {
      message: `${subjectOf(part, hole.name)} has a diameter of ${length(hole.diameter.mm)}: ${trimmed(share, 0)} % of the ${thread.designation} thread. ${why}. Make it ${length(usualMm)}, the ${forming ? 'hole for a form tap' : 'tap drill'}, for ${trimmed(usualPercent, 0)} %.`,
      has: `${trimmed(share, 0)} %`,
      needs: allowed ? length(usualMm) : `${low ? limit('least') : limit('most')} %`,
      of: [hole.name],
      span: hole.diameter.span,
      related: [{ span: hole.thread!.span, message: thread.designation }],
      facts: {
        percent: share,
        ...(allowed ? { most_mm: allowed.maxMm } : { limit_percent: low ? limit('least') : limit('most') }),
        diameter_mm: hole.diameter.mm,
        tap_drill_mm: usualMm,
        tap_drill_percent: usualPercent,
      },
    };
  },
  keep: ({ hole, thread, usualMm }) => ({ of: hole.name, usualMm, tapDrillMm: thread.tapDrillMm }),
  *mend({ of, usualMm, tapDrillMm }, { part, tree, length }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    // Left out, the hole is that of a tap that cuts.
    const cuts = Math.abs(usualMm - tapDrillMm) < HAIR;
    if (cuts)
      yield change(`Drill it ${length(usualMm)}: the diameter left to the thread`, removeField(tree, of, 'diameter'));
    const edit = setLength(hole.diameter, cuts ? tapDrillMm : Number(usualMm.toFixed(2)), part);
    yield change(`Make the diameter ${length(usualMm)}, its ${cuts ? 'tap drill' : 'hole'}`, edit);
  },
});
