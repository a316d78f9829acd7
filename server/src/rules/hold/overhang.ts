/** hold/overhang – the work stands too high above its grip. */
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { gripFix, gripsOnHand, heldFor, otherJaws } from '../kit/holds';
import { fact, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

const NAME = 'hold/overhang';

function judge(x: InJaws, { limit }: RuleContext): { by: 'grip' | 'width'; ratio: number; limit: number } | undefined {
  const overGrip = x.gripMm > 0 ? x.aboveMm / x.gripMm : 0;
  const overWidth = x.h.openingMm > 0 ? x.aboveMm / x.h.openingMm : 0;
  const byGrip = overGrip / limit('grip');
  const byWidth = overWidth / limit('width');
  if (Math.max(byGrip, byWidth) <= 1 + 1e-9) return undefined;
  return byGrip >= byWidth
    ? { by: 'grip', ratio: overGrip, limit: limit('grip') }
    : { by: 'width', ratio: overWidth, limit: limit('width') };
}

function findingOf(x: InJaws, context: RuleContext): Finding | undefined {
  const found = judge(x, context);
  if (!found) return undefined;
  const { length } = context;
  const { s, h, hold, gripMm, aboveMm } = x;
  const than =
    found.by === 'grip' ? `the ${length(gripMm)} it is held by` : `the ${length(h.openingMm)} between the jaws`;
  const needed = (aboveMm + gripMm) / (1 + found.limit);
  const cure =
    found.by === 'grip'
      ? `Held by ${length(Math.ceil(needed * 10 - 1e-6) / 10)} it would do.`
      : 'Clamp the wider sides, or cut the upper part lighter.';
  return {
    rule: NAME,
    severity: 'warning',
    message: `In ${s.setup.name} ${length(aboveMm)} of the work stands above the jaws, ${trimmed(found.ratio, 1)} times ${than}; by the rule of thumb ${trimmed(found.limit, 1)} is the most. ${cure}`,
    of: [],
    span: found.by === 'grip' ? (hold.grip?.span ?? hold.span) : hold.span,
    related: [],
    facts: {
      set_up: s.setup.name,
      above_mm: fact(aboveMm),
      grip_mm: fact(gripMm),
      width_mm: fact(h.openingMm),
      ratio: fact(found.ratio),
      limit_ratio: fact(found.limit),
    },
  };
}

const SAMPLE = {
  body: '{ x: 50, y: 30, z: 45 }',
  features:
    '  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }\n',
  cuts: '[seat]',
};

export const overhang: Rule = {
  name: NAME,
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
  *find(context) {
    for (const x of heldOf(context.part, context.solid, context.shop)) {
      const finding = findingOf(x, context);
      if (finding) yield finding;
    }
  },
  *mend(finding, context): Generator<Fix> {
    const x = heldFor(finding, context);
    if (!x) return;
    const needed = x.seating.heightMm / (1 + context.limit('grip'));
    for (const g of gripsOnHand(x, context, needed).slice(0, 4)) {
      const fix = gripFix(x, g, context);
      if (fix) yield fix;
    }
    const turned = otherJaws(x, context);
    if (turned) yield turned;
  },
};
