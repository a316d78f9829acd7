/** hole/depth-ratio – how many diameters deep is drilled. */

import type { Hole } from '../../model/model';
import { boreSize } from '../../process/bore-size';
import { drillsOf, makersOf } from '../../process/cutters';
import type { Bored } from '../../process/drilling';
import { METRIC_DRILLS } from '../../tables/drills';
import { setLength } from '../kit/edits';
import { setField, subjectOf } from '../kit/fields';
import { fact, roundDown, spanOf, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { holesThen, isFree, namesOf, sides } from './judge';

const NAME = 'hole/depth-ratio';

interface Deep {
  readonly hole: Hole;
  readonly bad: readonly Bored[];
  readonly depthMm: number;
  readonly ratio: number;
  readonly sides: 1 | 2;
}

function* deepOnes(context: RuleContext): Generator<Deep> {
  for (const [hole, bores] of holesThen(context)) {
    if (isBored(hole, context)) continue;
    const rated = bores.map(({ b }) => ({ b, depthMm: b.drilledMm / sides(b, context) }));
    const bad = rated.filter((r) => r.depthMm / hole.diameter.mm > context.limit('jobber') + 1e-6);
    const worst = bad.reduce((w, r) => (r.depthMm > w.depthMm ? r : w), bad[0]!);
    if (worst)
      yield {
        hole,
        bad: bad.map((r) => r.b),
        depthMm: worst.depthMm,
        ratio: worst.depthMm / hole.diameter.mm,
        sides: sides(worst.b, context),
      };
  }
}

/** No drill on hand is of this size, but other tools make it: judged by their reach. */
function isBored(hole: Hole, { shop, part }: RuleContext): boolean {
  const makers = makersOf(shop, boreSize(hole, part, 0.1));
  return makers.length > 0 && makers.every((t) => t.kind === 'boring-head' || t.kind === 'end-mill');
}

/** Diameters at which the ratio holds: what is on hand, then the standard series. */
function larger({ hole, depthMm }: Deep, context: RuleContext): number | undefined {
  const least = depthMm / context.limit('peck');
  const wanted = depthMm / context.limit('jobber');
  const sizes = [...drillsOf(context.shop).map((d) => d.diameterMm), ...METRIC_DRILLS.map((d) => d.diameterMm)];
  const smallest = (min: number) => sizes.filter((d) => d > hole.diameter.mm && d >= min).sort((a, b) => a - b)[0];
  const found = smallest(wanted) ?? smallest(least);
  return found !== undefined && found <= 1.5 * hole.diameter.mm ? found : undefined;
}

function findingOf(deep: Deep, context: RuleContext): Finding {
  const { hole, bad, depthMm, ratio } = deep;
  const { length, limit } = context;
  const special = ratio > limit('peck');
  const through = bad[0]!.faces.length > 1;
  const bigger = isFree(hole) ? larger(deep, context) : undefined;
  const cures = [
    ...(through && deep.sides === 1 ? ['drilling half from each side'] : []),
    ...(bigger ? [`a ${length(bigger)} hole`] : []),
    `a counterbore that leaves ${length(limit('jobber') * hole.diameter.mm)} to drill`,
  ];
  return {
    rule: NAME,
    severity: special ? 'warning' : 'hint',
    message:
      `${length(depthMm)} are drilled ${length(hole.diameter.mm)} across: ${times(ratio, limit('jobber'))} diameters, where a common drill holds ${limit('jobber')}` +
      `${special ? ` and even pecking ends at ${limit('peck')} (rules of thumb): a long-series or gun drill, and patience` : ` (rule of thumb): peck, and clear the chips`}. ` +
      `${cap(cures.join(', or '))} would ease it.`,
    of: namesOf(hole, bad),
    span: hole.depth.length?.span ?? spanOf(hole, 'depth'),
    related: [],
    facts: {
      ratio: fact(ratio),
      depth_mm: fact(depthMm),
      diameter_mm: fact(hole.diameter.mm),
      jobber_ratio: limit('jobber'),
      peck_ratio: limit('peck'),
      easy_depth_mm: fact(limit('jobber') * hole.diameter.mm),
      ...(bigger && { larger_mm: fact(bigger) }),
    },
    at: bad.map((b) => b.axis),
  };
}

/** To a tenth, or finer where that would read as the limit itself. */
const times = (ratio: number, limit: number) => trimmed(ratio, Math.abs(ratio - limit) < 0.05 ? 3 : 1);
const cap = (text: string) => text[0]!.toUpperCase() + text.slice(1);

export const depthRatio: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A hole is many times deeper than wide.',
  why: 'Chips must climb the flutes and coolant must come down against them. Beyond about five diameters a drill is drawn back again and again, beyond ten it wanders, heats and breaks; special drills and a good start are needed.',
  formula:
    '`ratio` = `depth_mm` / `diameter_mm`, where the depth is the material actually drilled through: of the workpiece as it is in the set-up that drills it, else of the finished part; and half of it where set-ups drill a through hole from both sides.',
  limits: [
    {
      name: 'jobber',
      value: 5,
      unit: 'ratio',
      what: 'depth / diameter a common twist drill holds in one go or few pecks (hint above)',
      source: 'common practice, no source (handbooks say 4 to 5)',
    },
    {
      name: 'peck',
      value: 10,
      unit: 'ratio',
      what: 'depth / diameter up to which pecking does (warning above)',
      source: 'common practice, no source',
    },
  ],
  bad: `part: spindle-block
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 50 }
features:
  oil-way:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 3
    depth: 35
`,
  good: `part: spindle-block
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 50 }
features:
  oil-way:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 6
    depth: 28
`,
  mends: 'A larger drill, for a hole that nothing must fit in; less depth; or a counterbore that leaves less to drill.',
  *find(context) {
    for (const deep of deepOnes(context)) yield findingOf(deep, context);
  },
  *mend(finding, context): Generator<Fix> {
    const deep = [...deepOnes(context)].find((d) => d.hole === subjectOf(finding, context.part));
    if (!deep) return;
    const { hole, depthMm } = deep;
    const { part, length, tree, write, limit } = context;
    const bigger = isFree(hole) ? larger(deep, context) : undefined;
    const grown = bigger && setLength(hole.diameter, bigger, part);
    if (grown) yield { title: `Drill it ${length(bigger)} across`, safe: false, edits: [grown] };
    const allowed = limit('jobber') * hole.diameter.mm;
    if (!hole.depth.through && hole.depth.length) {
      const shallower = roundDown(hole.depth.mm - (depthMm - allowed), part.units);
      const edit = shallower > hole.diameter.mm ? setLength(hole.depth.length, shallower, part) : undefined;
      if (edit) yield { title: `Make it ${length(shallower)} deep`, safe: false, edits: [edit] };
    }
    if (!hole.counterbore && !hole.countersink && !hole.thread) {
      const wide = [...METRIC_DRILLS].find((d) => d.diameterMm >= 1.6 * hole.diameter.mm)?.diameterMm;
      const deepEnough = Math.ceil(depthMm - allowed);
      const text = wide && `{ diameter: ${write(wide)}, depth: ${write(deepEnough)} }`;
      const edits = text && setField(tree, hole.name, 'counterbore', text);
      if (edits && wide)
        yield {
          title: `Open it to ${length(wide)} for the first ${length(deepEnough)}`,
          safe: false,
          edits,
        };
    }
  },
};
