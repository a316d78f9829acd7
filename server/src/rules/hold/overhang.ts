/** hold/overhang – the work stands too high above its grip, or too far out past the end of the jaws. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { type StandsOut, standsOut } from '../../process/workholding/stands-out';
import { SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { figure, PRINTED_ALIKE_MM, PRINTED_ALIKE_RATIO } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { reordered } from '../kit/setups';
import { held, SEAT } from './samples';

interface High {
  readonly x: InJaws;
  readonly by: 'grip' | 'width';
  readonly ratio: number;
  readonly most: number;
}

function highOf(x: InJaws, { limit }: RuleContext): High | undefined {
  const overGrip = x.gripMm > 0 ? x.aboveMm / x.gripMm : 0;
  const overWidth = x.inVise.openingMm > 0 ? x.aboveMm / x.inVise.openingMm : 0;
  const byGrip = overGrip / limit('grip');
  const byWidth = overWidth / limit('width');
  const high: High =
    byGrip >= byWidth
      ? { x, by: 'grip', ratio: overGrip, most: limit('grip') }
      : { x, by: 'width', ratio: overWidth, most: limit('width') };
  return high.ratio > high.most + PRINTED_ALIKE_RATIO ? high : undefined;
}

function tellHigh({ x, by, ratio, most }: High, { length }: RuleContext): Told {
  const { inTime: s, inVise: h, hold, gripMm, aboveMm } = x;
  const than = by === 'grip' ? `the grip of ${length(gripMm)}` : `the ${length(h.openingMm)} between the jaws`;
  const needed = (aboveMm + gripMm) / (1 + most);
  const cure =
    by === 'grip'
      ? `Grip ${length(Math.ceil(needed * 10 - SAME) / 10)}.`
      : 'Grip the wider faces, or cut the upper part lighter.';
  return {
    message: `Set-up ${s.setup.name}: ${length(aboveMm)} of the workpiece are above the jaws, ${figure(ratio, most)} times ${than}. Over ${figure(most, ratio)} times a cut can lever it out (rule of thumb). ${cure}`,
    thing: `set-up ${s.setup.name}`,
    has: `${figure(ratio, most)} times`,
    needs: `${figure(most, ratio)} times or less`,
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

interface Far {
  readonly x: InJaws;
  readonly end: StandsOut;
}

/** Nothing that the set-up takes off would weaken it then. */
const firstWouldDo = ({ firstMm }: StandsOut, most: number) => firstMm <= most;

function tellFar({ x, end }: Far, { length, about, limit }: RuleContext): Told {
  const { face, outMm, cut, bendsMm, forceN } = end;
  const { setup } = x.inTime;
  const most = limit('bends');
  return {
    message: `Set-up ${setup.name}: ${length(outMm)} of the workpiece are past the jaws at ${face}. Cutting ${cut.name} bends that end ${about(bendsMm, most)}; over ${about(most, bendsMm)} it vibrates (rule of thumb). ${firstWouldDo(end, most) ? `Cut ${cut.name} first, while that end is stiff.` : 'Support that end, or use lighter cuts there.'}`,
    thing: `set-up ${setup.name}`,
    has: about(bendsMm, most),
    needs: `${about(most, bendsMm)} or less`,
    of: [cut.name],
    span: x.hold.overhang?.by.span ?? x.hold.span,
    facts: { set_up: setup.name, face, stands_out_mm: outMm, bends_mm: bendsMm, force_n: forceN },
  };
}

function cutFirst({ inTime: { setup } }: InJaws, name: string, context: RuleContext) {
  const own = setup.cuts.filter((c) => c.name === name);
  const rest = setup.cuts.filter((c) => c.name !== name);
  return change(`Cut ${name} first`, reordered(setup, [...own, ...rest], context));
}

const SAMPLE = { body: '{ x: 50, y: 30, z: 45 }', features: SEAT, cuts: '[seat]' };

export const overhang: Rule = defineRule({
  name: 'hold/overhang',
  severity: 'warning',
  summary: 'The workpiece stands high above the jaws for its grip, or far out past their end.',
  why: 'The higher the cut above the jaws, the longer the lever that tips the workpiece out of them. It also vibrates more under the cutter.',
  formula:
    'The height above the jaws over the grip, against the limit `grip`. The same height over the width between the jaws, against the limit `width`. The worse one is reported. What is past the end of the jaws is a beam of what is left there. The heaviest cut at a place in it bends it by F ∫ (L − x)² / E I(x) dx, against `bends`.',
  limits: [
    {
      name: 'grip',
      value: 3,
      unit: 'ratio',
      what: 'Largest height above the jaws over the grip.',
      source: 'common practice, from memory: a third to a quarter of the height in the jaws',
    },
    {
      name: 'width',
      value: 3,
      unit: 'ratio',
      what: 'Largest height above the jaws over the width between them.',
      source: 'common practice, from memory: 2 to 3 times',
    },
    {
      name: 'bends',
      value: 0.2,
      unit: 'mm',
      what: 'Most that a cut may bend what is past the end of the jaws.',
      source: 'common practice, no source',
    },
  ],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 18, parallels: 14 }' }),
  mends: 'Grip more, on a pair of parallels in the shop, or grip the other pair of faces.',
  *find(context): Generator<High | Far> {
    for (const x of heldOf(context)) {
      const high = highOf(x, context);
      if (high) yield high;
      for (const end of standsOut(x, context, context.limit('bends') + PRINTED_ALIKE_MM)) yield { x, end };
    }
  },
  tell: (hit, context) => ('end' in hit ? tellFar(hit, context) : tellHigh(hit, context)),
  keep: (hit) => ({
    setup: hit.x.inTime.setup.name,
    ...('end' in hit && { far: hit.end.cut.name, firstMm: hit.end.firstMm }),
  }),
  *mend({ setup, far, firstMm = 0 }, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    if (far !== undefined) {
      if (firstMm <= context.limit('bends')) yield cutFirst(x, far, context);
      return;
    }
    const needed = x.seating.heightMm / (1 + context.limit('grip'));
    for (const g of gripsOnHand(x, context, needed).slice(0, 4)) yield gripFix(x, g, context);
    yield otherJaws(x, context);
  },
});
