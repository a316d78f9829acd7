/** hole/depth-ratio – how many diameters deep is drilled. */

import type { Hole } from '../../model/model';
import { makesHole } from '../../model/tool-kinds';
import { boreSize } from '../../process/bore-size';
import { drillsOf, makersOf } from '../../process/cutters';
import type { Bored } from '../../process/drilling';
import { METRIC_DRILLS } from '../../tables/drills';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { figure, memberOf, roundDown, spanOf, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holesInSetup, isFree, namesOf, sides } from './bores';

interface Deep {
  readonly hole: Hole;
  readonly bad: readonly Bored[];
  readonly depthMm: number;
  readonly ratio: number;
  readonly sides: 1 | 2;
}

function* deepOnes(context: RuleContext): Generator<Deep> {
  for (const [hole, bores] of holesInSetup(context)) {
    if (isBored(hole, context)) continue;
    const rated = bores.map(({ b }) => ({ b, depthMm: b.drilledMm / sides(b, context) }));
    const bad = rated.filter((r) => r.depthMm / hole.diameter.mm > context.limit('jobber') + SAME);
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
  return makers.length > 0 && makers.every((t) => makesHole(t, 'set', 'round'));
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
  const { length, limit, about } = context;
  const special = ratio > limit('peck');
  const through = bad[0]!.faces.length > 1;
  const bigger = larger(deep, context);
  const cures = [
    ...(through && deep.sides === 1 ? ['drill half from each side'] : []),
    ...(bigger ? [`make it ${length(bigger)} in diameter`] : []),
    `counterbore it so that ${length(limit('jobber') * hole.diameter.mm)} are left to drill`,
  ];
  return {
    severity: special ? 'warning' : 'hint',
    message:
      `${subjectOf(context.part, memberOf(bad[0]!.of))} is ${about(depthMm)} deep: ${figure(ratio, special ? limit('peck') : limit('jobber'))} times its diameter of ${about(hole.diameter.mm)}. ` +
      `A normal drill reaches ${limit('jobber')} times${special ? `, with pecking ${limit('peck')}` : ' in one go'} (rule${special ? 's' : ''} of thumb). ` +
      `${special ? 'Use a long-series or gun drill' : 'Drill it in pecks'}, or ${cures[0]}.`,
    has: `${figure(ratio, special ? limit('peck') : limit('jobber'))} × diameter`,
    needs: `${limit('jobber')} ×`,
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
  summary: 'A hole is many times deeper than its diameter.',
  why: 'Chips must climb the flutes while coolant must go down. Beyond about five diameters the drill is drawn back again and again. Beyond ten it wanders, heats and breaks. It then needs a special drill and a good start.',
  formula:
    'Depth over diameter. The depth is the material that is really drilled through, as the workpiece is then. Without set-ups it is that of the finished part. A through hole that is drilled from both sides counts half.',
  limits: [
    {
      name: 'jobber',
      value: 5,
      unit: 'ratio',
      what: 'Depth / diameter that a common twist drill reaches in one go or few pecks (hint above).',
      source: 'common practice, no source (handbooks say 4 to 5)',
    },
    {
      name: 'peck',
      value: 10,
      unit: 'ratio',
      what: 'Depth / diameter up to which pecking works (warning above).',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['diameter: 3', 'diameter: 6'], ['depth: 35', 'depth: 28']),
  mends: 'Drill it larger where nothing must fit in it, make it shallower, or counterbore it.',
  find: deepOnes,
  tell,
  keep: ({ hole, depthMm }) => ({ of: hole.name, depthMm }),
  *mend({ of, depthMm }, context) {
    const { part, length, tree, write, limit } = context;
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    const bigger = larger({ hole, depthMm }, context);
    if (bigger) yield change(`Make it ${length(bigger)} in diameter`, setLength(hole.diameter, bigger, part));
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
    yield change(
      `Counterbore it to ${length(wide)} for the first ${length(deep)}`,
      setField(tree, of, 'counterbore', text),
    );
  },
});
