/** hold/parallels – no pair on hand lets the work stand as high in the jaws as is written. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn } from '../kit/holds';
import { fact, lengths, list } from '../kit/message';
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

function troubleOf(x: InJaws, { shop }: RuleContext): Trouble | undefined {
  const { inVise: h, hold, seating } = x;
  const has = (mm: number) => mm <= SAME_MM || shop.parallelsMm.some((p) => Math.abs(p - mm) <= SAME_MM);
  const { jawHeightMm } = h.vise;
  if (hold.grip && hold.grip.mm > jawHeightMm + SAME) return { kind: 'too-deep' };
  const pair = hold.parallels?.mm;
  if (hold.grip && pair !== undefined && Math.abs(jawHeightMm - pair - hold.grip.mm) > SAME_MM)
    return { kind: 'disagree', reallyMm: Math.max(0, jawHeightMm - pair) };
  const wantedMm = pair ?? h.parallelsWantedMm;
  if ((hold.grip || pair !== undefined) && shop.parallelsMm.length > 0 && !has(wantedMm))
    return { kind: 'missing', wantedMm };
  if (hold.type === 'vise' && h.gripMm >= seating.heightMm - SAME && !isBesideJaws(x)) return { kind: 'sunk' };
  return undefined;
}

/** All that is cut stands out of the jaws at their ends, as on the end of a bar: then the work may lie below their tops. */
function isBesideJaws({ inTime: s, inVise: h }: InJaws): boolean {
  const i = h.alongAxis;
  const cut = s.cuts.flatMap((c) => c.removes);
  return cut.length > 0 && cut.every(({ bounds: b }) => b.min[i] >= h.jawToMm - SAME || b.max[i] <= h.jawFromMm + SAME);
}

function tellTrouble(x: InJaws, trouble: Trouble, context: RuleContext): Told {
  const { length, shop } = context;
  const { inTime: s, inVise: h, hold, seating } = x;
  const grips = gripsOnHand(x, context, LEAST_GRIP_MM);
  const onHand = lengths(shop.parallelsMm, length);
  const wouldDo =
    grips.length > 0
      ? `Grip ${list(
          nearest(grips, h.gripMm).map((g) => length(g)),
          'or',
        )}`
      : 'Hold it another way: no pair in the shop fits';
  const { jawHeightMm, name } = h.vise;
  const where = `Set-up ${s.setup.name}`;
  const said = () => {
    switch (trouble.kind) {
      case 'too-deep':
        return `${where} has a grip of ${length(hold.grip!.mm)}. The jaws of ${name} are ${length(jawHeightMm)} high. ${wouldDo}.`;
      case 'disagree':
        return `${where} has parallels of ${length(hold.parallels!.mm)} in jaws ${length(jawHeightMm)} high. That is a grip of ${length(trouble.reallyMm)}, not ${length(hold.grip!.mm)}. Delete one of the two, or correct it.`;
      case 'missing':
        return `${where}${hold.parallels ? ' needs' : `: a grip of ${length(hold.grip!.mm)} needs`} ${length(trouble.wantedMm)} parallels. The shop has ${onHand}. ${wouldDo}.`;
      case 'sunk':
        return `${where}: the workpiece is ${length(seating.heightMm)} high, ${length(h.gripMm - seating.heightMm)} below the jaw tops. Nothing is above them to be cut. ${grips.length > 0 ? wouldDo : 'Add higher parallels to the shop'}.`;
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
  summary: 'No parallels in the shop give this grip.',
  why: 'The height of the parallels decides how much is in the jaws and how much is above them. With another pair the workpiece is a few millimetres lower or higher than planned. The cutter may hit the jaws.',
  formula: `The grip is the height of the jaws less that of the parallels. A pair in the shop fits when it is within ${SAME_MM} mm of what the grip needs. A workpiece that is below the jaw tops is reported too.`,
  bounds: 'The parallels and the jaw height in the shop file. The 0.5 mm is a rule of thumb.',
  limits: [],
  bad: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 12 }' }),
  good: held({ ...SAMPLE, hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10 }' }),
  mends: 'Use the nearest grips that a pair in the shop gives.',
  *find(context) {
    for (const x of heldOf(context)) {
      const trouble = troubleOf(x, context);
      if (trouble) yield { x, trouble };
    }
  },
  tell: ({ x, trouble }, context) => tellTrouble(x, trouble, context),
  keep: ({ x }) => x.inTime.setup.name,
  *mend(setup, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    for (const g of nearest(gripsOnHand(x, context, LEAST_GRIP_MM), x.hold.grip?.mm ?? x.inVise.gripMm))
      yield gripFix(x, g, context);
  },
});
