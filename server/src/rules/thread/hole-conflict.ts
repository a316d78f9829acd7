/** thread/hole-conflict – the diameter given cannot be the thread's tap hole. */
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { removeField } from '../kit/fields';
import { subjectOf, trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { misfit, shares } from './tapped-holes';

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
  summary: 'The diameter of a tapped hole does not fit its thread.',
  why: 'In a hole that is too wide the tap has nothing to cut. A hole that is too narrow breaks it. Often a clearance diameter was written beside the thread. A hole is either tapped or a clearance hole.',
  formula:
    'Share of the full thread in % = (D − d) / (1.299 P) · 100. Below `least` nothing holds; above `most` no tap can cut it. Pipe and trapezoidal threads have their own height. A hole narrower than their standard’s minor diameter is too narrow. On a cone, one wider than at its mouth is too wide.',
  limits: [
    {
      name: 'least',
      value: 30,
      unit: 'percent',
      what: 'Share of the full thread height below which it is no thread.',
      source: 'common practice, no source (half a thread is the least that is used: OD 1621 lesson 2)',
    },
    {
      name: 'most',
      value: 100,
      unit: 'percent',
      what: 'Share of the full thread height above which no tap can cut it.',
      source: 'geometry of the thread, ISO 68-1',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['diameter: 5.5', 'diameter: 4.2']),
  mends: 'Leave the diameter out (the tap drill follows from the thread), or write the tap drill.',
  *find(context) {
    const { limit } = context;
    for (const share of shares(context)) {
      const how = misfit(share, limit('least'), limit('most'));
      if (how) yield { ...share, how };
    }
  },
  tell({ hole, thread, percent, usualMm, forming, how }, { length, part }) {
    const leaves =
      percent === undefined
        ? 'That is too wide for'
        : `That leaves ${percent <= 0 ? 'nothing' : `only ${trimmed(percent, 0)} %`} of`;
    return {
      message: `${subjectOf(part, hole.name)} has a diameter of ${length(hole.diameter.mm)}. ${how === 'wide' ? `${leaves} the ${thread.designation} thread` : `That is too narrow for the ${thread.designation} tap`}. Make it ${length(usualMm)}, ${forming ? 'the hole for its form tap' : 'its tap drill'}.`,
      has: length(hole.diameter.mm),
      needs: length(usualMm),
      of: [hole.name],
      span: hole.diameter.span,
      related: [{ span: hole.thread!.span, message: thread.designation }],
      facts: {
        diameter_mm: hole.diameter.mm,
        tap_drill_mm: usualMm,
        ...(percent !== undefined && { percent: Math.round(percent) }),
        thread: thread.designation,
      },
    };
  },
  keep: ({ hole, thread }) => ({ of: hole.name, tapDrillMm: thread.tapDrillMm }),
  *mend({ of, tapDrillMm }, { part, tree, length }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    yield change(`Drill it ${length(tapDrillMm)}: the diameter left to the thread`, removeField(tree, of, 'diameter'));
    yield change(`Make the diameter ${length(tapDrillMm)}, its tap drill`, setLength(hole.diameter, tapDrillMm, part));
    if (!hole.threadDepth || hole.threadDepth.from)
      yield change(`Make it a plain hole of ${length(hole.diameter.mm)}`, removeField(tree, of, 'thread'));
  },
});
