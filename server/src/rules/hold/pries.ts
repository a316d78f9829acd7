/** hold/pries – a cut high above the jaws levers the work out of them. */
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { blockOf, type Pry, tipsAt, worstPry } from '../../process/workholding/prying';
import { HOLD_SAFETY } from '../../tables/holding.data';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws, setHold } from '../kit/holds';
import { list, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { held } from './samples';
import { frictionOf } from './slips';

const newton = (n: number) => (n >= 10_000 ? `${trimmed(n / 1000, 1)} kN` : `${trimmed(n, 0)} N`);

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
  const { forceN } = x.h.vise;
  return gripsOnHand(x, context, x.gripMm + 0.1).filter(
    (g) => tipsWith(x, pry, g, forceN, mu) >= context.limit('safety') * pry.forceN,
  );
}

function stronger(x: InJaws, pry: Levered, context: RuleContext) {
  const mu = frictionOf(x, context);
  return context.shop.vises.filter(
    (v) =>
      v.forceN > x.h.vise.forceN &&
      v.opensMm >= x.h.openingMm &&
      tipsWith(x, pry, x.gripMm, v.forceN, mu) >= context.limit('safety') * pry.forceN,
  );
}

function tellPry(x: InJaws, pry: Pry, context: RuleContext): Told {
  const { length, limit } = context;
  const { h, s, hold, gripMm } = x;
  const { forceN, highMm, how, tipsN, tool, cut, lift } = pry;
  const mu = frictionOf(x, context);
  const safety = limit('safety');
  const [grip] = gripsThatHold(x, pry, context);
  const vises = stronger(x, pry, context).map((v) => v.name);
  const cures = [
    ...(grip === undefined ? [] : [`held by ${length(grip)} it would do`]),
    ...(vises.length > 0 ? [`${list(vises, 'or')} would hold it`] : []),
  ];
  const cure =
    cures.length > 0
      ? `; ${cures.join('; ')}.`
      : '. Take lighter cuts there, clamp the wider sides, or hold more of it.';
  const against =
    how === 'across'
      ? `over a jaw’s top edge it tips at ${newton(tipsN)} (${newton(h.vise.forceN)} half of the ${length(gripMm)} grip below, and friction ${trimmed(mu, 3)} across ${length(h.openingMm)})`
      : `about its end it tips up at ${newton(tipsN)} (friction ${trimmed(mu, 3)} of ${newton(h.vise.forceN)} at two jaws, along ${length(blockOf(x).longMm)})`;
  return {
    message: `In ${s.setup.name} cutting ${cut.name} with ${tool} pushes with about ${newton(forceN)} ${length(highMm)} above the jaws and lifts with ${newton(lift.share * forceN)}: ${against}, and should stand ${trimmed(safety, 1)} times the push${cure}`,
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

const SHOP = `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 2.2 kW, torque: 20 N·m }, feed: 3000 mm/min, coolant: flood, locates: { edge-finder: 0.02 } }
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

export const pries: Rule = defineRule({
  name: 'hold/pries',
  severity: 'warning',
  summary: 'A cut high above the jaws levers the work out of them.',
  why: 'A side push a hand’s breadth above a short grip has a long lever. The work tips over the edge of a jaw, or rises at one end, the cutter digs in, and what was held is thrown. Keep clear of it, and clamp as the shop’s rules say.',
  formula:
    'Statics of a rigid block (textbook; no jaw bends or lifts). Across the jaws it turns about the top edge of one: P h + L x ≤ (F − P) (g / 2 + μ b), with the push P (`force_n`, by Kienzle’s law for the tool, width and depth that the cut would be made with) at the height h of the middle of its engagement above the jaws (`height_mm`), the lift L of the helix (`lift_n`, at the moment it is most) at the farther side of the cut (`lift_arm_mm`), the clamping force F (`clamp_n`), the grip g (`grip_mm`) and the width b between the jaws. Along them it turns about one end, as it cannot go down: P (h + g) + L x ≤ 2 μ F r, with r the mean way from that end to what the jaws touch. `tips_n` is the smaller P; it must be `safety_ratio` times the push. Without material, machine or a milling cut nothing is said.',
  limits: [
    {
      name: 'friction-smooth',
      value: 0.1,
      unit: 'ratio',
      what: 'Friction of smooth jaws on machined steel; other materials by share',
      source: 'as hold/slips: a chuck maker’s printed table (after VDI 3106, from memory)',
    },
    {
      name: 'friction-serrated',
      value: 0.35,
      unit: 'ratio',
      what: 'Friction of serrated jaws on machined steel; other materials by share',
      source: 'as hold/slips: a chuck maker’s printed table (after VDI 3106, from memory)',
    },
    {
      name: 'safety',
      value: HOLD_SAFETY.value,
      unit: 'ratio',
      what: 'What must hold, over what pushes',
      source: HOLD_SAFETY.source,
    },
  ],
  shop: SHOP,
  bad: held({ ...BLOCK, hold: '{ vise: vise, jaws: [back, front], grip: 6, parallels: 26 }' }),
  good: held({ ...BLOCK, hold: '{ vise: vise, jaws: [back, front], grip: 32 }' }),
  mends:
    'A deeper grip on a pair of parallels that is on hand, a vise that clamps harder, or the other pair of sides clamped.',
  *find(context) {
    const { part, solid, shop, limit } = context;
    for (const x of heldOf(part, solid, shop)) {
      if (x.hold.type !== 'vise') continue;
      const pry = worstPry(x, part, solid, shop, frictionOf(x, context), limit('safety'));
      if (pry && limit('safety') * pry.forceN > pry.tipsN) yield { x, pry };
    }
  },
  tell: ({ x, pry }, context) => tellPry(x, pry, context),
  keep: ({ x, pry: { highMm, forceN, lift } }) => ({ setup: x.s.setup.name, pry: { highMm, forceN, lift } }),
  *mend({ setup, pry }, context) {
    const x = heldIn(setup, context);
    if (!x) return;
    for (const g of gripsThatHold(x, pry, context).slice(0, 3)) yield gripFix(x, g, context);
    for (const { name } of stronger(x, pry, context))
      yield change(`Hold it in ${name}`, setHold(context, x.s.setup, 'vise', name));
    yield otherJaws(x, context);
  },
});
