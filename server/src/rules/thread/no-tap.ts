/** thread/no-tap – the shop has no tap for this thread. */

import type { Hole } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { tapsFor, tapsOf } from '../../process/cutters';
import { threadMillsIn, threadMillsOf, threadMillWanted, unfitMillOf } from '../../process/thread-milling';
import { formHoleMm } from '../../tables/form-taps';
import { formOf, type Thread } from '../../tables/thread-form';
import { findThread, usualBeside } from '../../tables/thread-names';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { removeField, together } from '../kit/fields';
import { list, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { tapped } from './tapped-holes';

/** Taps on hand of the same diameter, form and hand, and another pitch. Never another size: that is another screw. */
function ofSameDiameter(thread: Thread, { shop }: RuleContext): readonly Thread[] {
  const had = tapsOf(shop).flatMap((t) => findThread(t.thread) ?? []);
  const near = (t: Thread) =>
    Math.abs(t.diameterMm - thread.diameterMm) <= 0.001 &&
    t.leftHand === thread.leftHand &&
    formOf(t) === formOf(thread);
  return [...new Set(had)].filter(near).sort((a, b) => b.pitchMm - a.pitchMm);
}

/** `M11` is a thread, but nobody has a screw for it: the sizes beside it are told. */
function thirdChoice(thread: Thread): string {
  if (!thread.rare) return '';
  const beside = usualBeside(thread).map((t) => t.designation);
  return `. It is third choice in ISO 261; usual are ${list(beside, 'and')}`;
}

/** `an M5 tap`, `a G1/4 tap`, as it is said. */
function aTap({ designation }: Thread): string {
  return `${/^(?:[MRE]|8|11\b)/.test(designation) ? 'an' : 'a'} ${designation} tap`;
}

/** What else would cut a thread that is seldom tapped, and why what is there does not. */
function orMilled(hole: Hole, thread: Thread, shop: Shop): readonly [or: string, why: string] {
  const unfit = unfitMillOf(hole, shop);
  const special = formOf(thread).name !== '60°';
  return [
    special ? ` or a ${threadMillWanted(thread)}` : '',
    unfit ? ` Thread mill ${unfit.tool.name} does not cut it: ${unfit.why}.` : '',
  ];
}

const BAD = `part: clamp
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 30 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M10x0.75
    thread-depth: 18
    depth: through
`;

export const noTap: Rule = defineRule({
  name: 'thread/no-tap',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The shop has no tap for a thread.',
  why: 'A tap makes one thread only. Borrow or buy a missing one before the day at the machine. Another thread is another screw, and changes what the part fits.',
  formula:
    'The taps of the shop file by thread, however each is written (`M5`, `M5x0.8`). A thread mill of its pitch and flanks does too. Flanks are 60°, of pipe threads 55°, of trapezoidal ones 30°; NPT and Rc need a cone. It must be 0.2 mm thinner than the hole, and a control must move the axes. In a trapezoidal thread it must be thin enough that its teeth leave the pitch diameter within 7H. On a cone its teeth must be as long as the thread. A warning where the shop lists no taps and no thread mills at all, or is the built-in one.',
  bounds: 'The taps in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['M10x0.75', 'M10']),
  mends: 'Use a thread of the same diameter that the shop has a tap for: the screw changes with it.',
  *find(context) {
    for (const { hole, thread, taps } of tapped(context)) {
      if (taps.length > 0 || threadMillsOf(hole, context.shop).length > 0) continue;
      const near = ofSameDiameter(thread, context).map((t) => t.designation);
      // A tap that forms its thread breaks in a hole that was drilled for one that cuts.
      const forms = tapsFor(context.shop, thread.designation).some((t) => t.forming);
      yield { hole, thread, near, formMm: forms ? Number(formHoleMm(thread).toFixed(2)) : undefined };
    }
  },
  tell({ hole, thread, near, formMm }, { shop, length, part }) {
    const any = tapsOf(shop).length + threadMillsIn(shop).length > 0;
    const [orMill, why] = orMilled(hole, thread, shop);
    const other = near.length > 0 ? `, or change the screw to ${list(near, 'or')}` : thirdChoice(thread);
    return {
      severity: any && !shop.builtIn ? 'error' : 'warning',
      message: any
        ? formMm !== undefined
          ? `The ${thread.designation} tap in this shop is a form tap and breaks in a hole of ${length(hole.diameter.mm)}. Drill ${length(formMm)} for it, or get a cutting tap.`
          : `${subjectOf(part, hole.name)} needs ${aTap(thread)}${orMill}; the ${shop.builtIn ? 'built-in ' : ''}shop has none. Borrow or buy one (tap drill ${length(thread.tapDrillMm)}) and add it to the shop file${other}.${why}`
        : `${subjectOf(part, hole.name)} needs ${aTap(thread)}; the shop file lists no taps. Add the taps there are, or borrow or buy one.`,
      of: [hole.name],
      span: hole.thread!.span,
      facts: {
        thread: thread.designation,
        tap_drill_mm: thread.tapDrillMm,
        ...Object.fromEntries(near.map((n, i) => [`nearest_${i + 1}`, n])),
      },
    };
  },
  keep: ({ hole, near, formMm }) => ({ of: hole.name, near, formMm }),
  *mend({ of, near, formMm }, { part, tree }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole' || !hole.thread) return;
    if (formMm !== undefined) {
      const wide = setLength(hole.diameter, formMm, part);
      yield change(`Drill it for the form tap, ${wide?.newText}`, wide);
      return;
    }
    for (const thread of near) {
      const text = { span: hole.thread.span, newText: thread };
      yield change(
        `Make it ${thread}, another screw`,
        hole.diameterGiven ? together(text, removeField(tree, of, 'diameter')) : text,
      );
    }
  },
});
