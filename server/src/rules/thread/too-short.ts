/** thread/too-short – too few turns for the material. */

import type { Hole } from '../../model/model';
import { boreOf } from '../../process/tapping';
import { formOf, type Thread } from '../../tables/thread-form';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { ENGAGEMENT_LIMITS, holding, neededMm, pullOf } from '../kit/engagement';
import { setField, together } from '../kit/fields';
import { memberPhrase, roundDown, roundUp, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { lengthSpan, measured } from './tapped-holes';

/** Metric screws that every drawer holds, mm. */
const USUAL: readonly number[] = [2, 2.5, 3, 4, 5, 6, 8, 10, 12];

const asked = (hole: Hole, thread: Thread, lengthMm: number, { part, shop, limit }: RuleContext) => ({
  thread,
  boreMm: boreOf(hole, shop),
  lengthMm,
  part,
  screwMPa: limit('screw'),
});

/** What the thread's own standard asks for, where it does; else what a screw needs. */
const needOf: typeof neededMm = (what, material, limit) => what.thread.usefulMm ?? neededMm(what, material, limit);

const BAD = `part: flange
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 5 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    depth: through
`;

export const tooShort: Rule = defineRule({
  name: 'thread/too-short',
  severity: 'hint',
  summary: 'A thread is too short to hold its screw in this material.',
  why: 'A soft material strips before the screw breaks, unless enough turns share the load. That is about one diameter in steel, one and a half in aluminium, two in plastics. Where the load is small a shorter thread is fine.',
  formula:
    'The length of thread in material over its diameter, against the rule of thumb for the material. Also that length against `margin` × the length of equal strength. At equal strength the thread shears off just as the screw breaks. That length is screw strength × stress area / (½ material strength × shear area per mm). Stress area: π/4 (D − 0.9382 P)². Shear area by smallest material: π D (0.5 + 0.577 (D − E) / P). D is the least major diameter of a 6g screw (2A). E is the greatest pitch diameter of a 6H hole (2B). The screw’s own thread, along the bore, counts where it is weaker. A hint only where the thread is under both. A pipe thread needs the useful length of its standard. That is ISO 7-1, ASME B1.20.1, or for ISO 228 the ports of DIN 3852-2. The rule of thumb counts alone where the shop sets its own, or the material’s strength is not known.',
  limits: [
    {
      name: 'screw',
      value: 800,
      unit: 'mpa',
      what: 'Tensile strength of the screw that the thread must hold as well as.',
      source: 'ISO 898-1, property class 8.8',
    },
    ...ENGAGEMENT_LIMITS,
  ],
  bad: BAD,
  good: edited(BAD, ['z: 5 }', 'z: 8 }']),
  mends: 'Make the thread longer where the hole allows it; in a through hole use a thinner screw.',
  *find(context) {
    const material = holding(context.part);
    if (!material) return;
    for (const found of measured(context)) {
      const { hole, thread, lengthMm, ratio } = found;
      // A pipe thread holds a pressure, a trapezoidal one a drive: the rules for screws say nothing of them.
      if (formOf(thread).name !== '60°' && thread.usefulMm === undefined) continue;
      const least = needOf(asked(hole, thread, lengthMm, context), material, context.limit) / thread.diameterMm;
      if (ratio < least - SAME) yield { ...found, material, least };
    }
  },
  tell({ hole, thread, lengthMm, ratio, material, least }, context) {
    const { length, limit, part, about } = context;
    const fits = Math.floor((lengthMm / least) * 10 + SAME) / 10;
    const pull = pullOf(asked(hole, thread, lengthMm, context));
    const starts = `The ${thread.designation} thread of ${memberPhrase(part, hole.name)} is ${about(lengthMm)} long`;
    const insert = thread.screw ? 'more material' : 'more material or an insert';
    return {
      message: thread.usefulMm
        ? `${starts}. Its fitting screws in ${about(thread.usefulMm)} (${thread.source.split(/[;:]/)[0]}). Make the thread that long, or use a smaller one.`
        : `${starts}. In ${part.material!.name} it needs ${about(least * thread.diameterMm)} to hold the screw${least === limit(material) ? ' (rule of thumb)' : ' (by its strength)'}${pull ? `. It strips at ${trimmed(pull.stripsN / 1000, 1)} kN, the screw breaks at ${trimmed(pull.breaksN / 1000, 1)} kN` : ''}. Use a thinner screw (${length(fits)}), ${insert}.`,
      has: about(lengthMm),
      needs: about(least * thread.diameterMm),
      of: [hole.name],
      span: lengthSpan(hole),
      facts: {
        length_mm: lengthMm,
        diameter_mm: thread.diameterMm,
        ratio,
        limit_ratio: least,
        needed_mm: least * thread.diameterMm,
        screw_mm: fits,
        ...(pull && {
          equal_mm: pull.equalMm,
          strips_kn: pull.stripsN / 1000,
          breaks_kn: pull.breaksN / 1000,
          screw_mpa: limit('screw'),
        }),
      },
    };
  },
  keep: ({ hole, material }) => ({ of: hole.name, material }),
  *mend({ of, material }, context) {
    const { part, length, tree, write } = context;
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole' || !hole.thread?.spec) return;
    const { thread, threadDepth, depth } = hole;
    const spec = hole.thread.spec;
    const needMm = needOf(asked(hole, spec, 0, context), material, context.limit);
    const need = roundUp(needMm, part.units);
    const written = threadDepth !== undefined && !threadDepth.from;
    if (written) yield change(`Make the thread ${length(need)} deep`, setLength(threadDepth, need, part));
    const deep = roundUp(need + 4 * spec.pitchMm, part.units);
    if (!depth.through && depth.length && deep > depth.mm) {
      const edits = together(setLength(depth.length, deep, part), setField(tree, of, 'thread-depth', write(need)));
      yield change(`Drill it ${length(deep)} and thread it ${length(need)} deep`, edits);
    }
    const finer = roundDown((depth.mm / needMm) * spec.diameterMm, part.units);
    const coarse = USUAL.filter((d) => d <= finer && d < spec.diameterMm).at(-1);
    if (coarse && spec.series === 'coarse' && !hole.diameterGiven && !written)
      yield change(`Use M${coarse}`, { span: thread.span, newText: `M${coarse}` });
  },
});
