/** thread/too-long – more turns than hold anything. */

import { setScrewDepthMm } from '../../process/set-screw';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setField } from '../kit/fields';
import { figure, memberPhrase, roundDown, roundUp } from '../kit/message';
import type { Rule } from '../kit/rule';
import { lengthSpan, measured } from './tapped-holes';

const BAD = `part: pillar
material: aluminium-6061-t6
body: { x: 20, y: 20, z: 40 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    thread-depth: 20
    depth: 25
`;

export const tooLong: Rule = defineRule({
  name: 'thread/too-long',
  severity: 'hint',
  summary: 'A thread is longer than its screw can use.',
  why: 'The first few turns carry nearly all the load. Beyond two or three diameters more turns hold nothing. Each is more tapping, more heat and a higher risk of a broken tap.',
  formula:
    'Length of the thread over its diameter, against `diameters`. A set screw’s thread reaches the bore that it meets, however long.',
  limits: [
    {
      name: 'diameters',
      value: 2.5,
      unit: 'ratio',
      what: 'Length of thread, in diameters, beyond which more holds nothing.',
      source: 'common practice, no source (2 to 3 diameters)',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['thread-depth: 20', 'thread-depth: 10'], ['    depth: 25', '    depth: 15']),
  mends: 'Make the thread as deep as the limit.',
  *find(context) {
    const most = context.limit('diameters');
    for (const m of measured(context)) {
      if (m.ratio <= most + SAME) continue;
      // A set screw goes in as far as what it holds.
      const meetsMm = setScrewDepthMm(m.hole, context.part, context.solid) ?? 0;
      const enoughMm = Math.max(most * m.thread.diameterMm, roundUp(meetsMm, context.part.units));
      if (m.lengthMm > enoughMm + SAME) yield { ...m, enoughMm };
    }
  },
  tell: ({ hole, thread, lengthMm, ratio, enoughMm }, { limit, length, part, about }) => ({
    message: `The ${thread.designation} thread of ${memberPhrase(part, hole.name)} is ${about(lengthMm)} long: ${figure(ratio, limit('diameters'))} times its diameter. Beyond ${limit('diameters')} times more turns hold nothing (rule of thumb). Make it ${length(roundUp(enoughMm, part.units))} deep.`,
    has: about(lengthMm),
    needs: about(enoughMm),
    of: [hole.name],
    span: lengthSpan(hole),
    facts: {
      length_mm: lengthMm,
      diameter_mm: thread.diameterMm,
      ratio,
      limit_ratio: limit('diameters'),
      enough_mm: enoughMm,
    },
  }),
  keep: ({ hole, enoughMm }) => ({ of: hole.name, enoughMm }),
  mend({ of, enoughMm }, { part, tree, length, write }) {
    const enough = roundDown(enoughMm, part.units);
    return [change(`Make the thread ${length(enough)} deep`, setField(tree, of, 'thread-depth', write(enough)))];
  },
});
