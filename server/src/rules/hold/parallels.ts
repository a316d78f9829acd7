/** hold/parallels – no pair on hand lets the work stand as high in the jaws as is written. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn } from '../kit/holds';
import { fact, list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { held, SEAT } from './samples';

/** A pair is of the right height within this, mm: as thick as a shim. */
const SAME_MM = 0.5;

type Trouble =
  /** Grip and pair, both written, do not go together. */
  | { readonly kind: 'disagree'; readonly reallyMm: number }
  /** The pair written is not on hand, or none makes the grip. */
  | { readonly kind: 'missing'; readonly wantedMm: number }
  /** Written deeper than the jaws are high. */
  | { readonly kind: 'too-deep' }
  /** Nothing stands above the jaws. */
  | { readonly kind: 'sunk' };

function troubleOf({ h, hold, seating }: InJaws, { shop }: RuleContext): Trouble | undefined {
  const has = (mm: number) => mm <= SAME_MM || shop.parallelsMm.some((p) => Math.abs(p - mm) <= SAME_MM);
  const { jawHeightMm } = h.vise;
  if (hold.grip && hold.grip.mm > jawHeightMm + SAME) return { kind: 'too-deep' };
  const pair = hold.parallels?.mm;
  if (hold.grip && pair !== undefined && Math.abs(jawHeightMm - pair - hold.grip.mm) > SAME_MM)
    return { kind: 'disagree', reallyMm: Math.max(0, jawHeightMm - pair) };
  const wantedMm = pair ?? h.parallelsWantedMm;
  if ((hold.grip || pair !== undefined) && shop.parallelsMm.length > 0 && !has(wantedMm))
    return { kind: 'missing', wantedMm };
  if (hold.type === 'vise' && h.gripMm >= seating.heightMm - SAME) return { kind: 'sunk' };
  return undefined;
}

function tellTrouble(x: InJaws, trouble: Trouble, context: RuleContext): Told {
  const { length, shop } = context;
  const { s, h, hold, seating } = x;
  const grips = gripsOnHand(x, context, LEAST_GRIP_MM);
  const onHand = list(shop.parallelsMm.map((p) => length(p)));
  const wouldDo =
    grips.length > 0
      ? `${list(
          nearest(grips, h.gripMm).map((g) => length(g)),
          'or',
        )} of grip would do`
      : 'No pair does';
  const { jawHeightMm, name } = h.vise;
  const where = `In ${s.setup.name}`;
  const said = () => {
    switch (trouble.kind) {
      case 'too-deep':
        return `${where} the work is to be held by ${length(hold.grip!.mm)}, and the jaws of ${name} are ${length(jawHeightMm)} high. ${wouldDo}.`;
      case 'disagree':
        return `${where} on parallels of ${length(hold.parallels!.mm)} the jaws of ${name} (${length(jawHeightMm)} high) hold the work by ${length(trouble.reallyMm)}, not by ${length(hold.grip!.mm)}.`;
      case 'missing':
        return `${where} it takes parallels of ${length(trouble.wantedMm)}${hold.parallels ? '' : ` for a grip of ${length(hold.grip!.mm)}`}; on hand are ${onHand}. ${wouldDo}.`;
      case 'sunk':
        return `${where} the work is ${length(seating.heightMm)} high and lies ${length(h.gripMm - seating.heightMm)} below the tops of the jaws: nothing stands above them. ${grips.length > 0 ? wouldDo : 'None of the parallels on hand is high enough'}.`;
      default:
        return trouble satisfies never;
    }
  };
  return {
    message: said(),
    of: [],
    span: (trouble.kind === 'disagree' ? hold.parallels : (hold.grip ?? hold.parallels))?.span ?? hold.span,
    related: trouble.kind === 'disagree' ? [{ span: hold.grip!.span, message: 'the grip that is written' }] : [],
    facts: {
      set_up: s.setup.name,
      grip_mm: hold.grip?.mm ?? h.gripMm,
      jaw_height_mm: jawHeightMm,
      height_mm: seating.heightMm,
      wanted_mm: trouble.kind === 'missing' ? trouble.wantedMm : undefined,
      really_mm: trouble.kind === 'disagree' ? trouble.reallyMm : undefined,
      parallels_mm: hold.parallels?.mm,
      would_do_mm: grips.length > 0 ? list(nearest(grips, h.gripMm).map((g) => String(fact(g)))) : undefined,
      on_hand_mm: shop.parallelsMm.join(' '),
    },
  };
}

/** The two nearest. */
function nearest(grips: readonly number[], to: number): readonly number[] {
  return [...grips].sort((a, b) => Math.abs(a - to) - Math.abs(b - to)).slice(0, 2);
}

const SAMPLE = { body: '{ x: 60, y: 40, z: 20 }', features: SEAT, cuts: '[seat]' };

export const parallels: Rule = defineRule({
  name: 'hold/parallels',
  severity: 'warning',
  summary: 'No parallels on hand let the work stand so high in the jaws.',
  why: 'The height of the parallels decides how much is in the jaws and how much stands above them. With a pair that is not there the work stands a few millimetres off what was planned, and the cutter finds the jaws.',
  formula: `The grip is the height of the jaws less that of the parallels. A pair on hand does when it is within ${SAME_MM} mm of what the grip takes. Work that lies below the tops of the jaws is told as well.`,
  limits: [],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 12 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10 }' }),
  mends: 'The nearest grips that a pair on hand makes.',
  *find(context) {
    for (const x of heldOf(context.part, context.solid, context.shop)) {
      const trouble = troubleOf(x, context);
      if (trouble) yield { x, trouble };
    }
  },
  tell: ({ x, trouble }, context) => tellTrouble(x, trouble, context),
  keep: ({ x }) => x.s.setup.name,
  *mend(setup, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    for (const g of nearest(gripsOnHand(x, context, LEAST_GRIP_MM), x.hold.grip?.mm ?? x.h.gripMm))
      yield gripFix(x, g, context);
  },
});
