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
  summary: 'A plan with fewer set-ups holds and reaches.',
  why: 'What a part costs on a shared mill is mostly how often it is turned over: each time the vise is cleaned, zero is found again, and what is cut before and after is a little out of line.',
  formula:
    'Looked for only where `written` is more than the directions need (`bound`: the smallest set of faces from which a straight tool gets to everything). A plan of `needed` set-ups was then found of which no rule on reaching, holding or order says an error. The fix writes it in place of the one that is there; its comments stay, above it. In the editor it is looked for after a quiet moment.',
  limits: [],
  when: 'plan',
  bad: sample(setup('first', 'top', 'seat') + setup('second', 'bottom', 'tie')),
  good: sample(setup('first', 'top', 'seat, tie')),
  find: () => [],
  tell: (hit: never) => hit,
});
