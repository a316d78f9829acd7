/** cost/tool-changes – a tool is put in for one small thing only, and a small change would spare it. What finds it prices the changed part (`planning/savings.ts`); here is what it says. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

const sample = (second: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }
  vent: { kind: hole, face: top, at: { x: 50, y: center }, diameter: ${second}, depth: through }
`;

export const toolChanges: Rule = defineRule({
  name: 'cost/tool-changes',
  severity: 'hint',
  summary: 'A tool is needed for one small thing, and a small change to the part would save it.',
  why: 'Where tools are changed by hand, each one is fetched, put in and touched off. That takes minutes. Two sizes or radii that could be one, or a round that could be a chamfer, save a tool.',
  formula:
    'The change is made in the text and the part is calculated again, in the same set-ups. The time saved is that of the first piece, with its tool changes. Reported where its low end reaches `saves` and no new error or warning comes. Only plain sizes are changed: none with a tolerance, a fit, a thread or a screw. Without `setups` in the text it is calculated as planned, or in a rough order. The editor looks for it after a quiet moment.',
  limits: [
    {
      name: 'saves',
      value: 1.5,
      unit: 'min',
      what: 'Smallest time saved on a piece that is reported.',
      source: 'common practice, no source: about one change of a tool by hand',
    },
    {
      name: 'alike',
      value: 0.5,
      unit: 'mm',
      what: 'Hole sizes no farther apart may be meant as one.',
      source: 'common practice, no source: half a step of the usual drill set',
    },
  ],
  when: 'plan',
  bad: sample('5'),
  good: sample('5.5'),
  mends: 'Use the other size, the larger radius or the chamfer: the title says what is saved.',
  find: () => [],
  tell: (hit: never) => hit,
});
