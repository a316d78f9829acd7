/** cost/slow-feature – a feature takes long, and a small change would make it quick. What finds it prices the changed part (`planning/savings.ts`); here is what it says. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

const sample = (radius: string) => `part: tray
material: aluminium-6061-t6
body: { x: 120, y: 80, z: 25 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 100, y: 60 }, corner-radius: ${radius}, depth: 20 }
`;

export const slowFeature: Rule = defineRule({
  name: 'cost/slow-feature',
  severity: 'hint',
  summary: 'A feature takes long, and a small change to the part would make it quick.',
  why: 'A cutter half as thick bends sixteen times as much and is fed accordingly. One small corner radius, deep down, makes a whole wall slow; a round that no form cutter on hand makes is stepped round in a dozen passes. Often the size was picked without a thought.',
  formula:
    'For each feature that takes long: larger inside corner radii (of each end mill on hand, as far as there is room), a floor without radius, a chamfer tangent to the round, the drill’s own bottom. Each is made in the text and the part priced anew, in the same set-ups: `saved_low_min` to `saved_high_min` of the `takes_low_min` to `takes_high_min` that it takes. Told where the low end reaches `saves` and `share` of the whole first piece, and the changed part has no error or warning more; of several the smallest change that saves nearly as much as the best. In the editor it is looked for after a quiet moment.',
  limits: [
    {
      name: 'saves',
      value: 2,
      unit: 'min',
      what: 'Least time saved on a piece that is told.',
      source: 'common practice, no source',
    },
    {
      name: 'share',
      value: 5,
      unit: 'percent',
      what: 'And least share of what the first piece takes.',
      source: 'common practice, no source',
    },
  ],
  when: 'plan',
  bad: sample('2'),
  good: sample('8'),
  mends: 'The larger radius, the chamfer, the flat floor: the title says what is saved.',
  find: () => [],
  tell: (hit: never) => hit,
});
