/** hold/clamps – a clamp presses on nothing, over a hollow, or where the work is cut. */

import { holds } from '../../geometry/solid/prism';
import type { Box } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import type { Place } from '../../model/model';
import { isMaterial, timelineOf } from '../../process/stock';
import type { Workpiece } from '../../process/stock/types';
import { type Press, pressedAt, pressOf } from '../../process/workholding/press';
import { seatingOf } from '../../process/workholding/seating';
import type { Seating } from '../../process/workholding/seating-types';
import { STRAP_OVER_MM } from '../../process/workholding/straps';
import { at, entry, samePlace } from '../../text/tree';
import { SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { removeItem } from '../kit/edits';
import { wouldDo } from '../kit/message';
import { clampedElsewhere } from '../kit/other-holds';
import type { Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

const LAYERS = 48;

/** Going in under a clamp: where material begins, and how much of the way to what it is pressed against is solid. */
function under(press: Press, at: Place, work: Workpiece): { topMm?: number; solidMm: number } {
  const step = press.thickMm / LAYERS;
  let topMm: number | undefined;
  let solidMm = 0;
  for (let i = 0; i < LAYERS; i++) {
    const down = (i + 0.5) * step;
    if (!isMaterial(work, pressedAt(press, at, press.thickMm - down))) continue;
    topMm ??= i * step;
    solidMm += step;
  }
  return { ...(topMm !== undefined && { topMm }), solidMm };
}

/** Where clamps would press on whole work instead. */
const SOLID = ' Move it onto solid material that is not cut.';
function elsewhere(seating: Seating, context: RuleContext): string {
  return wouldDo([clampedElsewhere(seating, context).next().value || undefined]);
}

/** A clamp that does not hold, or two that want the same place. */
interface Idle {
  readonly seating: Seating;
  readonly report: Told;
}

function idle(seating: Seating, at: Place, context: RuleContext): Idle | undefined {
  const { length, limit } = context;
  const { of } = seating;
  const { setup } = of;
  const press = pressOf(seating, setup.hold);
  const where = `Set-up ${setup.name}: the clamp`;
  const { topMm, solidMm } = under(press, at, of.before);
  if (topMm === undefined) {
    const told = {
      message: `${where} presses where there is no material.${elsewhere(seating, context) || SOLID}`,
      of: [],
      span: at.span,
      facts: { set_up: setup.name, solid_mm: 0 },
    };
    return { seating, report: told };
  }
  const p = pressedAt(press, at, press.thickMm - topMm - press.thickMm / LAYERS / 2);
  const cut = of.cuts.find((c) => c.removes.some((v) => holds(v, p)));
  if (cut) {
    const told = {
      message: `${where} presses on what ${cut.name} cuts away.${elsewhere(seating, context) || SOLID}`,
      of: [cut.name],
      span: at.span,
      related: [{ span: cut.span, message: 'cut here' }],
      facts: { set_up: setup.name },
    };
    return { seating, report: told };
  }
  const most = limit('hollow') * press.thickMm;
  const hollowIn = (work: Workpiece) => press.thickMm - topMm - under(press, at, work).solidMm;
  const now = press.thickMm - topMm - solidMm;
  // What is cut between a clamp and what it presses against leaves two arms, which it bends together.
  const opens = now > most ? undefined : of.cuts.find((c) => hollowIn(c.after) > most);
  const hollow = opens ? hollowIn(opens.after) : now;
  if (hollow <= most) return undefined;
  const told: Told = {
    severity: 'warning',
    message: `${where} presses over a hollow: of the ${length(press.thickMm - topMm)} below it, ${context.about(hollow)} are empty${opens ? ` once ${opens.name} is cut` : ''}. The workpiece bends ${opens ? 'then, and what was cut closes' : 'when the clamp is tightened'}. Support it with something solid.${elsewhere(seating, context)}`,
    of: opens ? [opens.name] : [],
    span: at.span,
    ...(opens && { related: [{ span: opens.span, message: 'cut here' }] }),
    facts: { set_up: setup.name, solid_mm: press.thickMm - topMm - hollow, hollow_mm: hollow },
  };
  return { seating, report: told };
}

/** Two straps want the same place: each is as wide as it is, and its nose reaches beyond where it presses. */
function* crowded(seating: Seating, context: RuleContext): Generator<Idle> {
  const { length, limit } = context;
  const { setup } = seating.of;
  const places = setup.hold?.clamps ?? [];
  const straps = seating.obstacles.filter((o) => o.what === 'clamp');
  for (let i = 0; i < straps.length; i++) {
    for (let k = 0; k < i; k++) {
      const overMm =
        sharedMm(straps[i]!.box, straps[k]!.box, pressOf(seating, setup.hold).axis) -
        2 * (STRAP_OVER_MM - limit('nose'));
      if (overMm <= SAME) continue;
      const apartMm = Math.hypot(places[i]!.u - places[k]!.u, places[i]!.v - places[k]!.v);
      const told = {
        message: `Set-up ${setup.name}: two clamps press ${length(apartMm)} apart, and their straps overlap. Move one, or leave the part on a longer bar and saw it off last.${elsewhere(seating, context)}`,
        of: [],
        span: places[i]!.span,
        related: [{ span: places[k]!.span, message: 'the other clamp' }],
        facts: { set_up: setup.name, apart_mm: apartMm, shared_mm: overMm, nose_mm: limit('nose') },
      };
      yield { seating, report: told };
    }
  }
}

/** One clamp alone, and no stop in the way: the work turns about it. */
function alone(seating: Seating, context: RuleContext): Idle | undefined {
  const { setup } = seating.of;
  const [only, other] = setup.hold?.clamps ?? [];
  if (!only || other || setup.hold?.stop) return undefined;
  const told: Told = {
    severity: 'warning',
    message: `Set-up ${setup.name} has one clamp: a cut turns the workpiece about it. Add a second clamp, or a stop against the turn.${elsewhere(seating, context)}`,
    of: [],
    span: only.span,
    facts: { set_up: setup.name, clamps: 1 },
  };
  return { seating, report: told };
}

/** How far two boxes overlap in plan, the lesser way; 0 or less where they do not. */
function sharedMm(a: Box, b: Box, up: AxisIndex): number {
  const ways = ([0, 1, 2] as const)
    .filter((i) => i !== up)
    .map((i) => Math.min(a.max[i], b.max[i]) - Math.max(a.min[i], b.min[i]));
  return Math.min(...ways);
}

const FEATURES = `  slot: { kind: slot, face: top, ends: [{ x: 20, y: 40 }, { x: 100, y: 40 }], width: 10, depth: 6 }\n`;
const sample = (at: string) =>
  held({
    body: '{ x: 120, y: 80, z: 12 }',
    features: FEATURES,
    hold: `{ clamps: [{ x: 12, y: 12 }, ${at}], on: table }`,
    cuts: '[slot]',
  });

export const clamps: Rule = defineRule({
  name: 'hold/clamps',
  severity: 'error',
  summary: 'A clamp presses on nothing, over a hollow or on what is cut away. Or it is the only one.',
  why: 'A clamp holds only what it presses on, straight down onto solid support. Over a hollow it bends the workpiece. On what is cut away it holds nothing in the end.',
  formula: `The workpiece below each clamp is checked in ${LAYERS} layers, as it is when the set-up begins. Where it begins and how much is solid counts. So does a cut of the set-up under the clamp. Straps are 25 mm wide (rule of thumb) and come from the nearest edge. They reach \`nose\` beyond where they press, and two must not overlap. One clamp alone is a warning where no \`stop\` is written.`,
  limits: [
    {
      name: 'hollow',
      value: 0.1,
      unit: 'ratio',
      what: 'Share of the height below a clamp that may be empty.',
      source: 'common practice, no source',
    },
    {
      name: 'nose',
      value: 5,
      unit: 'mm',
      what: 'How far a strap reaches beyond the place that it presses on.',
      source: 'common practice, no source',
    },
  ],
  bad: sample('{ x: 140, y: 68 }'),
  good: sample('{ x: 108, y: 68 }'),
  mends: 'Put the clamps where the workpiece is whole and nothing is cut, or delete one where others hold.',
  *find(context) {
    const { part, solid, shop } = context;
    if (!part.setups?.some((s) => s.hold?.clamps)) return;
    for (const s of timelineOf(part, solid).setups) {
      const seating = s.setup.hold?.clamps && seatingOf(s, part, shop);
      if (!seating || !(seating.heightMm > 0)) continue;
      const found = (s.setup.hold?.clamps ?? []).flatMap((at) => idle(seating, at, context) ?? []);
      yield* found;
      yield* crowded(seating, context);
      const one = found.length === 0 ? alone(seating, context) : undefined;
      if (one) yield one;
    }
  },
  tell: ({ report: told }) => told,
  keep: ({ seating, report: told }) => ({ setup: seating.of.index, span: told.span }),
  *mend({ setup, span }, context) {
    const { part, solid, shop, tree } = context;
    const s = timelineOf(part, solid).setups[setup];
    const seating = s && seatingOf(s, part, shop);
    if (!seating) return;
    yield* clampedElsewhere(seating, context);
    const owner = entry(at(at(at(tree.root, 'setups'), s.setup.name), 'hold'), 'clamps');
    const places = s.setup.hold?.clamps ?? [];
    const index = places.findIndex((c) => samePlace(c.span, span));
    if (owner && index >= 0 && places.length > 2) yield change('Delete this clamp', removeItem(tree, owner, index));
  },
});
