/** hole/too-small – thinner than an ordinary shop drills. */
import { drillsOf } from '../../process/cutters';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import type { Rule, RuleContext } from '../kit/rule';
import { sizeSpan } from './bores';

/** The smallest drill on hand that is large enough, else the limit itself. */
function would({ shop, limit }: RuleContext): number {
  return drillsOf(shop).find((d) => d.diameterMm >= limit('diameter') - 1e-6)?.diameterMm ?? limit('diameter');
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
  summary: 'A hole is thinner than an ordinary shop can drill safely.',
  why: 'Drills under a millimetre bend at a breath, need a spindle far faster than a common mill has, and break off in the hole. They are work for a small fast machine and an experienced hand.',
  formula:
    '`diameter_mm` against the limit. `rpm` is the speed at which so small a drill would cut at `speed` m/min, 1000 v / (π D); `most_rpm` is the fastest spindle of the shop.',
  limits: [
    {
      name: 'diameter',
      value: 1,
      unit: 'mm',
      what: 'thinnest hole an ordinary shop drills without special care',
      source: 'common practice, no source (1.0 to 1.5 mm is usual, 0.5 special)',
    },
    {
      name: 'speed',
      value: 30,
      unit: 'count',
      what: 'cutting speed of a small high-speed-steel drill in m/min, for the speed shown',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['diameter: 0.6', 'diameter: 1']),
  mends: 'The smallest drill on hand that is large enough.',
  *find({ part, limit }) {
    for (const hole of part.features)
      if (hole.kind === 'hole' && hole.diameter.mm < limit('diameter') - 1e-6) yield hole;
  },
  tell(hole, context) {
    const { shop, limit, length } = context;
    const most = Math.max(0, ...shop.machines.map((m) => m.rpm[1]));
    const rpm = Math.round(rpmFor(hole.diameter.mm, limit('speed')) / 100) * 100;
    const slow = most > 0 && rpm > most;
    return {
      message:
        `A ${length(hole.diameter.mm)} hole is under the ${length(limit('diameter'))} an ordinary shop drills (rule of thumb)` +
        `${slow ? `; it wants ${rpm} rpm and the fastest spindle makes ${most}` : ''}. ${length(would(context))} would do.`,
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
