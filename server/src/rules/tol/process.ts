/** tol/process – a tolerance finer than what cuts it holds. */

import { GRADES, gradeHeld } from '../../process/grades';
import { suppliedAcross } from '../../process/supplied';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';
import { sizesOf } from '../kit/sizes';
import { beyond, type Held, severityOf, widening } from './holding';
import { wantsReamer } from './no-reamer';

function* fine(context: RuleContext): Generator<Held> {
  // Not cut at all, and known to be closer than such bars are: stock/as-supplied.
  const known = suppliedAcross(context.part, context.shop).flatMap(({ axis, off }) => (off.known ? [axis] : []));
  for (const size of sizesOf(context.part)) {
    if (!size.feature && known.some((axis) => axis === size.what)) continue;
    const held = beyond(size, context);
    if (held && !wantsReamer(held, context.shop)) yield held;
  }
}

function wouldText(held: Held, { length, shop }: RuleContext): string {
  const { grade, bestGrade, short, instead, plastic } = held;
  if (plastic) return 'Plastic springs back, and grows with heat and moisture. Use a metal bush, or allow more.';
  return instead
    ? `Use ${instead} instead of the tool in the set-up.`
    : short
      ? `Tool ${short.name} holds it, but reaches ${length(short.reachMm)} of ${length(short.neededMm)}. Make it less deep, or allow more.`
      : grade >= bestGrade - gradeHeld(shop, 'care')
        ? 'You may reach it. Measure the first piece and correct.'
        : 'Closer sizes are ground, honed or lapped. Allow more, or have it ground.';
}

function tell(held: Held, context: RuleContext): Told {
  const { length, shop } = context;
  const { size, grade, bestGrade, widthMm, bestWidthMm, by, short, instead, plastic } = held;
  const asks = grade === 0 ? 'closer than IT1' : `IT${grade}`;
  const holds = plastic ? `In ${plastic} any tool holds` : `Here ${by} normally holds`;
  return {
    severity: severityOf(held, shop),
    message: `${size.feature ? `The ${size.what}` : `The body’s ${size.what}`} ${length(size.length.mm)} ${size.tolerance.text} has a tolerance ${length(widthMm)} wide (${asks}). ${holds} ${length(bestWidthMm)} (IT${bestGrade}). ${wouldText(held, context)}`,
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
  summary: 'A tolerance is closer than the tool for this size can hold.',
  why: 'Every way of cutting has a grade that it normally holds. Below it each part must be measured and cut again; below that again it must be ground. A wider tolerance costs nothing where nothing has to fit.',
  formula:
    'The size has the coarsest ISO 286 grade whose width is within the written limits. It is compared with the grade that the tool here holds. That tool makes the last of the feature’s cuts that gives it its size. It is the tool that a set-up names, if it can, else the finest that reaches. A reamer holds its own class. Plastics hold `plastic` or `soft-plastic` at best. A warning while the size is within `care` grades of it, or with the built-in shop.',
  limits: GRADES,
  bad: BAD,
  good: edited(BAD, ['±0.005', '±0.02']),
  mends: 'Use the tolerance that the tool in the shop holds.',
  find: fine,
  tell,
  keep: widening,
  mend: (fix) => [fix],
});
