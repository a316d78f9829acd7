/** thread/hole-conflict – the diameter given cannot be the thread's tap hole. */
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { removeField } from '../kit/fields';
import { trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { shares } from './tapped-holes';

const BAD = `part: block
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
`;

export const holeConflict: Rule = defineRule({
  name: 'thread/hole-conflict',
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
  bad: BAD,
  good: edited(BAD, ['diameter: 5.5', 'diameter: 4.2']),
  mends: 'The diameter left out (the tap drill follows from the thread), or the tap drill written.',
  *find(context) {
    const { limit } = context;
    for (const share of shares(context))
      if (share.percent < limit('least') || share.percent > limit('most')) yield share;
  },
  tell({ hole, thread, percent, usualMm, forming }, { limit, length }) {
    const wide = percent < limit('least');
    return {
      message: `A ${length(hole.diameter.mm)} hole ${wide ? `leaves ${percent <= 0 ? 'nothing' : `only ${trimmed(percent, 0)} % of a thread`} of ${thread.designation}` : `is too narrow for a ${thread.designation} tap (${trimmed(percent, 0)} % of a thread)`}. ${forming ? 'The hole for its form tap' : 'Its tap drill'} is ${length(usualMm)}.`,
      of: [hole.name],
      span: hole.diameter.span,
      related: [{ span: hole.thread!.span, message: thread.designation }],
      facts: {
        diameter_mm: hole.diameter.mm,
        tap_drill_mm: usualMm,
        percent: Math.round(percent),
        thread: thread.designation,
      },
    };
  },
  keep: ({ hole, thread }) => ({ of: hole.name, tapDrillMm: thread.tapDrillMm }),
  *mend({ of, tapDrillMm }, { part, tree, length }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    yield change('Leave the diameter to the thread', removeField(tree, of, 'diameter'));
    yield change(`Write its tap drill, ${length(tapDrillMm)}`, setLength(hole.diameter, tapDrillMm, part));
    if (!hole.threadDepth || hole.threadDepth.from)
      yield change(`Make it a plain hole of ${length(hole.diameter.mm)}`, removeField(tree, of, 'thread'));
  },
});
