/** setup/order – a feature before what it stands on, or a face as zero before it is cut. */

import { isChannel } from '../../model/feature-kinds';
import { type Axis, type Face, OPPOSITE } from '../../model/model';
import { bordersOf } from '../../process/borders';
import { opensBore } from '../../process/drill-order';
import { excessOver } from '../../process/stock';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { isFace, stateOf } from '../../process/workholding/references';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { together } from '../kit/fields';
import { moveCut, takeOff } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { cutsNamed, insertBefore, reordered, setupsIn, setupsToJudge, setZero, standsOn } from '../kit/setups';

const AXES = ['x', 'y', 'z'] as const;

function before(a: Cut, b: Cut): boolean {
  return a.setup < b.setup || (a.setup === b.setup && a.order < b.order);
}

interface Early {
  readonly s: SetupInTime;
  readonly report: Told;
  /** A cut, and what is to be cut before it. */
  readonly waits?: { readonly name: string; readonly under: string };
  /** What zero is better taken from. */
  readonly zero?: { readonly axis: Axis; readonly better: Face };
}

/** Cut before what it starts on. */
function* tooEarly(s: SetupInTime, context: RuleContext): Generator<Early> {
  for (const cut of s.cuts) {
    for (const { named, must } of cut.feature ? standsOn(cut.feature) : []) {
      const under = cutsNamed(named.name, context);
      if (under.length === 0 || under.some((u) => before(u, cut))) continue;
      const later = under[0]!;
      const there = setupsIn(context)[later.setup]!.setup.name;
      const told: Told = {
        severity: must ? 'error' : 'warning',
        message: must
          ? `Set-up ${s.setup.name} cuts ${cut.name} before ${named.name}, which it is on. Nothing is there yet. Cut ${named.name} first${later.setup === s.index ? '' : ` (now in ${there})`}.`
          : `Set-up ${s.setup.name} cuts ${cut.name} before ${named.name}, on whose floor it starts. It then goes through all the material above. Cut ${named.name} first${later.setup === s.index ? '' : ` (now in ${there})`}.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: later.span, message: `${named.name} is cut here` }],
        facts: { set_up: s.setup.name, waits_for: named.name, in: there },
      };
      yield { s, report: told, waits: { name: cut.name, under: named.name } };
    }
  }
}

/** A slit before the bore that it opens. */
function* slitTooEarly(s: SetupInTime, context: RuleContext): Generator<Early> {
  const { part, solid } = context;
  for (const cut of s.cuts) {
    const { feature: slit } = cut;
    if (!isChannel(slit)) continue;
    for (const bore of part.features) {
      if (bore.kind !== 'hole') continue;
      const later = cutsNamed(bore.name, context);
      if (later.length === 0 || later.some((c) => !before(cut, c)) || !opensBore(slit, bore, solid)) continue;
      const there = setupsIn(context)[later[0]!.setup]!.setup.name;
      const told = {
        message: `Set-up ${s.setup.name} cuts ${cut.name} before ${bore.name}, which it opens. The two sides then move, and the tool in ${bore.name} hits the gap. Cut ${bore.name} first${there === s.setup.name ? '' : ` (now in ${there})`}, the slit last.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: later[0]!.span, message: `${bore.name} is cut here` }],
        facts: { set_up: s.setup.name, waits_for: bore.name, in: there },
      };
      yield { s, report: told, waits: { name: cut.name, under: bore.name } };
    }
  }
}

/** An edge broken, or a slope cut, while stock still stands over a face that it is drawn from. */
function* edgeTooEarly(s: SetupInTime, context: RuleContext): Generator<Early> {
  const { solid, length } = context;
  for (const cut of s.cuts) {
    const { feature } = cut;
    if (!feature || !s.up || cut.removes.length === 0) continue;
    for (const face of bordersOf(feature, s.up)) {
      const later = cutsNamed(face, context)[0];
      if (!later || !before(cut, later)) continue;
      const over = excessOver(face, cut.before.body, solid.body);
      const there = setupsIn(context)[later.setup]!.setup.name;
      const told = {
        message: `Set-up ${s.setup.name} cuts ${cut.name} before ${face}, which still has ${length(over)} of stock. The cutter goes through that first. Cut ${face} first${later.setup === s.index ? '' : ` (it is in ${there})`}.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: later.span, message: `${face} is cut here` }],
        facts: { set_up: s.setup.name, waits_for: face, in: there, over_mm: over },
      };
      yield { s, report: told, waits: { name: cut.name, under: face } };
      break;
    }
  }
}

/** Zero from what is not cut yet. */
function* zeroTooEarly(s: SetupInTime, context: RuleContext): Generator<Early> {
  const { part, solid } = context;
  for (const axis of AXES) {
    const zero = s.setup.zero[axis];
    if (!zero || zero.name === 'parallels') continue;
    if (!isFace(zero.name)) {
      const cuts = cutsNamed(zero.name, context);
      const [first] = cuts;
      if (!first || cuts.some((c) => c.setup < s.index)) continue;
      const here = first.setup === s.index;
      const told: Told = {
        span: zero.span,
        severity: here ? 'warning' : 'error',
        message: here
          ? `Set-up ${s.setup.name} sets ${axis} zero on ${zero.name}, which it cuts itself. What is cut before it has no zero. Set it on a face, or cut ${zero.name} in an earlier set-up.`
          : `Set-up ${s.setup.name} sets ${axis} zero on ${zero.name}, which is cut only later, in ${setupsIn(context)[first.setup]!.setup.name}. Set it on a face, or cut ${zero.name} before.`,
        of: [zero.name],
        related: [{ span: first.span, message: 'cut here' }],
        facts: { set_up: s.setup.name, axis, zero: zero.name },
      };
      yield { s, report: told };
      continue;
    }
    const face = zero.name;
    if (stateOf(face, s, 0, part, solid) !== 'raw' || s.cuts.some((c) => c.face === face)) continue;
    const later = cutsNamed(face, context).find((c) => c.setup > s.index);
    const other = OPPOSITE[face];
    const better = stateOf(other, s, 0, part, solid);
    if (!later || better === 'raw' || better === 'sawn') continue;
    const told = {
      span: zero.span,
      message: `Set-up ${s.setup.name} sets ${axis} zero on ${face} while stock is still on it. It is cut only in ${setupsIn(context)[later.setup]!.setup.name}; until then all is off by as much. Set it on ${other}, which is ${better === 'cut' ? 'cut' : 'final'}.`,
      of: [],
      related: [{ span: later.span, message: `${face} is cut here` }],
      facts: { set_up: s.setup.name, axis, zero: face, better: other },
    };
    yield { s, report: told, zero: { axis, better: other } };
  }
}

const sample = (cuts: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  bore: { kind: hole, face: top, from: seat, at: { x: center, y: center }, diameter: 8, depth: 10 }
  rim: { kind: chamfer, edges: [{ rim: bore }], size: 0.5 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts: ${cuts}
`;

export const order: Rule = defineRule({
  name: 'setup/order',
  severity: 'warning',
  mayBeError: true,
  summary: 'A feature is cut before what it is on, or zero is on what is not cut yet.',
  why: 'A hole that starts on a pocket’s floor is deeper when it is drilled before the pocket. Its drill may not reach. A zero on stock that is cut away later is lost with it: the parts do not repeat.',
  formula:
    'What a feature starts on (`from`), is in (`in`) or breaks the rim of comes before it. A slit that opens a bore to the outside and is at most half as wide comes after it. Edges and slopes come after the faces that they are drawn from. Zero is on a feature of an earlier set-up. It is not on a face with stock left where the opposite face is final.',
  bounds: 'Geometry and the text: what is built on comes first. The half of the bore’s width is a rule of thumb.',
  limits: [],
  bad: sample('[bore, seat, rim]'),
  good: sample('[seat, bore, rim]'),
  mends: 'Cut first what it is on, cut the feature last, or set zero on the opposite face.',
  *find(context) {
    for (const s of setupsToJudge(context)) {
      yield* tooEarly(s, context);
      yield* slitTooEarly(s, context);
      yield* edgeTooEarly(s, context);
      yield* zeroTooEarly(s, context);
    }
  },
  tell: ({ report: told }) => told,
  keep: ({ s, waits, zero }) => ({ setup: s.index, waits, zero }),
  *mend({ setup, waits, zero }, context): Generator<Fix | undefined> {
    const s = setupsIn(context)[setup];
    if (s && zero)
      yield change(`Set ${zero.axis} zero on ${zero.better}`, setZero(context, s.setup, zero.axis, zero.better));
    if (s && waits) yield* inOrder(waits.name, waits.under, s, context);
  },
});

/** What it stands on cut before it in the same set-up, or itself cut later. */
function* inOrder(name: string, under: string, s: SetupInTime, context: RuleContext): Generator<Fix | undefined> {
  const { setup, index } = s;
  const first = setup.cuts.filter((c) => c.name === under);
  if (first.length > 0) {
    const rest = setup.cuts.filter((c) => c.name !== under);
    const at = rest.findIndex((c) => c.name === name);
    yield change(`Cut ${under} before it`, reordered(setup, rest.toSpliced(at, 0, ...first), context));
  }
  for (const { setup: to } of setupsIn(context).slice(index))
    yield change(to === setup ? 'Cut it last' : `Cut it in ${to.name}`, moveCut(context, setup, to, name));
  const there = cutsNamed(under, context)[0];
  const from = there && setupsIn(context)[there.setup];
  const cut = setup.cuts.find((c) => c.name === name);
  if (!from || from === s || !cut) return;
  const edits = together(insertBefore(context, cut, under), takeOff(context, from.setup, under));
  yield change(`Cut ${under} in ${setup.name}, before it`, edits);
}
