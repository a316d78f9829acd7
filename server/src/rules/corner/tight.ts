/** corner/tight – a corner exactly as round as its cutter. */

import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import {
  choiceOf,
  cornersByFeature,
  isEndOfGap,
  isRelief,
  type Judged,
  kindsOf,
  millsThatReach,
  namesOf,
  radiusSpan,
  rollingRadius,
  setRadius,
  widerAtMouthMm,
  writtenIn,
} from './inside-corners';

const BAD = `part: tray
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  tray:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 40, y: 24 }
    corner-radius: 1.5
    depth: 6
`;

interface Tight {
  readonly feature: Feature;
  readonly judged: readonly Judged[];
  readonly mill: Mill;
}

function* tightOnes(context: RuleContext): Generator<Tight> {
  const within = 1 - context.limit('within') / 100;
  for (const [feature, all] of cornersByFeature(context)) {
    let found: Tight | undefined;
    for (const judged of kindsOf(all)) {
      const { radiusMm, turnDeg } = judged[0]!.corner;
      // A wide open bend does not stop the cutter.
      if (radiusMm === 0 || turnDeg < 45 || isEndOfGap(judged[0]!)) continue;
      if (isRelief(judged[0]!.corner, feature)) continue;
      const mill = choiceOf(judged[0]!, context).reaching;
      if (!mill || mill.diameterMm / 2 < within * radiusMm) continue;
      const [from, to] = [context.limit('smaller') * 2 * radiusMm, within * 2 * radiusMm - SAME];
      const next = millsThatReach(judged[0]!, context, from, to).length > 0;
      if (next) continue;
      if (!found) found = { feature, judged, mill };
      else if (found.mill === mill) found = { ...found, judged: [...found.judged, ...judged] };
    }
    if (found) yield found;
  }
}

export const tight: Rule = defineRule({
  name: 'corner/tight',
  severity: 'hint',
  summary: 'An inside corner has exactly the radius of the cutter that would make it.',
  why: 'When corner and cutter have the same radius, the cutter stops in the corner. It then cuts on a quarter of its edge and chatters. Make the corner 10 to 30 % larger, so that the cutter keeps moving on a curve.',
  formula:
    'The largest cutter that fits and reaches is within 5 % of the corner’s own radius. No slightly smaller one in the shop reaches either.',
  limits: [
    {
      name: 'within',
      value: 5,
      unit: 'percent',
      what: 'Difference between the radius of the corner and of the cutter below which they count as the same.',
      source: 'common practice, no source (1.1 to 1.3 times the cutter’s radius is usual)',
    },
    {
      name: 'smaller',
      value: 0.7,
      unit: 'ratio',
      what: 'Size of the next smaller cutter, as a share of the corner’s radius, that is good enough.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['corner-radius: 1.5', 'corner-radius: 1.8']),
  mends: 'Make the radius a tenth larger than the cutter’s.',
  find: tightOnes,
  tell({ feature, judged, mill }, context) {
    const { corner } = judged[0]!;
    const radius = rollingRadius(mill, context, feature);
    const where = widerAtMouthMm(feature) > 0 ? ' at its floor' : '';
    return {
      message: `${subjectOf(context.part, feature.name)} has corners of ${context.about(corner.radiusMm)}${where}, the radius of ${mill.name}. The cutter stops in each corner and chatters. Make them ${context.length(radius)}, so that it keeps moving.`,
      has: context.about(corner.radiusMm),
      needs: context.about(radius),
      of: namesOf(feature, judged),
      span: radiusSpan(feature, corner),
      facts: {
        radius_mm: corner.radiusMm,
        cutter_mm: mill.diameterMm,
        tool: mill.name,
        needed_radius_mm: radius,
        corners: judged.length,
      },
      at: judged.map((j) => j.corner.at),
    };
  },
  keep: ({ feature, judged, mill }, context) => ({
    written: writtenIn(feature, judged),
    radiusMm: rollingRadius(mill, context, feature),
  }),
  mend: ({ written, radiusMm }, context) => [
    change(
      `Make the corner radius ${context.length(radiusMm)}, so that the cutter keeps moving`,
      setRadius(context, written, radiusMm),
    ),
  ],
});
