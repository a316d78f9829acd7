/** hole/too-small – thinner than an ordinary shop drills. */

import { drillsOf } from '../../process/cutters';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { PRINTED_ALIKE_MM, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { sizeSpan } from './bores';

/** The smallest drill on hand that is large enough, else the limit itself. */
function would({ shop, limit }: RuleContext): number {
  return drillsOf(shop).find((d) => d.diameterMm >= limit('diameter') - SAME)?.diameterMm ?? limit('diameter');
}

/** Speed in rpm at which a drill of this size cuts at so many m/min: 1000 v / (π D). */
function rpmFor(diameterMm: number, metresPerMin: number): number {
  return (1000 * metresPerMin) / (Math.PI * diameterMm);
}

const BAD = `part: nozzle
material: aluminium-6061-t6
body: { x: 20, y: 20, z: 4 }
features:
  jet:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 0.6
    depth: 2
`;

export const tooSmall: Rule = defineRule({
  name: 'hole/too-small',
  severity: 'warning',
  summary: 'A hole is smaller than an ordinary shop can drill.',
  why: 'Drills under a millimetre bend very easily and break off in the hole. They need a far faster spindle than a common mill has, and an experienced hand.',
  formula:
    'The diameter is compared with the limit. The rpm is for so small a drill at `speed` m/min: 1000 v / (π D). It is compared with the fastest spindle of the shop.',
  limits: [
    {
      name: 'diameter',
      value: 1,
      unit: 'mm',
      what: 'Smallest hole that an ordinary shop drills without special care.',
      source: 'common practice, no source (1.0 to 1.5 mm is usual, 0.5 special)',
    },
    {
      name: 'speed',
      value: 30,
      unit: 'count',
      what: 'Cutting speed of a small high-speed-steel drill in m/min, for the rpm shown.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['diameter: 0.6', 'diameter: 1']),
  mends: 'Use the smallest drill in the shop that is large enough.',
  *find({ part, limit }) {
    for (const hole of part.features)
      if (hole.kind === 'hole' && hole.diameter.mm < limit('diameter') - PRINTED_ALIKE_MM) yield hole;
  },
  tell(hole, context) {
    const { shop, limit, length, part, about } = context;
    const most = Math.max(0, ...shop.machines.map((m) => m.rpm[1]));
    const rpm = Math.round(rpmFor(hole.diameter.mm, limit('speed')) / 100) * 100;
    const slow = most > 0 && rpm > most;
    return {
      message:
        `${subjectOf(part, hole.name)} has a diameter of ${about(hole.diameter.mm)}. An ordinary shop drills ${length(limit('diameter'))} and more (rule of thumb)` +
        `${slow ? `. Such a drill needs ${rpm} rpm; the fastest spindle has ${most}` : ''}. Make it ${length(would(context))}.`,
      has: about(hole.diameter.mm),
      needs: length(limit('diameter')),
      of: [hole.name],
      span: sizeSpan(hole),
      facts: {
        diameter_mm: hole.diameter.mm,
        limit_mm: limit('diameter'),
        needed_mm: would(context),
        rpm,
        most_rpm: most > 0 ? most : undefined,
      },
    };
  },
  keep: (hole) => hole.name,
  *mend(of, context) {
    const hole = context.part.featureByName.get(of);
    if (hole?.kind !== 'hole' || !hole.diameterGiven) return;
    const mm = would(context);
    yield change(`Make it ${context.length(mm)}`, setLength(hole.diameter, mm, context.part));
  },
});
