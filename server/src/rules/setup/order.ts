/** setup/order – a feature before what it stands on, or a face as zero before it is cut. */

import { isChannel } from '../../model/feature-kinds';
import { type Axis, OPPOSITE } from '../../model/model';
import { opensBore } from '../../process/drill-order';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { isFace, stateOf } from '../../process/workholding/references';
import { moveCut, takeOff } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import {
  cutsNamed,
  insertBefore,
  reordered,
  setupFor,
  setupsIn,
  setupsToJudge,
  setZero,
  standsOn,
} from '../kit/setups';

const NAME = 'setup/order';
const AXES = ['x', 'y', 'z'] as const;

function before(a: Cut, b: Cut): boolean {
  return a.setup < b.setup || (a.setup === b.setup && a.order < b.order);
}

/** Cut before what it starts on. */
function* tooEarly(s: SetupInTime, context: RuleContext): Generator<Finding> {
  for (const cut of s.cuts) {
    for (const { named, must } of cut.feature ? standsOn(cut.feature) : []) {
      const under = cutsNamed(named.name, context);
      if (under.length === 0 || under.some((u) => before(u, cut))) continue;
      const later = under[0]!;
      const there = setupsIn(context)[later.setup]!.setup.name;
      yield {
        rule: NAME,
        severity: must ? 'error' : 'warning',
        message: must
          ? `In ${s.setup.name} ${cut.name} is cut before ${named.name}, on which it is: nothing is there yet. ${named.name} is cut later${later.setup === s.index ? '' : `, in ${there}`}.`
          : `In ${s.setup.name} ${cut.name} is cut before ${named.name}, on whose floor it starts: it goes through all that is still above it. Cut ${named.name} first${later.setup === s.index ? '' : ` (it is in ${there})`}.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: later.span, message: `${named.name} is cut here` }],
        facts: { set_up: s.setup.name, waits_for: named.name, in: there },
      };
    }
  }
}

/** A slit before the bore that it opens. */
function* slitTooEarly(s: SetupInTime, context: RuleContext): Generator<Finding> {
  const { part, solid } = context;
  for (const cut of s.cuts) {
    const { feature: slit } = cut;
    if (!isChannel(slit)) continue;
    for (const bore of part.features) {
      if (bore.kind !== 'hole') continue;
      const later = cutsNamed(bore.name, context);
      if (later.length === 0 || later.some((c) => !before(cut, c)) || !opensBore(slit, bore, solid)) continue;
      const there = setupsIn(context)[later[0]!.setup]!.setup.name;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `In ${s.setup.name} ${cut.name} is cut before ${bore.name}, which it opens: the two sides spring apart or together, and what cuts ${bore.name} knocks over the gap. Cut ${bore.name} first${there === s.setup.name ? '' : ` (it is in ${there})`}, the slit last.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: later[0]!.span, message: `${bore.name} is cut here` }],
        facts: { set_up: s.setup.name, waits_for: bore.name, in: there },
      };
    }
  }
}

/** Zero from what is not cut yet. */
function* zeroTooEarly(s: SetupInTime, context: RuleContext): Generator<Finding> {
  const { part, solid } = context;
  for (const axis of AXES) {
    const zero = s.setup.zero[axis];
    if (!zero || zero.name === 'parallels') continue;
    const base = { rule: NAME, span: zero.span };
    if (!isFace(zero.name)) {
      const cuts = cutsNamed(zero.name, context);
      const [first] = cuts;
      if (!first || cuts.some((c) => c.setup < s.index)) continue;
      const here = first.setup === s.index;
      yield {
        ...base,
        severity: here ? 'warning' : 'error',
        message: here
          ? `${s.setup.name} takes ${axis} from ${zero.name}, which it cuts itself: what is cut before it has no zero. Take it from a face, or cut ${zero.name} in an earlier set-up.`
          : `${s.setup.name} takes ${axis} from ${zero.name}, which is cut only later, in ${setupsIn(context)[first.setup]!.setup.name}.`,
        of: [zero.name],
        related: [{ span: first.span, message: 'cut here' }],
        facts: { set_up: s.setup.name, axis, zero: zero.name },
      };
      continue;
    }
    const face = zero.name;
    if (stateOf(face, s, 0, part, solid) !== 'raw' || s.cuts.some((c) => c.face === face)) continue;
    const later = cutsNamed(face, context).find((c) => c.setup > s.index);
    const other = OPPOSITE[face];
    const better = stateOf(other, s, 0, part, solid);
    if (!later || better === 'raw' || better === 'sawn') continue;
    yield {
      ...base,
      severity: 'warning',
      message: `${s.setup.name} takes ${axis} from ${face} while stock is still on it; it is cut only in ${setupsIn(context)[later.setup]!.setup.name}, and what is measured from it is off by as much. ${other} is ${better === 'cut' ? 'cut' : 'as it will be'}: take it from there.`,
      of: [],
      related: [{ span: later.span, message: `${face} is cut here` }],
      facts: { set_up: s.setup.name, axis, zero: face, better: other },
    };
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

export const order: Rule = {
  name: NAME,
  severity: 'warning',
  mayBeError: true,
  summary: 'A feature before what it stands on, or a zero from what is not cut yet.',
  why: 'A hole that starts on a pocket’s floor, drilled before the pocket, is deeper by all that is above it, and its drill may not reach. A zero on stock that is milled away later is lost with it: the parts do not repeat.',
  formula:
    'What a feature starts on (`from`), lies in (`in`) or breaks the rim of comes before it: set-up by set-up, cut by cut. A slit, no wider than half of the bore that it opens to the outside, comes after it. Zero comes from a feature of an earlier set-up, and not from a face with stock on it where the opposite one is final.',
  limits: [],
  bad: sample('[bore, seat, rim]'),
  good: sample('[seat, bore, rim]'),
  mends: 'What it stands on cut before it; the feature cut last; zero taken from the opposite face.',
  *find(context) {
    for (const s of setupsToJudge(context)) {
      yield* tooEarly(s, context);
      yield* slitTooEarly(s, context);
      yield* zeroTooEarly(s, context);
    }
  },
  *mend(finding, context): Generator<Fix> {
    const s = setupFor(finding, context);
    if (!s) return;
    const { axis, better, waits_for: under } = finding.facts;
    if (axis !== undefined && better !== undefined) {
      const edits = setZero(context, s.setup, axis as Axis, String(better));
      if (edits) yield { title: `Take ${axis} from ${better}`, safe: false, edits };
    }
    const name = finding.of[0];
    if (under === undefined || name === undefined) return;
    const first = s.setup.cuts.filter((c) => c.name === under);
    if (first.length > 0) {
      const rest = s.setup.cuts.filter((c) => c.name !== under);
      const at = rest.findIndex((c) => c.name === name);
      const before = reordered(s.setup, rest.toSpliced(at, 0, ...first), context);
      if (before) yield { title: `Cut ${under} before it`, safe: false, edits: before };
    }
    const homes = [s, ...setupsIn(context).filter((o) => o.index > s.index)];
    for (const { setup } of homes) {
      const edits = moveCut(context, s.setup, setup, name);
      if (edits) yield { title: setup === s.setup ? 'Cut it last' : `Cut it in ${setup.name}`, safe: false, edits };
    }
    const there = cutsNamed(String(under), context)[0];
    const from = there && setupsIn(context)[there.setup];
    const cut = s.setup.cuts.find((c) => c.name === name);
    const taken = from && from !== s && cut && takeOff(context, from.setup, String(under));
    if (taken) {
      const edits = [insertBefore(context, cut, String(under)), ...taken];
      yield { title: `Cut ${under} in ${s.setup.name}, before it`, safe: false, edits };
    }
  },
};
