/** tol/as-set-up – a toleranced dimension that the zeros and cuts between its ends do not hold. */

import { featureNameOf } from '../../model/member-name';
import { FACE_AXIS, type Setup } from '../../model/model';
import { sawnFaces } from '../../model/sawn-off';
import {
  addingOf,
  budgetMm,
  type Chained,
  chainsOf,
  ERRORS,
  type Link,
  likelyMm,
  worstMm,
} from '../../process/stackup';
import { dimensioned } from '../../process/stackup/drawn';
import { machineOf } from '../../process/workholding/forces';
import { isFace } from '../../process/workholding/references';
import { setText } from '../../text/edit';
import { writeLength } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setupMap } from '../kit/holds';
import { list } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { cutsNamed, saysOfTolerance, setZero } from '../kit/setups';
import { linkFacts } from './link-facts';
import { fromFace } from './redatum';

interface Loose extends Chained {
  readonly asSetUp: readonly Link[];
}
type Kept = Pick<Chained['of'], 'ends' | 'axis' | 'given' | 'text' | 'span'> & { readonly budgetMm: number };

function* loose(context: RuleContext): Generator<Loose> {
  const { part, solid, shop } = context;
  if (!part.setups) return;
  const adding = addingOf(shop);
  for (const chained of chainsOf(part, solid, shop)) {
    const { asSetUp, of } = chained;
    if (!asSetUp || budgetMm(asSetUp, adding) <= of.allowedMm + ROUNDING) continue;
    // What the process alone does not hold is told by tol/process, of the same grade.
    if (asSetUp.some((l) => l.by === 'process' && l.halfMm > of.allowedMm + ROUNDING)) continue;
    // The bar’s own size, which stock/as-supplied tells of.
    if (asSetUp.length === 1 && asSetUp[0]!.by === 'bar' && !isSawn(of.ends, context)) continue;
    yield { ...chained, asSetUp };
  }
}

function isSawn(ends: readonly string[], { part }: RuleContext): boolean {
  return sawnFaces(part).some((f) => ends.includes(f.name));
}

function tell({ of, asSetUp }: Loose, { part, length, shop }: RuleContext): Told {
  const adding = addingOf(shop);
  const [worst, likely] = [worstMm(asSetUp), likelyMm(asSetUp)];
  const found = asSetUp.filter((l) => l.by === 'zero' || l.by === 'bar');
  const shownLinks = asSetUp.toSorted((a, b) => b.halfMm - a.halfMm).slice(0, 1);
  const heaviest = asSetUp.reduce((most, l) => (l.halfMm > most.halfMm ? l : most));
  const would =
    heaviest.by === 'bar'
      ? asSetUp.length === 1
        ? 'Cut one end, measured from the other, or allow more.'
        : `Set zero on ${list(of.ends, 'or')}, or cut both ends in one set-up.`
      : found.length > 1
        ? `Cut both ends in one set-up, or set zero on ${list(of.ends, 'or')}.`
        : found.length === 1
          ? 'Locate that zero by a finer method, cut both ends in one set-up, or allow more.'
          : 'Allow more: this is what the cuts hold.';
  return {
    severity: budgetMm(found, adding) > of.allowedMm + ROUNDING ? 'warning' : 'hint',
    message: `The distance ${of.ends[0]} to ${of.ends[1]} (${of.axis}) is ±${length(of.allowedMm)}. As set up it is ±${length(likely)} likely, ±${length(worst)} at worst${adding === 'worst' ? ', which counts here' : ''}. ${asSetUp.length > 1 ? 'Most' : 'All'} is ${list(shownLinks.map((l) => `${l.what} ±${length(l.halfMm)}`))}. ${would}`,
    of: of.ends.filter((n) => part.featureByName.has(featureNameOf(n))),
    span: of.span,
    facts: {
      axis: of.axis,
      from: of.ends[0],
      to: of.ends[1],
      allowed_mm: of.allowedMm,
      likely_mm: likely,
      worst_mm: worst,
      judged_by: adding,
      links: asSetUp.length,
      ...linkFacts(asSetUp),
    },
    ...(of.given === 'distance' && { says: [saysOfTolerance(of.span)] }),
  };
}

const sample = (zero: string) => `part: guide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar }
features:
  pin: { kind: hole, face: top, at: { left: 20 ±0.06, y: center }, diameter: 6, depth: through }
setups:
  only:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: right }
    zero: { x: ${zero}, y: back, z: parallels }
    method: edge-finder
    cuts: [pin]
`;

export const asSetUp: Rule = defineRule({
  name: 'tol/as-set-up',
  severity: 'warning',
  summary: 'The zeros and cuts between the ends of a dimension do not hold its tolerance.',
  why: 'A dimension holds where one set-up cuts both of its ends, or zero is on its start. Otherwise the errors of all steps between add up. These are how zero was set again, what it was set on, and the bar’s own size.',
  formula:
    'The steps are added from each end down until both meet. A cut adds ± `cut`, a drilled or reamed hole ± `drilled` too (`unspotted` where nothing in the shop spots it). Zero adds ± how well it is set: `zero-error` of the machine by the `method`, else with an edge finder. Each piece of a batch against the stop adds `stop`. Parallels and fixed jaw add `seat`. Then comes what zero was set on, and so on. What both ends share drops out. Likely is the root of the sum of squares, at worst the sum. Which of the two counts is set by `worst-case`. Floors, steps and the body have what the process holds by the grade of tol/process. Roughness beyond that grade is added. A warning where setting zero and the bar alone are too much, a hint where the cuts make it so. Bars are as in stock/as-supplied. Where an end, a zero or a bar is not known nothing is reported.',
  limits: ERRORS,
  bad: sample('right'),
  good: sample('left'),
  mends:
    'Dimension the place from the face with zero, or set zero on its start. Or cut both ends in one set-up. Or use a finer method, or a tolerance as wide as the chain likely is.',
  // A distance between what two set-ups cut is told of there.
  under: ['setup/across'],
  find: loose,
  tell,
  keep({ of: { ends, axis, given, text, span }, asSetUp }, { shop }): Kept {
    return { ends, axis, given, text, span, budgetMm: budgetMm(asSetUp, addingOf(shop)) };
  },
  *mend(kept, context) {
    yield* byZero(kept, context);
    yield byDatum(kept, context);
    yield* together(kept, context);
    yield byMethod(kept, context);
    yield byAllowing(kept, context);
  },
});

function setupOf(name: string, context: RuleContext): Setup | undefined {
  const cut = cutsNamed(featureNameOf(name), context).at(-1);
  return cut && context.part.setups?.[cut.setup];
}

/** Zero of the one end's set-up from the other end, where that is a face. */
function* byZero(of: Kept, context: RuleContext): Generator<Fix | undefined> {
  for (const [from, to] of [of.ends, [...of.ends].reverse()] as [string, string][]) {
    const setup = setupOf(to, context);
    if (!setup || !isFace(from) || setup.zero[of.axis]?.name === from) continue;
    yield change(`Set ${of.axis} zero on ${from} in ${setup.name}`, setZero(context, setup, of.axis, from));
  }
}

/** The place from the face that its set-up's zero is at. */
function byDatum(of: Kept, context: RuleContext): Fix | undefined {
  const { part } = context;
  if (of.given !== 'at') return undefined;
  const name = of.ends[1];
  const zero = setupOf(name, context)?.zero[of.axis]?.name;
  const now = dimensioned(name, of.axis, part);
  if (!isFace(zero) || FACE_AXIS[zero].axis !== of.axis || !now) return undefined;
  return change(`Dimension ${name} from ${zero}, where zero is, at the same place`, fromFace(now, zero, part));
}

/** Both ends cut in one set-up. */
function* together(of: Kept, context: RuleContext): Generator<Fix | undefined> {
  const [a, b] = of.ends.map((name) => setupOf(name, context));
  if (!a || !b || a === b) return;
  for (const [name, from, to] of [[of.ends[1], b, a] as const, [of.ends[0], a, b] as const]) {
    yield change(`Cut ${name} in ${to.name}`, moveCut(context, from, to, featureNameOf(name)));
  }
}

function byMethod(of: Kept, context: RuleContext): Fix | undefined {
  const { shop, tree } = context;
  const setups = [...new Set(of.ends.map((name) => setupOf(name, context)))].filter((s) => s !== undefined);
  const edits = setups.flatMap((setup) => {
    const ways = Object.entries(machineOf(setup, shop)?.zeroErrorMm ?? {}).filter(([way]) => way !== 'stop');
    const finest = ways.sort((a, b) => a[1] - b[1])[0]?.[0];
    const map = setupMap(context, setup);
    return finest && map && setup.method?.name !== finest ? setText(tree, map, 'method', finest) : [];
  });
  return change('Locate zero by the finest method in the shop', edits);
}

/** The tolerance as wide as the chain likely is; ± only, other limits say which side matters. */
function byAllowing(of: Kept, { part, shop }: RuleContext): Fix | undefined {
  const written = /±\s*[\d.]+\s*$/.exec(of.text);
  if (!written) return undefined;
  const wide = `±${writeLength(of.budgetMm, part.units, 'up')}`;
  const newText = `${of.text.slice(0, written.index)}${wide}`;
  const what = addingOf(shop) === 'worst' ? 'the worst case' : 'the likely case';
  return change(`Allow ${wide}, ${what} as set up`, { span: of.span, newText });
}
