/** hold/slips – the heaviest cut pushes harder than friction in the jaws, or the tabs, hold. */

import { materialOf } from '../../model/material-of';
import type { Hold } from '../../model/model';
import { timelineOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { clampFor, frictionN, heaviestOf, type Push } from '../../process/workholding/forces';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { FRICTION_SHARE, HOLD_SAFETY, JAW_FRICTION, SHEAR_SHARE } from '../../tables/holding.data';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { heldIn, setHold, setupMap } from '../kit/holds';
import { fact, list, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

const newton = (n: number) => (n >= 10_000 ? `${trimmed(n / 1000, 1)} kN` : `${trimmed(n, 0)} N`);

/** Friction of the jaws on the part's material. */
export function frictionOf({ inVise: h }: InJaws, { part, limit }: Pick<RuleContext, 'part' | 'limit'>): number {
  const family = materialOf(part)?.family;
  return limit(`friction-${h.vise.face}`) * ((family && FRICTION_SHARE[family]) ?? 1);
}

/** In the jaws, or on its tabs. */
type Slip =
  | { readonly x: InJaws; readonly push: Push; readonly needN: number }
  | {
      readonly s: SetupInTime;
      readonly push: Push;
      readonly tabs: Tabs;
      readonly shearMPa: number;
      readonly wideMm: number;
    };
type Tabs = NonNullable<Hold['tabs']>;

function tellSlipping({ x, push, needN }: Extract<Slip, { needN: number }>, context: RuleContext): Told {
  const { limit, shop } = context;
  const { inVise: h, inTime: s, hold } = x;
  const mu = frictionOf(x, context);
  const holds = frictionN(h.vise.forceN, mu);
  const safety = limit('safety');
  const stronger = shop.vises.filter((v) => v.forceN >= needN && v.opensMm >= h.openingMm).map((v) => v.name);
  const cure =
    stronger.length > 0 ? `Use ${list(stronger, 'or')}` : 'Use lighter cuts, serrated jaws, or a stop against the cut';
  return {
    message: `Set-up ${s.setup.name}: cutting ${push.cut.name} with ${push.tool} pulls with ${newton(push.forceN)}. Vise ${h.vise.name} holds ${newton(holds)} by friction; it must hold ${trimmed(safety, 1)} times the pull. ${cure}.`,
    of: [push.cut.name],
    span: push.cut.span,
    related: [{ span: hold.vise?.span ?? hold.span, message: 'what holds it' }],
    facts: {
      set_up: s.setup.name,
      force_n: push.forceN,
      sideways_n: push.sidewaysN,
      lift_n: push.liftN,
      clamp_n: h.vise.forceN,
      friction: mu,
      holds_n: holds,
      safety_ratio: safety,
      needed_n: needN,
      tool: push.tool,
    },
  };
}

/** Tabs that are sheared off: with what they shear at, and how wide they would hold. */
function shearing(s: SetupInTime, push: Push, { part, limit }: RuleContext): Slip | undefined {
  const tabs = s.setup.hold?.tabs;
  const strength = materialOf(part)?.yieldMPa;
  if (!tabs || !strength) return undefined;
  const shearMPa = SHEAR_SHARE * strength;
  const wantedN = limit('safety') * push.forceN;
  if (tabs.count * tabs.width.mm * tabs.height.mm * shearMPa >= wantedN) return undefined;
  const wideMm = Math.ceil((wantedN / (shearMPa * tabs.count * tabs.height.mm)) * 2) / 2;
  return { s, push, tabs, shearMPa, wideMm };
}

function tellShearing(hit: Extract<Slip, { tabs: Tabs }>, { limit, length }: RuleContext): Told {
  const { s, push, tabs, shearMPa, wideMm } = hit;
  const area = tabs.count * tabs.width.mm * tabs.height.mm;
  const safety = limit('safety');
  return {
    message: `Set-up ${s.setup.name}: cutting ${push.cut.name} with ${push.tool} pushes with ${newton(push.forceN)}. The ${tabs.count} tabs shear at ${newton(area * shearMPa)}; they must hold ${trimmed(safety, 1)} times the push. Make them ${length(wideMm)} wide.`,
    of: [push.cut.name],
    span: tabs.width.span,
    related: [{ span: push.cut.span, message: 'the heaviest cut' }],
    facts: {
      set_up: s.setup.name,
      force_n: push.forceN,
      tabs_mm2: area,
      shear_mpa: shearMPa,
      holds_n: area * shearMPa,
      safety_ratio: safety,
      wide_mm: wideMm,
      tool: push.tool,
    },
  };
}

const BLOCK = {
  body: '{ x: 80, y: 60, z: 40 }',
  features:
    '  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 50, y: 36 }, corner-radius: 8, depth: 20 }\n',
  cuts: '[well]',
};
const SHOP = (force: string) => `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 2.2 kW, torque: 20 N·m }, feed: 3000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
vises:
  weak: { jaw: { width: 80, height: 32 }, opens: 90, force: ${force}, face: smooth }
  strong: { jaw: { width: 100, height: 32 }, opens: 110, force: 30 kN, face: smooth }
parallels: [14, 18, 22]
tools:
  em-16: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 42, shank: 16, material: carbide }
`;

export const slips: Rule = defineRule({
  name: 'hold/slips',
  severity: 'warning',
  summary: 'The heaviest cut pushes harder than the jaws or tabs hold.',
  why: 'Only friction keeps the workpiece from sliding along plain jaws or climbing out of them. When it slips, cutter and part are lost, and pieces fly. Grip as your shop’s rules say, and keep clear.',
  formula:
    'Push and lift of the cut are by Kienzle’s law along the helix. The pull is both together, in the plane of the jaws. Two jaws hold 2 μ F, which must be `safety` times that. Tabs shear at 0.577 × yield strength (von Mises) over their section. Clamps and screws without a written force are not checked. How a high cut levers the workpiece out is checked by another rule.',
  limits: [
    {
      name: 'friction-smooth',
      value: JAW_FRICTION.smooth.mu,
      unit: 'ratio',
      what: 'Friction of smooth jaws on machined steel; other materials by share.',
      source: JAW_FRICTION.smooth.source,
    },
    {
      name: 'friction-serrated',
      value: JAW_FRICTION.serrated.mu,
      unit: 'ratio',
      what: 'Friction of serrated jaws on machined steel; other materials by share.',
      source: JAW_FRICTION.serrated.source,
    },
    {
      name: 'safety',
      value: HOLD_SAFETY.value,
      unit: 'ratio',
      what: 'What must hold, over what pushes.',
      source: HOLD_SAFETY.source,
    },
  ],
  shop: SHOP('2 kN'),
  bad: held({ ...BLOCK, hold: '{ vise: weak, jaws: [back, front], grip: 10, parallels: 22 }' }),
  good: held({ ...BLOCK, hold: '{ vise: strong, jaws: [back, front], grip: 10, parallels: 22 }' }),
  mends: 'Use a vise of the shop that grips hard enough, or wider tabs.',
  *find(context): Generator<Slip> {
    const { part, solid, shop, limit } = context;
    for (const x of heldOf({ part, solid, shop })) {
      if (x.hold.type !== 'vise') continue;
      const mu = frictionOf(x, context);
      const holds = frictionN(x.inVise.vise.forceN, mu);
      const push = heaviestOf(x.inTime, { part, solid, shop }, holds / limit('safety'));
      if (push && limit('safety') * push.forceN > holds)
        yield { x, push, needN: clampFor(push.forceN, mu, limit('safety')) };
    }
    if (!part.setups?.some((s) => s.hold?.tabs)) return;
    for (const s of timelineOf(part, solid).setups) {
      const push = s.setup.hold?.tabs ? heaviestOf(s, { part, solid, shop }) : undefined;
      const found = push && shearing(s, push, context);
      if (found) yield found;
    }
  },
  tell: (hit, context) => ('tabs' in hit ? tellShearing(hit, context) : tellSlipping(hit, context)),
  keep: (hit): Kept =>
    'tabs' in hit
      ? { setup: hit.s.setup.name, wideMm: hit.wideMm }
      : { setup: hit.x.inTime.setup.name, needN: hit.needN },
  *mend({ setup: name, wideMm, needN }, context) {
    const { part, shop, write, length } = context;
    const x = needN === undefined ? undefined : heldIn(name, context);
    for (const vise of x ? shop.vises : []) {
      if (vise.forceN < fact(needN!) || vise.opensMm < x!.inVise.openingMm) continue;
      yield change(`Hold it in ${vise.name}`, setHold(context, x!.inTime.setup, 'vise', vise.name));
    }
    const setup = part.setups?.find((s) => s.name === name);
    const tabs = setup?.hold?.tabs;
    if (wideMm === undefined || !tabs || !setupMap(context, setup, 'hold', 'tabs')) return;
    yield change(`Make the tabs ${length(wideMm)} wide`, { span: tabs.width.span, newText: write(wideMm) });
  },
});

interface Kept {
  readonly setup: string;
  /** How wide its tabs would hold. */
  readonly wideMm?: number;
  /** The force that a vise must clamp with. */
  readonly needN?: number;
}
