/** hole/depth-ratio – how many diameters deep is drilled. */

import type { Hole } from '../../model/model';
import { boreSize } from '../../process/bore-size';
import { drillsOf, makersOf } from '../../process/cutters';
import type { Bored } from '../../process/drilling';
import { METRIC_DRILLS } from '../../tables/drills';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { roundDown, spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holesThen, isFree, namesOf, sides } from './bores';

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
function larger({ hole, depthMm }: Pick<Deep, 'hole' | 'depthMm'>, context: RuleContext): number | undefined {
  if (!isFree(hole)) return undefined;
  const least = depthMm / context.limit('peck');
  const wanted = depthMm / context.limit('jobber');
  const sizes = [...drillsOf(context.shop).map((d) => d.diameterMm), ...METRIC_DRILLS.map((d) => d.diameterMm)];
  const smallest = (min: number) => sizes.filter((d) => d > hole.diameter.mm && d >= min).sort((a, b) => a - b)[0];
  const found = smallest(wanted) ?? smallest(least);
  return found !== undefined && found <= 1.5 * hole.diameter.mm ? found : undefined;
}

function tell(deep: Deep, context: RuleContext): Told {
  const { hole, bad, depthMm, ratio } = deep;
  const { length, limit } = context;
  const special = ratio > limit('peck');
  const through = bad[0]!.faces.length > 1;
  const bigger = larger(deep, context);
  const cures = [
    ...(through && deep.sides === 1 ? ['drilling half from each side'] : []),
    ...(bigger ? [`a ${length(bigger)} hole`] : []),
    `a counterbore that leaves ${length(limit('jobber') * hole.diameter.mm)} to drill`,
  ];
  return {
    severity: special ? 'warning' : 'hint',
    message:
      `${length(depthMm)} are drilled ${length(hole.diameter.mm)} across: ${times(ratio, limit('jobber'))} diameters, where a common drill holds ${limit('jobber')}` +
      `${special ? ` and even pecking ends at ${limit('peck')} (rules of thumb): a long-series or gun drill, and patience` : ` (rule of thumb): peck, and clear the chips`}. ` +
      `${cap(cures.join(', or '))} would ease it.`,
    of: namesOf(hole, bad),
    span: hole.depth.length?.span ?? spanOf(hole, 'depth'),
    facts: {
      ratio,
      depth_mm: depthMm,
      diameter_mm: hole.diameter.mm,
      jobber_ratio: limit('jobber'),
      peck_ratio: limit('peck'),
      easy_depth_mm: limit('jobber') * hole.diameter.mm,
      larger_mm: bigger,
    },
    at: bad.map((b) => b.axis),
  };
}

/** To a tenth, or finer where that would read as the limit itself. */
const times = (ratio: number, limit: number) => trimmed(ratio, Math.abs(ratio - limit) < 0.05 ? 3 : 1);
const cap = (text: string) => text[0]!.toUpperCase() + text.slice(1);

const BAD = `part: spindle-block
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 50 }
features:
  oil-way:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 3
    depth: 35
`;

export const depthRatio: Rule = defineRule({
  name: 'hole/depth-ratio',
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
  bad: BAD,
  good: edited(BAD, ['diameter: 3', 'diameter: 6'], ['depth: 35', 'depth: 28']),
  mends: 'A larger drill, for a hole that nothing must fit in; less depth; or a counterbore that leaves less to drill.',
  find: deepOnes,
  tell,
  keep: ({ hole, depthMm }) => ({ of: hole.name, depthMm }),
  *mend({ of, depthMm }, context) {
    const { part, length, tree, write, limit } = context;
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    const bigger = larger({ hole, depthMm }, context);
    if (bigger) yield change(`Drill it ${length(bigger)} across`, setLength(hole.diameter, bigger, part));
    const allowed = limit('jobber') * hole.diameter.mm;
    if (!hole.depth.through && hole.depth.length) {
      const shallower = roundDown(hole.depth.mm - (depthMm - allowed), part.units);
      const edit = shallower > hole.diameter.mm ? setLength(hole.depth.length, shallower, part) : undefined;
      yield change(`Make it ${length(shallower)} deep`, edit);
    }
    const wide = METRIC_DRILLS.find((d) => d.diameterMm >= 1.6 * hole.diameter.mm)?.diameterMm;
    if (hole.counterbore || hole.countersink || hole.thread || !wide) return;
    const deep = Math.ceil(depthMm - allowed);
    const text = `{ diameter: ${write(wide)}, depth: ${write(deep)} }`;
    yield change(`Open it to ${length(wide)} for the first ${length(deep)}`, setField(tree, of, 'counterbore', text));
  },
});
