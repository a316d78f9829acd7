/** hold/grip – too little of the work is between the jaws. */
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn } from '../kit/holds';
import { PRINTED_ALIKE_MM } from '../kit/message';
import { laidDown } from '../kit/other-holds';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { held, SEAT } from './samples';

/** Less than this is no grip at all. Common practice, no source. */
const NOTHING_MM = 1;

/** What the rule of thumb asks for with these jaws, mm. */
function wanted({ inVise: h }: InJaws, context: RuleContext): number {
  return context.limit(h.vise.face);
}

/** Thin work on the end of its bar, all of its height between the jaws: there is no more to grip. */
function isAllBetween({ aboveMm, gripMm }: InJaws): boolean {
  return aboveMm <= SAME && gripMm >= NOTHING_MM;
}

function tellGrip(x: InJaws, context: RuleContext): Told {
  const { length, about } = context;
  const { inTime: s, inVise: h, gripMm, hold } = x;
  const limit = wanted(x, context);
  const none = gripMm < NOTHING_MM;
  const better = gripsOnHand(x, context, limit)[0];
  const cure = `Grip ${length(better ?? limit)} or more.`;
  return {
    severity: none ? 'error' : undefined,
    message: none
      ? `Set-up ${s.setup.name} grips only ${about(gripMm)} in ${h.vise.name}. That holds nothing. ${cure}`
      : `Set-up ${s.setup.name} grips ${about(gripMm)} in the ${h.vise.face} jaws of ${h.vise.name}. They need ${length(limit)} (rule of thumb). ${cure}`,
    of: [],
    span: hold.grip?.span ?? hold.parallels?.span ?? hold.span,
    facts: { set_up: s.setup.name, grip_mm: gripMm, limit_mm: limit, vise: h.vise.name },
  };
}

const SAMPLE = { body: '{ x: 60, y: 40, z: 20 }', features: SEAT, cuts: '[seat]' };

export const grip: Rule = defineRule({
  name: 'hold/grip',
  severity: 'warning',
  mayBeError: true,
  summary: 'Too little of the workpiece is between the jaws.',
  why: 'A vise holds by friction on what is between its jaws. On a few tenths it lets go under the first real cut. A block that leaves the vise breaks the cutter and may hit you.',
  formula:
    'The grip is the height of the workpiece between the jaws: as written, or as jaws and parallels leave it. It is compared with the limit for jaws of this kind. What is above the jaws is checked by hold/overhang.',
  limits: [
    {
      name: 'smooth',
      value: 5,
      unit: 'mm',
      what: 'Smallest grip in smooth jaws.',
      source: 'common practice, from memory: 5 to 6 mm in plain jaws',
    },
    {
      name: 'serrated',
      value: 3,
      unit: 'mm',
      what: 'Smallest grip in serrated jaws.',
      source: 'common practice, from memory: 3 mm in metal',
    },
  ],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 2, parallels: 30 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }' }),
  mends: 'Grip more, on a pair of parallels in the shop, or use clamps or screws through its own holes.',
  find: (context) =>
    heldOf(context).filter((x) => x.gripMm < wanted(x, context) - PRINTED_ALIKE_MM && !isAllBetween(x)),
  tell: tellGrip,
  keep: (x) => x.inTime.setup.name,
  *mend(setup, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    if (!x) return;
    for (const g of gripsOnHand(x, context, wanted(x, context)).slice(0, 3)) yield gripFix(x, g, context);
    yield* laidDown(x, context);
  },
});
