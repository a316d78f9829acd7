/** thread/unknown – a designation that the tables do not have. Found while the text is worked out. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

export const unknown: Rule = defineRule({
  name: 'thread/unknown',
  severity: 'error',
  summary: 'A thread is written that the tables do not have.',
  why: 'A thread that is no standard one has no tap to buy, no screw that fits it and no known tap drill. Mostly it is a slip of the pen: a fine pitch that does not exist, or a size between two.',
  formula:
    'Metric threads are those of ISO 261 (coarse, and the usual fine pitches), inch threads the unified coarse and fine series of ASME B1.1.',
  limits: [],
  bad: `part: post
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 20 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5x0.6
    depth: 14
`,
  good: `part: post
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 20 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    thread-depth: 9
    depth: 14
`,
  mends: 'The nearest thread there is.',
  when: 'read',
  find: () => [],
  tell: (hit: never) => hit,
});
