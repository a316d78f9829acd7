/** hole/drill-press – a hole that the place where it is made does not take. */
import type { Hole } from '../../model/model';
import { isOffMill } from '../../process/made-on';
import { pressLimits } from '../../process/press-limits';
import { nearest } from '../../tables/nearest';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField } from '../kit/fields';
import { list, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { type PressTold, pressSentence } from './press-words';

interface Hit {
  readonly hole: Hole & Required<Pick<Hole, 'madeOn'>>;
  readonly limit: PressTold;
}

const BAD = `part: foot
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 12 }
features:
  screws: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 50, count: 2 } }, diameter: 14, depth: through, made-on: pillar-drill }
`;
const SHOP = `shop: bench
machines:
  mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [60, 5000], power: 1 kW } }
vises:
  vise-100: { jaw: { width: 100, height: 32 }, opens: 110 }
parallels: [8, 12, 16]
drill-presses:
  pillar-drill: { largest: 13, throat: 150, opening: 350, stroke: 80, rpm: [500, 850, 1400, 2000, 2600] }
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
  dr-14: { kind: drill, diameter: 14 }
  dr-10: { kind: drill, diameter: 10 }
`;

/** Made with care, or slowly: not an error. */
const WITH_CARE: ReadonlySet<PressTold['what']> = new Set(['stroke', 'speed', 'in a set-up', 'nothing by hand']);

function* find({ part, solid, shop }: RuleContext): Generator<Hit> {
  for (const feature of part.features) {
    if (feature.kind !== 'hole' || !feature.madeOn) continue;
    const hole = { ...feature, madeOn: feature.madeOn };
    for (const limit of pressLimits(feature, { part, solid, shop })) yield { hole, limit };
    if (!isOffMill(feature)) continue;
    for (const setup of part.setups ?? [])
      if (setup.cuts.some((c) => c.name === feature.name))
        yield { hole, limit: { what: 'in a set-up', setup: setup.name } };
  }
}

export const drillPress: Rule = defineRule({
  name: 'hole/drill-press',
  severity: 'error',
  summary: 'A drill press or bench does not take the hole that is made there.',
  why: 'A chuck takes drills to its size. The column stands behind the spindle, the table below it, and the spindle goes down only so far. A mill in a drill chuck works loose and flies out. Clamp the part; never hold it by hand.',
  formula:
    'On the finished part. The drill by the chuck; the way from each hole to its nearest side by the throat; the part’s height and the drill’s reach by the opening. What the drill must stand out by its length. A warning where the depth is over the stroke, or the slowest speed is 1.25 times the fastest of the tables. At the bench the tap and reamer by what is there.',
  bounds: 'The sizes in `drill-presses` and `bench` of the shop file. The 1.25 is common practice, no source.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['diameter: 14', 'diameter: 10']),
  shop: SHOP,
  mends: 'Make it on the mill, or as the press takes it.',
  find,
  tell(hit, context) {
    const { hole, limit } = hit;
    const { part, shop, length } = context;
    const on = hole.madeOn.name;
    const presses = shop.drillPresses.map((p) => p.name);
    const words = { on, known: list(presses), meant: nearest(on, presses), length };
    const numbers =
      'needsMm' in limit
        ? { needed_mm: limit.needsMm, has_mm: limit.hasMm }
        : limit.what === 'speed'
          ? { rpm: limit.rpm, slowest_rpm: limit.slowest }
          : {};
    return {
      severity: WITH_CARE.has(limit.what) ? 'warning' : undefined,
      message: `${subjectOf(part, hole.name)} ${pressSentence(limit, words)}`,
      of: [hole.name],
      span: hole.madeOn.span,
      facts: { what: limit.what, ...numbers },
    };
  },
  keep: ({ hole }) => hole.name,
  mend: (name, { tree }) => [change('Make it on the mill', removeField(tree, name, 'made-on'))],
});
