/** hole/too-small – thinner than an ordinary shop drills. */
import { drillsOf } from '../../process/cutters';
import { setLength } from '../kit/edits';
import { subjectOf } from '../kit/fields';
import { fact } from '../kit/message';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { sizeSpan } from './judge';

const NAME = 'hole/too-small';

/** The smallest drill on hand that is large enough, else the limit itself. */
function would({ shop, limit }: RuleContext): number {
  return drillsOf(shop).find((d) => d.diameterMm >= limit('diameter') - 1e-6)?.diameterMm ?? limit('diameter');
}

/** Speed in rpm at which a drill of this size cuts at so many m/min: 1000 v / (π D). */
export function rpmFor(diameterMm: number, metresPerMin: number): number {
  return (1000 * metresPerMin) / (Math.PI * diameterMm);
}

export const tooSmall: Rule = {
  name: NAME,
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
  bad: `part: nozzle
material: aluminium-6061-t6
body: { x: 20, y: 20, z: 4 }
features:
  jet:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 0.6
    depth: 2
`,
  good: `part: nozzle
material: aluminium-6061-t6
body: { x: 20, y: 20, z: 4 }
features:
  jet:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 1
    depth: 2
`,
  mends: 'The smallest drill on hand that is large enough.',
  *find(context) {
    const { part, shop, limit, length } = context;
    const most = Math.max(0, ...shop.machines.map((m) => m.rpm[1]));
    for (const hole of part.features) {
      if (hole.kind !== 'hole' || hole.diameter.mm >= limit('diameter') - 1e-6) continue;
      const rpm = Math.round(rpmFor(hole.diameter.mm, limit('speed')) / 100) * 100;
      const slow = most > 0 && rpm > most;
      yield {
        rule: NAME,
        severity: 'warning',
        message:
          `A ${length(hole.diameter.mm)} hole is under the ${length(limit('diameter'))} an ordinary shop drills (rule of thumb)` +
          `${slow ? `; it wants ${rpm} rpm and the fastest spindle makes ${most}` : ''}. ${length(would(context))} would do.`,
        of: [hole.name],
        span: sizeSpan(hole),
        related: [],
        facts: {
          diameter_mm: fact(hole.diameter.mm),
          limit_mm: limit('diameter'),
          needed_mm: fact(would(context)),
          rpm,
          ...(most > 0 && { most_rpm: most }),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || !hole.diameterGiven) return;
    const edit = setLength(hole.diameter, would(context), context.part);
    if (edit) yield { title: `Make it ${context.length(would(context))}`, safe: false, edits: [edit] };
  },
};
