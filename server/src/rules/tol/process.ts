/** tol/process – a tolerance finer than what cuts it holds. */

import { GRADES, gradeHeld } from '../../process/tolerances/holds';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';
import { sizesOf } from '../kit/sizes';
import { beyond, type Held, severityOf, widening } from './holding';
import { wantsReamer } from './no-reamer';

function* fine(context: RuleContext): Generator<Held> {
  for (const size of sizesOf(context.part)) {
    const held = beyond(size, context);
    if (held && !wantsReamer(held, context.shop)) yield held;
  }
}

function wouldText(held: Held, { length, shop }: RuleContext): string {
  const { grade, bestGrade, short, instead, plastic } = held;
  if (plastic) return 'It springs back, and grows with heat and moisture: press in a metal bush, or allow more.';
  return instead
    ? `A set-up names it; ${instead} would hold it.`
    : short
      ? `${short.name} would hold it, but reaches ${length(short.reachMm)} of the ${length(short.neededMm)} it is deep.`
      : grade >= bestGrade - gradeHeld(shop, 'care')
        ? 'With care, and measured on the first piece, it may be reached.'
        : 'Finer than that is ground, honed or lapped.';
}

function tell(held: Held, context: RuleContext): Told {
  const { length, shop } = context;
  const { size, grade, bestGrade, widthMm, bestWidthMm, by, short, instead, plastic } = held;
  const asks = grade === 0 ? 'finer than IT1' : `IT${grade}`;
  const holds = plastic ? `${plastic} holds IT${bestGrade}, whatever cuts it` : `${by} holds IT${bestGrade} here`;
  return {
    severity: severityOf(held, shop),
    message: `${size.feature ? `The ${size.what}` : `The body’s ${size.what}`} ${length(size.length.mm)} ${size.tolerance.text} has ${length(widthMm)} of room, ${asks}; ${holds}, ${length(bestWidthMm)}. ${wouldText(held, context)}`,
    of: size.feature ? [size.feature.name] : [],
    span: size.tolerance.span,
    facts: {
      grade,
      process_grade: bestGrade,
      width_mm: widthMm,
      process_width_mm: bestWidthMm,
      tool: by,
      plastic,
      instead,
      reach_mm: short?.reachMm,
      needed_mm: short?.neededMm,
    },
  };
}

const BAD = `part: guide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  track:
    kind: slot
    face: top
    ends: [{ x: 15, y: center }, { x: 45, y: center }]
    width: 10 ±0.005
    depth: 6
`;

export const process: Rule = defineRule({
  name: 'tol/process',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'A tolerance is finer than what cuts the size here can hold.',
  why: 'Every way of cutting has a fineness that comes by itself. Below it each part must be measured, cut again and often thrown away; below that again it must go to a grinder. A wider tolerance costs nothing where nothing has to fit.',
  formula:
    '`grade`: the coarsest ISO 286 grade whose width at this size lies within the written limits (`width_mm`). `process_grade`: what the tool that makes this size here holds: the last of the feature’s cuts that gives it its size (drilled and then bored, the boring head), with the tool that a set-up names, if it does; else the finest on hand that reaches. A reamer holds the class it is made to. Plastics hold `plastic` or `soft-plastic` at best. A warning while `grade` is within `care` of it, or with the built-in shop.',
  limits: GRADES,
  bad: BAD,
  good: edited(BAD, ['±0.005', '±0.02']),
  mends: 'The tolerance as wide as the tool on hand holds.',
  find: fine,
  tell,
  keep: widening,
  mend: (fix) => [fix],
});
