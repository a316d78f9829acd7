/** corner/mixed – many different inside radii in one part. */
import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { together } from '../kit/fields';
import { count, lengths, list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import {
  choiceOf,
  cornersByFeature,
  isEndOfGap,
  type Judged,
  kindsOf,
  millsThatReach,
  radiusSpan,
  rollingRadius,
  setRadius,
  writtenIn,
} from './inside-corners';

const BAD = `part: rack-tray
material: aluminium-6061-t6
body: { x: 120, y: 40, z: 16 }
features:
  first: { kind: pocket, face: top, at: { x: 16, y: 20 }, size: { x: 20, y: 26 }, corner-radius: 1.7, depth: 4 }
  second: { kind: pocket, face: top, at: { x: 45, y: 20 }, size: { x: 20, y: 26 }, corner-radius: 2.3, depth: 4 }
  third: { kind: pocket, face: top, at: { x: 74, y: 20 }, size: { x: 20, y: 26 }, corner-radius: 3.4, depth: 4 }
  fourth: { kind: pocket, face: top, at: { x: 103, y: 20 }, size: { x: 20, y: 26 }, corner-radius: 4.5, depth: 4 }
`;

interface Use {
  readonly feature: Feature;
  readonly judged: readonly Judged[];
  readonly mill: Mill;
}

/** The cutter each kind of corner would be finished with. */
function uses(context: RuleContext): readonly Use[] {
  const found: Use[] = [];
  for (const [feature, all] of cornersByFeature(context)) {
    for (const judged of kindsOf(all)) {
      if (judged[0]!.corner.radiusMm === 0 || isEndOfGap(judged[0]!)) continue;
      const mill = choiceOf(judged[0]!, context).reaching;
      if (mill) found.push({ feature, judged, mill });
    }
  }
  return found;
}

/** The largest cutter that reaches every corner and is small enough for the smallest. */
function common(all: readonly Use[], context: RuleContext): Mill | undefined {
  const least = Math.min(...all.map((u) => u.judged[0]!.corner.radiusMm));
  const each = all.map((u) => millsThatReach(u.judged[0]!, context));
  const shared = each[0]?.filter((m) => m.diameterMm / 2 <= least && each.every((mills) => mills.includes(m)));
  return shared?.at(-1);
}

const radiiOf = (all: readonly Use[]) =>
  [...new Set(all.map((u) => Math.round(u.judged[0]!.corner.radiusMm * 100) / 100))].sort((a, b) => a - b);

export const mixed: Rule = defineRule({
  name: 'corner/mixed',
  severity: 'hint',
  summary: 'Inside corners of many different radii: each needs a cutter and a tool change.',
  why: 'Corners that look alike but differ a little each need their own cutter, or the smallest for all. With one radius everywhere, one cutter finishes the whole part without a change.',
  formula:
    'Each radius is finished by the largest cutter in the shop that fits and reaches. The different cutters are counted.',
  limits: [
    {
      name: 'cutters',
      value: 3,
      unit: 'count',
      what: 'Different cutters for inside corners that a part may need before this is reported.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(
    BAD,
    ['corner-radius: 1.7', 'corner-radius: 3.5'],
    ['corner-radius: 2.3', 'corner-radius: 3.5'],
    ['corner-radius: 3.4', 'corner-radius: 3.5'],
  ),
  mends: 'Use one radius for all, for the largest cutter that reaches every corner.',
  *find(context) {
    const all = uses(context);
    const cutters = [...new Set(all.map((u) => u.mill.name))];
    if (cutters.length <= context.limit('cutters')) return;
    const mill = common(all, context);
    yield { all, cutters, one: mill && { tool: mill.name, radiusMm: rollingRadius(mill, context) } };
  },
  tell({ all, cutters, one }, { length }) {
    const radii = radiiOf(all);
    // The odd one out is the cheapest to change: the radius fewest corners have.
    const odd = [...all].sort((a, b) => a.judged.length - b.judged.length)[0]!;
    return {
      message: `The part has inside corners of ${count(radii.length, 'radius', 'different radii')}: ${lengths(radii, length)}. They need ${count(cutters.length, 'cutter')}: ${list(cutters)}.${
        one ? ` Make them all ${length(one.radiusMm)}: ${one.tool} then finishes them all.` : ''
      }`,
      of: [...new Set(all.map((u) => u.feature.name))],
      span: radiusSpan(odd.feature, odd.judged[0]!.corner),
      related: all
        .filter((u) => u.feature !== odd.feature)
        .map((u) => ({
          span: radiusSpan(u.feature, u.judged[0]!.corner),
          message: `${length(u.judged[0]!.corner.radiusMm)}: ${u.mill.name}`,
        })),
      facts: {
        radii: radii.length,
        cutters: cutters.length,
        ...Object.fromEntries(radii.map((r, i) => [`radius_${i + 1}_mm`, r])),
        needed_radius_mm: one?.radiusMm,
        needed_tool: one?.tool,
      },
    };
  },
  keep({ all, one }) {
    const judgedOf = (feature: Feature) => all.filter((u) => u.feature === feature).flatMap((u) => u.judged);
    const features = [...new Set(all.map((u) => u.feature))];
    return { one, written: features.map((f) => writtenIn(f, judgedOf(f))) };
  },
  *mend({ one, written }, context) {
    if (!one) return;
    const edits = together(...written.map((w) => setRadius(context, w, one.radiusMm)));
    yield change(`Make every inside corner ${context.length(one.radiusMm)}, for ${one.tool}`, edits);
  },
});
