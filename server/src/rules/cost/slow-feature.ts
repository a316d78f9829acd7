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
  why: 'A cutter half as thick bends sixteen times as much and is fed slowly. One small, deep corner radius makes a whole wall slow. A rounded edge without a form cutter in the shop takes a dozen passes. Often a larger size is just as good.',
  formula:
    'Several changes are tried for each feature that takes long. These are larger inside corner radii for each end mill in the shop, and a floor without radius. Others are a chamfer instead of the round, and the drill’s own bottom. Each is made in the text and the part is calculated again, in the same set-ups. Reported where at least `saves` and `share` of the first piece are saved, without a new error or warning. Of several it is the smallest change that saves nearly as much as the best. The editor looks for it after a quiet moment.',
  limits: [
    {
      name: 'saves',
      value: 2,
      unit: 'min',
      what: 'Smallest time saved on a piece that is reported.',
      source: 'common practice, no source',
    },
    {
      name: 'share',
      value: 5,
      unit: 'percent',
      what: 'Smallest share of the time of the first piece.',
      source: 'common practice, no source',
    },
  ],
  when: 'plan',
  bad: sample('2'),
  good: sample('8'),
  mends: 'Use the larger radius, the chamfer or the flat floor: the title says what is saved.',
  find: () => [],
  tell: (hit: never) => hit,
});
