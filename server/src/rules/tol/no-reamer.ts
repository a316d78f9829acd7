/** tol/no-reamer – a small close hole, and nothing that makes it. */

import type { Reamer, Shop } from '../../model/shop-model';
import { gradeHeld } from '../../process/grades';
import { ROUNDING, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { capital, lengths } from '../kit/message';
import type { Limit, Rule, RuleContext } from '../kit/rule';
import { sizesOf } from '../kit/sizes';
import { beyond, type Held, reamed, severityOf, widening } from './holding';

const LARGEST: Limit = {
  name: 'largest',
  value: 20,
  unit: 'mm',
  what: 'Diameter above which a close hole is bored rather than reamed.',
  source: 'common practice, no source; ISO 236-1 has hand reamers, ISO 521 machine reamers far above it, from memory',
};

/** Whether a reamer bought for the hole would do what nothing on hand does. One that is only too short is not missing. */
export function wantsReamer({ size, grade, short, instead, plastic }: Held, shop: Shop): boolean {
  const largest = shop.limits.get('tol/no-reamer')?.get(LARGEST.name) ?? LARGEST.value;
  const drilled = size.feature?.kind === 'hole' && size.what === 'diameter';
  // A drill with care reaches so far; that is not reamed.
  const drill = gradeHeld(shop, 'drilling') - gradeHeld(shop, 'care');
  const reamed = grade >= gradeHeld(shop, 'reaming') && grade < drill;
  return drilled && !short && !instead && !plastic && size.length.mm <= largest + ROUNDING && reamed;
}

function* missing(context: RuleContext): Generator<Held> {
  for (const size of sizesOf(context.part)) {
    if (size.feature?.kind !== 'hole' || size.made !== 'bore') continue;
    const held = beyond(size, context);
    if (held && wantsReamer(held, context.shop)) yield held;
  }
}

/** Reamers on hand that would make the same limits at their own size, nearest first. */
function nearOnes({ size }: Held, { shop }: RuleContext): readonly Reamer[] {
  const off = (r: Reamer) => Math.abs(r.diameterMm - size.length.mm);
  return shop.tools
    .filter((t): t is Reamer => t.kind === 'reamer' && off(t) > SAME)
    .filter((r) => reamed(r, { ...size, length: { ...size.length, mm: r.diameterMm } }, shop) !== undefined)
    .sort((a, b) => off(a) - off(b))
    .slice(0, 2);
}

function tell(held: Held, context: RuleContext): Told {
  const { length, shop } = context;
  const { size, grade, bestGrade, widthMm, bestWidthMm, by, otherReamer } = held;
  const near = nearOnes(held, context);
  const none = otherReamer
    ? `${otherReamer.name} makes ${length(otherReamer.diameterMm)} ${otherReamer.fit}, other limits`
    : 'the shop has none, and no boring head so small';
  const have = ` Buy the reamer${
    near.length > 0
      ? `, or make it ${lengths(
          near.map((r) => r.diameterMm),
          length,
          'or',
        )}`
      : ', or allow more'
  }.`;
  return {
    severity: severityOf(held, shop),
    message: `${capital(size.feature!.kind)} ${size.feature!.name}, ${length(size.length.mm)} ${size.tolerance.text}, has a tolerance ${length(widthMm)} wide (IT${grade}). It needs a reamer; ${none}. Here ${by} holds ${length(bestWidthMm)} (IT${bestGrade}).${have}`,
    of: [size.feature!.name],
    span: size.length.span,
    facts: {
      diameter_mm: size.length.mm,
      grade,
      process_grade: bestGrade,
      width_mm: widthMm,
      process_width_mm: bestWidthMm,
      tool: by,
      nearest_mm: near[0]?.diameterMm,
      nearest_tool: near[0]?.name,
    },
  };
}

const BAD = `part: hinge
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 20, z: 10 }
features:
  pin:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 7 H7
    depth: through
`;

export const noReamer: Rule = defineRule({
  name: 'tol/no-reamer',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'A small close hole needs a reamer of its size, and the shop has none.',
  why: 'A drill cuts wider than itself and an end mill bends, so a seat for a pin is reamed. Each size and class has its own reamer. Order it in time, or use a size that the shop has. From its smallest diameter up a boring head makes any size.',
  formula:
    'For a hole up to `largest` whose limits a reamer holds (`reaming` of tol/process), and no tool in the shop. A reamer fits where all of its own class is within the limits. What a drill reaches with care (`drilling` less `care`) needs no reamer. Grades are as in tol/process.',
  limits: [LARGEST],
  bad: BAD,
  good: edited(BAD, ['7 H7', '6 H7']),
  mends: 'Use the nearest size that a reamer in the shop makes, or the tolerance that the best tool holds.',
  find: missing,
  tell,
  keep: (held, context) => ({
    size: held.size.length,
    near: nearOnes(held, context).map((r) => ({ tool: r.name, mm: r.diameterMm })),
    wider: widening(held, context),
  }),
  *mend({ size, near, wider }, { part, length }) {
    for (const { tool, mm } of near) yield change(`Make it ${length(mm)}, for ${tool}`, setLength(size, mm, part));
    yield wider;
  },
});
