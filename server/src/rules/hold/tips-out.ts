/** hold/tips-out – a cut high above the jaws levers the work out of them. */
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { type PressedDown, worstPressed } from '../../process/workholding/pressed-down';
import { blockOf, type Pry, tipsAt, worstPry } from '../../process/workholding/prying';
import { HOLD_SAFETY } from '../../tables/holding.data';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws, setHold } from '../kit/holds';
import { capital, list, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { held } from './samples';
import { frictionOf } from './slips';

const newton = (n: number) => (n >= 10_000 ? `${trimmed(n / 1000, 1)} kN` : `${trimmed(n, 0)} N`);

type Levers = { readonly x: InJaws } & ({ readonly pry: Pry } | { readonly pressed: PressedDown });
type Levered = Pick<Pry, 'highMm' | 'forceN' | 'lift'>;

/** The push that the same cut may have with another grip or force, N. */
function tipsWith(x: InJaws, { highMm, lift }: Levered, gripMm: number, clampN: number, mu: number): number {
  const high = Math.max(0, highMm + x.gripMm - gripMm);
  const { acrossN, alongN } = tipsAt(high, { ...blockOf(x), gripMm }, clampN, mu, lift);
  return Math.min(acrossN, alongN);
}

/** Grips on hand by which the cut does not lever the work out, rising. */
function gripsThatHold(x: InJaws, pry: Levered, context: RuleContext): readonly number[] {
  const mu = frictionOf(x, context);
  const { forceN } = x.inVise.vise;
  return gripsOnHand(x, context, x.gripMm + 0.1).filter(
    (g) => tipsWith(x, pry, g, forceN, mu) >= context.limit('safety') * pry.forceN,
  );
}

function stronger(x: InJaws, pry: Levered, context: RuleContext) {
  const mu = frictionOf(x, context);
  return context.shop.vises.filter(
    (v) =>
      v.forceN > x.inVise.vise.forceN &&
      v.opensMm >= x.inVise.openingMm &&
      tipsWith(x, pry, x.gripMm, v.forceN, mu) >= context.limit('safety') * pry.forceN,
  );
}

function tellPry(x: InJaws, pry: Pry, context: RuleContext): Told {
  const { length, limit, about } = context;
  const { inVise: h, inTime: s, hold, gripMm } = x;
  const { forceN, highMm, how, tipsN, tool, cut, lift } = pry;
  const mu = frictionOf(x, context);
  const safety = limit('safety');
  const [grip] = gripsThatHold(x, pry, context);
  const vises = stronger(x, pry, context).map((v) => v.name);
  const cures = [
    ...(grip === undefined ? [] : [`grip ${length(grip)}`]),
    ...(vises.length > 0 ? [`use ${list(vises, 'or')}`] : []),
  ];
  const cure =
    cures.length > 0
      ? `${capital(cures.join(', or '))}.`
      : 'Use lighter cuts there, grip the wider faces, or grip more.';
  const against = how === 'across' ? `over a jaw edge at ${newton(tipsN)}` : `up at one end at ${newton(tipsN)}`;
  return {
    message: `Set-up ${s.setup.name}: ${tool} cuts ${cut.name} ${about(highMm)} above the jaws and pushes with ${newton(forceN)}. The workpiece tips ${against}; it must withstand ${trimmed(safety, 1)} times the push. ${cure}`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.grip?.span ?? hold.span, message: 'how it is held' }],
    facts: {
      set_up: s.setup.name,
      force_n: forceN,
      lift_n: lift.share * forceN,
      lift_arm_mm: how === 'across' ? lift.acrossMm : lift.alongMm,
      height_mm: highMm,
      moment_nm: (forceN * (how === 'across' ? highMm : highMm + gripMm)) / 1000,
      tips_n: tipsN,
      how,
      clamp_n: h.vise.forceN,
      friction: mu,
      grip_mm: gripMm,
      width_mm: h.openingMm,
      length_mm: blockOf(x).longMm,
      safety_ratio: safety,
      tool,
      would_do_mm: grip,
    },
  };
}

function tellPressed(x: InJaws, { cut, tool, thrustN, beyondMm, tipsN }: PressedDown, context: RuleContext): Told {
  const { limit, about } = context;
  const { inVise: h, inTime: s, hold, gripMm } = x;
  const safety = limit('safety');
  return {
    message: `Set-up ${s.setup.name}: ${tool} presses ${cut.name} down with ${newton(thrustN)}, ${about(beyondMm)} beyond the jaws. The workpiece tips up out of them at ${newton(tipsN)}; it must withstand ${trimmed(safety, 1)} times the push. Put that end into the jaws, or support it.`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.overhang?.by.span ?? hold.span, message: 'how it is held' }],
    facts: {
      set_up: s.setup.name,
      force_n: thrustN,
      beyond_mm: beyondMm,
      moment_nm: (thrustN * beyondMm) / 1000,
      tips_n: tipsN,
      how: 'down',
      clamp_n: h.vise.forceN,
      friction: frictionOf(x, context),
      grip_mm: gripMm,
      length_mm: blockOf(x).longMm,
      safety_ratio: safety,
      tool,
    },
  };
}

const SHOP = `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 2.2 kW, torque: 20 N·m }, feed: 3000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
vises:
  vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 12.5 kN, face: smooth }
parallels: [6, 10, 14, 18, 22, 26]
tools:
  em-16: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 42, shank: 16, material: carbide }
`;
const BLOCK = {
  body: '{ x: 60, y: 40, z: 75 }',
  features:
    '  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 26 }, corner-radius: 9, depth: 20 }\n',
  cuts: '[well]',
};

export const tipsOut: Rule = defineRule({
  name: 'hold/tips-out',
  severity: 'warning',
  summary: 'A cut high above the jaws levers the workpiece out of them.',
  why: 'A side push high above a short grip has a long lever. The workpiece tips over the edge of a jaw, or rises at one end. The cutter digs in, and the workpiece is thrown. Keep clear, and grip as your shop’s rules say.',
  formula:
    'Statics of a rigid block (textbook; no jaw bends or lifts). Across the jaws it turns about a top edge: P h + L x ≤ (F − P) (g / 2 + μ b). P is the push of the cut by Kienzle’s law, at the height h above the jaws. L is the lift of the helix, at its most, at the distance x: the farther side of the cut. F is the clamping force, g the grip, b the width between the jaws. Along the jaws it turns about one end: P (h + g) + L x ≤ 2 μ F r. The mean distance from that end to what the jaws touch is r. It tips up at the smaller P, which must be `safety` times the push. A drill that presses past the jaws by a turns it about their end: P a ≤ 2 μ F r. Without material or machine nothing is reported.',
  limits: [
    {
      name: 'friction-smooth',
      value: 0.1,
      unit: 'ratio',
      what: 'Friction of smooth jaws on machined steel; other materials by share.',
      source: 'as hold/slips: a chuck maker’s printed table (after VDI 3106, from memory)',
    },
    {
      name: 'friction-serrated',
      value: 0.35,
      unit: 'ratio',
      what: 'Friction of serrated jaws on machined steel; other materials by share.',
      source: 'as hold/slips: a chuck maker’s printed table (after VDI 3106, from memory)',
    },
    {
      name: 'safety',
      value: HOLD_SAFETY.value,
      unit: 'ratio',
      what: 'What must hold, over what pushes.',
      source: HOLD_SAFETY.source,
    },
  ],
  shop: SHOP,
  bad: held({ ...BLOCK, hold: '{ vise: vise, jaws: [back, front], grip: 6, parallels: 26 }' }),
  good: held({ ...BLOCK, hold: '{ vise: vise, jaws: [back, front], grip: 32 }' }),
  mends: 'Grip more, on parallels in the shop, use a vise that grips harder, or grip the other pair of faces.',
  *find(context): Generator<Levers> {
    const { part, solid, shop, limit } = context;
    for (const x of heldOf({ part, solid, shop })) {
      if (x.hold.type !== 'vise') continue;
      const mu = frictionOf(x, context);
      const pry = worstPry(x, context, mu, limit('safety'));
      if (pry && limit('safety') * pry.forceN > pry.tipsN) yield { x, pry };
      const pressed = worstPressed(x, context, mu);
      if (pressed && limit('safety') * pressed.thrustN > pressed.tipsN) yield { x, pressed };
    }
  },
  tell: (hit, context) => ('pry' in hit ? tellPry(hit.x, hit.pry, context) : tellPressed(hit.x, hit.pressed, context)),
  keep(hit) {
    const setup = hit.x.inTime.setup.name;
    if (!('pry' in hit)) return { setup };
    const { highMm, forceN, lift } = hit.pry;
    return { setup, pry: { highMm, forceN, lift } };
  },
  *mend({ setup, pry }, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    if (pry) for (const g of gripsThatHold(x, pry, context).slice(0, 3)) yield gripFix(x, g, context);
    for (const { name } of pry ? stronger(x, pry, context) : [])
      yield change(`Hold it in ${name}`, setHold(context, x.inTime.setup, 'vise', name));
    yield otherJaws(x, context);
  },
});
