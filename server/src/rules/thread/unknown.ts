/** thread/unknown – a designation that the tables do not have. Found while the text is worked out. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

export const unknown: Rule = defineRule({
  name: 'thread/unknown',
  severity: 'error',
  summary: 'The tables do not have the thread that is written.',
  why: 'A thread that is not standard has no tap to buy, no screw that fits and no known tap drill. It is usually a slip: a fine pitch that does not exist, or a size between two.',
  formula:
    'Metric threads are those of ISO 261: coarse, and the usual fine pitches. Inch threads are the unified coarse and fine series of ASME B1.1.',
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
  mends: 'Use the nearest thread there is.',
  when: 'read',
  find: () => [],
  tell: (hit: never) => hit,
});
