/** hold/overhang – the work stands too high above its grip. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { ROUNDING, SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { held, SEAT } from './samples';

interface High {
  readonly x: InJaws;
  readonly by: 'grip' | 'width';
  readonly ratio: number;
  readonly most: number;
}

function highOf(x: InJaws, { limit }: RuleContext): High | undefined {
  const overGrip = x.gripMm > 0 ? x.aboveMm / x.gripMm : 0;
  const overWidth = x.h.openingMm > 0 ? x.aboveMm / x.h.openingMm : 0;
  const byGrip = overGrip / limit('grip');
  const byWidth = overWidth / limit('width');
  if (Math.max(byGrip, byWidth) <= 1 + ROUNDING) return undefined;
  return byGrip >= byWidth
    ? { x, by: 'grip', ratio: overGrip, most: limit('grip') }
    : { x, by: 'width', ratio: overWidth, most: limit('width') };
}

function tellHigh({ x, by, ratio, most }: High, { length }: RuleContext): Told {
  const { s, h, hold, gripMm, aboveMm } = x;
  const than = by === 'grip' ? `the ${length(gripMm)} it is held by` : `the ${length(h.openingMm)} between the jaws`;
  const needed = (aboveMm + gripMm) / (1 + most);
  const cure =
    by === 'grip'
      ? `Held by ${length(Math.ceil(needed * 10 - SAME) / 10)} it would do.`
      : 'Clamp the wider sides, or cut the upper part lighter.';
  return {
    message: `In ${s.setup.name} ${length(aboveMm)} of the work stands above the jaws, ${trimmed(ratio, 1)} times ${than}; by the rule of thumb ${trimmed(most, 1)} is the most. ${cure}`,
    of: [],
    span: by === 'grip' ? (hold.grip?.span ?? hold.span) : hold.span,
    facts: {
      set_up: s.setup.name,
      above_mm: aboveMm,
      grip_mm: gripMm,
      width_mm: h.openingMm,
      ratio,
      limit_ratio: most,
    },
  };
}

const SAMPLE = { body: '{ x: 50, y: 30, z: 45 }', features: SEAT, cuts: '[seat]' };

export const overhang: Rule = defineRule({
  name: 'hold/overhang',
  severity: 'warning',
  summary: 'The work stands high above the jaws for how it is held.',
  why: 'The higher the cut above the jaws, the longer the lever with which it pries the work out of them, and the more the work sways and rings under the cutter.',
  formula:
    '`above_mm` / `grip_mm` against the limit `grip`, and `above_mm` / `width_mm` (between the jaws) against the limit `width`; the worse is told.',
  limits: [
    {
      name: 'grip',
      value: 3,
      unit: 'ratio',
      what: 'Height above the jaws over the grip, at most',
      source: 'common practice, from memory: a third to a quarter of the height in the jaws',
    },
    {
      name: 'width',
      value: 3,
      unit: 'ratio',
      what: 'Height above the jaws over the width between them, at most',
      source: 'common practice, from memory: 2 to 3 times',
    },
  ],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 18, parallels: 14 }' }),
  mends: 'A deeper grip on a pair of parallels that is on hand, or the other pair of sides clamped.',
  find: (context) => heldOf(context.part, context.solid, context.shop).flatMap((x) => highOf(x, context) ?? []),
  tell: tellHigh,
  keep: ({ x }) => x.s.setup.name,
  *mend(setup, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    const needed = x.seating.heightMm / (1 + context.limit('grip'));
    for (const g of gripsOnHand(x, context, needed).slice(0, 4)) yield gripFix(x, g, context);
    yield otherJaws(x, context);
  },
});
