/** thread/unknown – a designation that the tables do not have. Found while the text is worked out. */
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

export const unknown: Rule = defineRule({
  name: 'thread/unknown',
  severity: 'error',
  summary: 'The tables do not have the thread that is written.',
  why: 'A thread that is not standard has no tap to buy, no screw that fits and no known tap drill. It is usually a slip: a fine pitch that does not exist, or a size between two.',
  formula:
    'Metric threads are those of ISO 261 to M64, coarse and fine. Inch threads are UNC, UNF, UN and UNEF of ASME B1.1 to 1 1/2 in. Pipe threads are `G` (ISO 228-1), `Rp` and `Rc` (ISO 7-1) and NPT (ASME B1.20.1) to 2 in. `Tr` is trapezoidal (ISO 2904), `EG` the hole of a wire thread insert (DIN 8140-2). `-LH` behind any of them is left-hand.',
  bounds: 'The threads of ISO 261, ASME B1.1, ISO 228-1, ISO 7-1, ASME B1.20.1, ISO 2904 and DIN 8140-2.',
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
