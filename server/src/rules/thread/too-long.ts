/** thread/too-long – more turns than hold anything. */
import { setField, subjectOf } from '../kit/fields';
import { fact, roundDown, trimmed } from '../kit/message';
import type { Finding, Fix, Rule } from '../kit/rule';
import { lengthSpan, measured } from './judge';

export const tooLong: Rule = {
  name: 'thread/too-long',
  severity: 'hint',
  summary: 'A thread is longer than its screw can use.',
  why: 'The first few turns carry nearly all the load; beyond two or three diameters more turns hold nothing, and each is more tapping, more heat and more chance of a broken tap.',
  formula: '`ratio` = `length_mm` of thread / `diameter_mm`, against `diameters`.',
  limits: [
    {
      name: 'diameters',
      value: 2.5,
      unit: 'ratio',
      what: 'length of thread, of its diameter, beyond which more buys nothing',
      source: 'common practice, no source (2 to 3 diameters)',
    },
  ],
  bad: `part: pillar
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
`,
  good: `part: pillar
material: aluminium-6061-t6
body: { x: 20, y: 20, z: 40 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    thread-depth: 10
    depth: 15
`,
  mends: 'A thread as deep as the limit.',
  *find(context): Generator<Finding> {
    const { length, limit } = context;
    for (const { hole, thread, lengthMm, ratio } of measured(context)) {
      if (ratio <= limit('diameters') + 1e-6) continue;
      yield {
        rule: 'thread/too-long',
        severity: 'hint',
        message: `${length(lengthMm)} of ${thread.designation} thread is ${trimmed(ratio, 1)} × D; beyond ${limit('diameters')} × D (a rule of thumb) more turns hold nothing. ${length(limit('diameters') * thread.diameterMm)} would do.`,
        of: [hole.name],
        span: lengthSpan(hole),
        related: [],
        facts: {
          length_mm: fact(lengthMm),
          diameter_mm: fact(thread.diameterMm),
          ratio: fact(ratio),
          limit_ratio: limit('diameters'),
          enough_mm: fact(limit('diameters') * thread.diameterMm),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec) return;
    const enough = roundDown(context.limit('diameters') * hole.thread.spec.diameterMm, context.part.units);
    const edits = setField(context.tree, hole.name, 'thread-depth', context.write(enough));
    if (edits) yield { title: `Thread only ${context.length(enough)}`, safe: false, edits };
  },
};
