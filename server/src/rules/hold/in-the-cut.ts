/** hold/in-the-cut – a cut takes away what the jaws hold. */

import { OPPOSITE, type Setup } from '../../model/model';
import { elsewhere } from '../../process/access/elsewhere';
import type { Cut } from '../../process/stock/types';
import { contactOf, heldOf, type InJaws, touches } from '../../process/workholding/in-jaws';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { aboveLowest } from '../../process/workholding/seating';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { fact, list, trimmed, wouldDo } from '../kit/message';
import { moveCut } from '../kit/moves';
import { contactNotKnown } from '../kit/not-judged';
import { inSoftJaws, laidDown } from '../kit/other-holds';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { verdictsIn } from '../kit/verdicts';
import { held } from './samples';

/** Less than this taken from a clamped area is the crumb of a corner, mm². */
const NOTHING_MM2 = 1;

interface Taken {
  readonly x: InJaws;
  readonly cut: Cut;
  readonly fixedMm2: number;
  readonly movingMm2: number;
  /** Tops of the jaws above its lowest place, mm. */
  readonly belowMm: number;
}

function* takenFrom(x: InJaws, limit: RuleContext['limit']): Generator<Taken> {
  const { inVise: h, seating, gripMm, hold } = x;
  if (gripMm <= 0) return;
  // Jaws milled to the part's shape give way where the cutter goes: there it counts what is left to hold by.
  const mayLeave = hold.type === 'soft-jaws' ? limit('left') * x.contact.opposed.areaMm2 : undefined;
  for (const cut of x.inTime.cuts) {
    if (!cut.removes.some((v) => touches(v, seating, h))) continue;
    const before = contactOf(cut.before, seating, h);
    const after = contactOf(cut.after, seating, h);
    if (!before.known || !after.known) continue;
    const fixedMm2 = before.fixed.areaMm2 - after.fixed.areaMm2;
    const movingMm2 = before.moving.areaMm2 - after.moving.areaMm2;
    if (Math.max(fixedMm2, movingMm2) < NOTHING_MM2) continue;
    if (mayLeave !== undefined && after.opposed.areaMm2 >= mayLeave) continue;
    const lowest = Math.min(
      ...cut.removes.map((v) =>
        aboveLowest(seating, seating.upSign > 0 ? v.bounds.min[seating.upAxis] : v.bounds.max[seating.upAxis]),
      ),
    );
    yield { x, cut, fixedMm2, movingMm2, belowMm: h.gripMm - Math.max(0, lowest) };
  }
}

/** Where it is not known what the jaws touch, at the first cut that nobody can judge. */
function* gaps(context: RuleContext): Generator<Finding> {
  for (const x of heldOf(context)) {
    if (x.hold.type === 'soft-jaws' || x.gripMm <= 0) continue;
    const known = (cut: Cut) =>
      !cut.removes.some((v) => touches(v, x.seating, x.inVise)) || contactOf(cut.after, x.seating, x.inVise).known;
    const lost = x.contact.known ? x.inTime.cuts.find((cut) => !known(cut)) : undefined;
    if (lost || !x.contact.known) yield contactNotKnown('hold/in-the-cut', x.inTime.setup, lost?.name);
  }
}

/** It lets go of all that the jaws hold: told by hold/cut-free. */
export function letsGo({ x, cut }: Pick<Taken, 'x' | 'cut'>): boolean {
  if (cut.feature?.kind !== 'contour') return false;
  const { known, opposed } = contactOf(cut.after, x.seating, x.inVise);
  return known && opposed.areaMm2 < NOTHING_MM2;
}

function* found(context: RuleContext): Generator<Taken> {
  let met: Set<Cut> | undefined;
  for (const x of heldOf(context)) {
    for (const taken of takenFrom(x, context.limit)) {
      // Where the cutter that would be taken runs into a jaw or the stop, access/jaw tells it.
      met ??= new Set(verdictsIn(context).flatMap((v) => (v.fixture ? [v.cut] : [])));
      if (!met.has(taken.cut) && !letsGo(taken)) yield taken;
    }
  }
}

/** A cutter that runs out level with the jaws touches them. */
const CLEAR_MM = 0.01;

/** Less in the jaws, on pairs that are on hand, the deepest first. */
function* lessGrip({ x, belowMm }: Pick<Taken, 'x' | 'belowMm'>, context: RuleContext): Generator<Fix> {
  const most = x.inVise.gripMm - belowMm;
  const grips = gripsOnHand(x, context, LEAST_GRIP_MM).filter((g) => g <= most - CLEAR_MM);
  for (const g of grips.reverse().slice(0, 2)) {
    const fix = gripFix(x, g, context);
    if (fix) yield fix;
  }
}

/** Made in another set-up, last. */
function* moved({ x, cut }: Pick<Taken, 'x' | 'cut'>, context: RuleContext, to: readonly Setup[]): Generator<Fix> {
  for (const other of to) {
    const turned = other.up && x.inTime.up && other.up.name === OPPOSITE[x.inTime.up];
    if (other === x.inTime.setup || (turned && cut.face === other.up?.name)) continue;
    const fix = change(`Cut it in ${other.name}`, moveCut(context, x.inTime.setup, other, cut.name));
    if (fix) yield fix;
  }
}

/** What is sure to do by what is known here: told in the message. */
function cureTold(taken: Taken, context: RuleContext): string {
  if (context.counting) return '';
  const { part, solid, shop } = context;
  const [lower] = lessGrip(taken, context);
  const there = lower ? [] : elsewhere(taken.cut, { part, solid, shop }).map((s) => s.setup);
  const grips = (s: Setup) => s.hold?.jaws?.some((j) => j.name === taken.cut.face) ?? false;
  return wouldDo([
    lower ??
      moved(
        taken,
        context,
        there.filter((s) => !grips(s)),
      ).next().value ??
      undefined,
  ]);
}

function tellTaken(taken: Taken, context: RuleContext): Told {
  const { x, cut, fixedMm2, movingMm2, belowMm } = taken;
  const { length } = context;
  const { inVise: h, inTime: s, hold } = x;
  const jaws = [
    ...(fixedMm2 >= NOTHING_MM2 ? [`${trimmed(fixedMm2, 0)} mm² that the fixed jaw grips`] : []),
    ...(movingMm2 >= NOTHING_MM2 ? [`${trimmed(movingMm2, 0)} mm² that the moving jaw grips`] : []),
  ];
  return {
    message: `Set-up ${s.setup.name}: ${cut.name} is cut ${length(belowMm)} below the jaw tops. It cuts away ${list(jaws)}, and ${hold.type === 'soft-jaws' ? 'too little is left in the jaws' : 'the cutter would hit the jaws'}.${cureTold(taken, context) || ' Hold it another way, or cut it in another set-up.'}`,
    thing: `set-up ${s.setup.name}`,
    has: hold.grip && `grip ${length(hold.grip.mm)}`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.grip?.span ?? hold.span, message: 'how it is held' }],
    facts: {
      set_up: s.setup.name,
      below_mm: belowMm,
      fixed_mm2: fixedMm2,
      moving_mm2: movingMm2,
      grip_mm: h.gripMm,
    },
  };
}

const FEATURES = '  ledge: { kind: step, face: top, along: front, width: 12, depth: 14 }\n';

export const inTheCut: Rule = defineRule({
  name: 'hold/in-the-cut',
  severity: 'error',
  summary: 'A cut cuts away what the jaws grip.',
  why: 'What is between the jaws cannot be cut away at its sides. The cutter runs along the jaw, and less of the workpiece is held with every chip.',
  formula:
    'The areas that the jaws grip before and after each cut: the difference is cut away. Also how far the cut goes below the jaw tops. Soft jaws give way to the cutter; reported is where less than `left` of what they gripped is left. Where the cutter itself would hit a jaw or the stop, access/jaw reports it instead.',
  limits: [
    {
      name: 'left',
      value: 0.25,
      unit: 'ratio',
      what: 'Share of what soft jaws grip that a cut must leave. In other jaws it must leave all of it.',
      source: 'common practice, no source: what is left there is held by friction alone',
    },
  ],
  bad: held({
    body: '{ x: 60, y: 60, z: 20 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }',
    cuts: '[ledge]',
  }),
  good: held({
    body: '{ x: 60, y: 60, z: 20 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 5, parallels: 27 }',
    cuts: '[ledge]',
  }),
  mends:
    'Grip less, on parallels in the shop, grip other faces, or move the cut to another set-up. Or use soft jaws, clamps or screws.',
  gaps,
  find: found,
  tell: tellTaken,
  keep: ({ x, cut, belowMm }) => ({ setup: x.inTime.setup.name, of: cut.name, belowMm: fact(belowMm) }),
  *mend({ setup, of, belowMm }, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    const cut = x?.inTime.cuts.find((c) => c.name === of);
    if (!x || !cut) return;
    yield* lessGrip({ x, belowMm }, context);
    yield* moved({ x, cut }, context, context.part.setups ?? []);
    yield otherJaws(x, context);
    yield* inSoftJaws(x, context);
    yield* laidDown(x, context);
  },
});
