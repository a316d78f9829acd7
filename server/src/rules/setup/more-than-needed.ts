/** setup/more-than-needed – a plan with fewer set-ups was found. What finds it is the planner (`planning/fewer.ts`); here is what it says. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

const sample = (setups: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }
setups:
${setups}`;
const setup = (name: string, up: string, cuts: string) =>
  `  ${name}: { up: ${up}, hold: { vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18 }, cuts: [${cuts}] }\n`;

export const moreThanNeeded: Rule = defineRule({
  name: 'setup/more-than-needed',
  severity: 'hint',
  summary: 'A plan with fewer set-ups holds and reaches everything.',
  why: 'Set-ups cost the most time on a shared mill. Each time the vise is cleaned and zero is set again. What is cut before and after is a little out of line.',
  formula:
    'Looked for only where more set-ups are written than the directions need. That is the smallest number of faces from which a straight tool reaches everything. A plan of fewer set-ups was then found in which no rule on reach, holding or order has an error. The fix writes it in place of the present one; its comments stay, above it. The editor looks for it after a quiet moment.',
  bounds: 'The limits of the other rules: the shorter plan has no error by any of them.',
  limits: [],
  when: 'plan',
  bad: sample(setup('first', 'top', 'seat') + setup('second', 'bottom', 'tie')),
  good: sample(setup('first', 'top', 'seat, tie')),
  find: () => [],
  tell: (hit: never) => hit,
});
