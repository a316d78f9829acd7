/** setup/craft – an order that can be made, and that a machinist would not take. */

import { heed } from '../../effort';
import type { Box, Solid } from '../../geometry/types';
import { boxesNear } from '../../geometry/vector';
import { memo } from '../../memo';
import { breaksEdges, isChannel } from '../../model/feature-kinds';
import type { Feature } from '../../model/model';
import { approachesOf } from '../../process/approach';
import { drilledInMm, isOfOneScrew, whyFirst } from '../../process/craft';
import { opensBore } from '../../process/drill-order';
import type { Cut } from '../../process/stock/types';
import { at } from '../../text/tree';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { documentSpan } from '../kit/edits';
import { moveCut } from '../kit/moves';
import type { Rule, RuleContext, SpanEdit } from '../kit/rule';
import { cutsNamed, reordered, setupsIn, setupsToJudge } from '../kit/setups';

/** A slit beside a bore opens it from so near. */
const NEAR_MM = 0.1;

interface Against {
  readonly report: Told;
  /** What is to be cut before, or beside, which. */
  readonly first: string;
  readonly waits: string;
  readonly setup: number;
  readonly as: 'before' | 'beside';
}

const WHY = {
  gap: 'The drill goes through much that is cut away later, and its thin walls bend',
  burr: 'A burr is left in the finished bore',
  slit: 'The two sides then move, and the drill hits the gap',
} as const;

function* against(context: RuleContext): Generator<Against> {
  const { part } = context;
  const cutsOf = new Map<string, Cut[]>();
  for (const c of setupsIn(context).flatMap((s) => s.cuts)) cutsOf.set(c.name, [...(cutsOf.get(c.name) ?? []), c]);
  for (const s of setupsToJudge(context))
    for (const cut of s.cuts) {
      if (!cut.feature || breaksEdges(cut.feature)) continue;
      heed(part.features.length);
      for (const other of part.features) {
        const pair = { cut, feature: cut.feature, other, cuts: cutsOf.get(other.name) ?? [] };
        const early = tooEarly(pair, context) ?? apart(pair, context);
        if (early) yield early;
      }
    }
}

/** A cut, another feature, and where that is cut. */
interface Pair {
  readonly cut: Cut;
  readonly feature: Feature;
  readonly other: Feature;
  readonly cuts: readonly Cut[];
}

function boxOfBoth(a: Box, b: Box): Box {
  const each = (of: (p: number, q: number) => number, end: 'min' | 'max') =>
    [0, 1, 2].map((i) => of(a[end][i]!, b[end][i]!)) as unknown as Box['min'];
  return { min: each(Math.min, 'min'), max: each(Math.max, 'max') };
}

/** Far apart, as most are, they are nothing to each other. */
const reachOf = memo((feature: Feature, solid: Solid): Box | undefined => {
  const all = solid.voidsOf(feature.name).map((v) => v.bounds);
  const [first, ...others] = all;
  return first && others.reduce(boxOfBoth, first);
});

/** Cut before what had rather be there. */
function tooEarly({ cut, feature, other, cuts: later }: Pair, context: RuleContext): Against | undefined {
  const { solid, limit } = context;
  const isAfter = (c: Cut) => c.setup > cut.setup || (c.setup === cut.setup && c.order > cut.order);
  if (breaksEdges(other) || later.length === 0 || !later.every(isAfter)) return undefined;
  const [own, theirs] = [reachOf(feature, solid), reachOf(other, solid)];
  if (!own || !theirs || !boxesNear(own, theirs, NEAR_MM)) return undefined;
  const why = whyFirst(other, feature, solid);
  // A slit that opens a bore is told by setup/order; what is drilled little more for it is no matter.
  if (!why || (why === 'slit' && other.kind === 'hole' && opens(feature, other, context))) return undefined;
  if (
    why === 'gap' &&
    feature.kind === 'hole' &&
    drilledInMm(other, feature, solid) < limit('drilled') * feature.diameter.mm
  )
    return undefined;
  const setups = setupsIn(context);
  const there = setups[later[0]!.setup]!.setup.name;
  const here = setups[cut.setup]!.setup.name;
  const told = {
    message: `Set-up ${here} cuts ${feature.name} before ${other.name}, which crosses it. ${WHY[why]}. Cut ${other.name} first${there === here ? '' : ` (now in ${there})`}.`,
    of: [feature.name],
    span: cut.span,
    related: [{ span: later[0]!.span, message: `${other.name} is cut here` }],
    facts: { set_up: here, waits_for: other.name, in: there, why },
  };
  return { report: told, first: other.name, waits: feature.name, setup: cut.setup, as: 'before' };
}

function opens(slit: Feature, bore: Extract<Feature, { kind: 'hole' }>, { solid }: RuleContext): boolean {
  return isChannel(slit) && opensBore(slit, bore, solid);
}

/** A hole of the same screw, cut from the other side though it could be cut from this one. */
function apart({ cut, feature, other, cuts }: Pair, context: RuleContext): Against | undefined {
  const { part, solid } = context;
  const setups = setupsIn(context);
  const up = setups[cut.setup]!.up;
  const [first] = cuts;
  if (!up || cuts.length !== 1 || !first || first.setup >= cut.setup) return undefined;
  const from = setups[first.setup]!;
  if (!from.up || from.up === up || !isOfOneScrew(feature, other, solid)) return undefined;
  if (!approachesOf(other, part, solid).includes(up)) return undefined;
  const here = setups[cut.setup]!.setup.name;
  const told = {
    message: `Set-up ${here} cuts ${feature.name} with ${up} up, and ${other.name} on the same axis was cut with ${from.up} up in ${from.setup.name}. They are in line only as well as zero is set again. Cut both in ${here}.`,
    of: [other.name],
    span: first.span,
    related: [{ span: cut.span, message: `${feature.name} is cut here` }],
    facts: { set_up: from.setup.name, in: here, up, was_up: from.up },
  };
  return { report: told, first: other.name, waits: feature.name, setup: cut.setup, as: 'beside' };
}

/** Each set-up where the other stood. */
function exchanged(a: string, b: string, { tree }: RuleContext): readonly SpanEdit[] | undefined {
  const setups = at(tree.root, 'setups');
  if (setups?.type !== 'map') return undefined;
  const places = [a, b].flatMap((name) => {
    const own = setups.entries.find((e) => String(e.key.value) === name);
    if (!own?.value) return [];
    const { start } = tree.locate(own.key.span);
    const end = start + tree.text.slice(start, tree.locate(own.value.span).end).trimEnd().length;
    return [{ start, end, text: tree.text.slice(start, end) }];
  });
  const [one, other] = places;
  if (!one || !other) return undefined;
  return [
    { span: documentSpan(one.start, one.end), newText: other.text },
    { span: documentSpan(other.start, other.end), newText: one.text },
  ];
}

const sample = (cuts: string) => `part: fork
material: aluminium-6061-t6
body: { x: 50, y: 40, z: 20 }
features:
  gap: { kind: slot, face: top, ends: [{ x: center, y: -10 }, { x: center, y: 50 }], width: 24, depth: 14 }
  pin: { kind: hole, face: left, at: { y: center, z: 15 }, diameter: 6, depth: through }
setups:
${cuts}`;
const first = `{ up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 4, parallels: 28 }, cuts: [gap] }`;
const second = `{ up: left, hold: { vise: mill-vise-100, jaws: [front, back], grip: 14, parallels: 18 }, cuts: [pin] }`;

export const craft: Rule = defineRule({
  name: 'setup/craft',
  severity: 'hint',
  summary: 'A machinist would cut these features in another order, or from one side.',
  why: 'Either order can be made. One leaves a burr in a finished bore, or pushes a thin wall in. Holes of one screw that are drilled from two sides are not in line.',
  formula:
    'A gap comes before a hole that crosses it, where more than `drilled` diameters are common to both. What crosses a bore of a fit comes before the bore. A slit comes after the screw that closes it, where it is no wider than the screw’s hole. Holes on one axis are cut with the same face up where that face reaches both.',
  limits: [
    {
      name: 'drilled',
      value: 1,
      unit: 'ratio',
      what: 'So many diameters of a hole may be drilled through what is later the gap.',
      source: 'common practice, no source',
    },
  ],
  bad: sample(`  first: ${second}\n  second: ${first}\n`),
  good: sample(`  first: ${first}\n  second: ${second}\n`),
  mends: 'Exchange the two set-ups, or cut both in one.',
  find: against,
  tell: ({ report: told }) => told,
  keep: ({ first, waits, setup, as }) => ({ first, waits, setup, as }),
  *mend({ first, waits, setup, as }, context) {
    const setups = setupsIn(context);
    const own = setups[setup]?.setup;
    const there = cutsNamed(first, context)[0];
    const from = there && setups[there.setup]?.setup;
    if (!own || !from) return;
    if (as === 'beside') {
      yield change(`Cut it in ${own.name}`, moveCut(context, from, own, first));
      return;
    }
    if (from === own) {
      const entry = own.cuts.filter((c) => c.name === first);
      const rest = own.cuts.filter((c) => c.name !== first);
      const at = rest.findIndex((c) => c.name === waits);
      yield change(`Cut ${first} before it`, reordered(own, rest.toSpliced(at, 0, ...entry), context));
      return;
    }
    yield change(`Make ${from.name} before ${own.name}`, exchanged(own.name, from.name, context));
    for (const to of setups.slice(there.setup))
      yield change(`Cut ${waits} in ${to.setup.name}`, moveCut(context, own, to.setup, waits));
  },
});
