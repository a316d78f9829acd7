/** thread/too-short – too few turns for the material. */
import { setLength } from '../edits';
import { setField, subjectOf } from '../fields';
import { fact, roundDown, roundUp, trimmed } from '../message';
import type { Finding, Fix, Rule } from '../rule';
import { holding, lengthSpan, measured } from './judge';

export const tooShort: Rule = {
  name: 'thread/too-short',
  severity: 'hint',
  summary: 'A thread is too short to hold its screw in this material.',
  why: 'A soft material strips before the screw breaks unless enough turns share the load: about one diameter in steel, one and a half in aluminium, two in plastics. Where the load is small a shorter thread is fine.',
  formula: '`ratio` = `length_mm` of thread in material / `diameter_mm`, against the limit of the material.',
  limits: [
    {
      name: 'steel',
      value: 1,
      unit: 'ratio',
      what: 'least length of thread, of its diameter, in steel and cast iron',
      source: 'common practice, no source (1 to 1.5)',
    },
    {
      name: 'aluminium',
      value: 1.5,
      unit: 'ratio',
      what: 'least length of thread, of its diameter, in aluminium, brass and other soft metals',
      source: 'common practice, no source (1.5 to 2)',
    },
    {
      name: 'plastic',
      value: 2,
      unit: 'ratio',
      what: 'least length of thread, of its diameter, in plastics and laminates',
      source: 'common practice, no source',
    },
  ],
  bad: `part: flange
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 5 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    depth: through
`,
  good: `part: flange
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 8 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M5
    depth: through
`,
  mends: 'A longer thread, where the hole has room for it; in a through hole a thinner screw.',
  *find(context): Generator<Finding> {
    const { length, limit, part } = context;
    const material = holding(part);
    if (!material) return;
    for (const { hole, thread, lengthMm, ratio } of measured(context)) {
      const least = limit(material);
      if (ratio >= least - 1e-6) continue;
      const fits = Math.floor((lengthMm / least) * 10 + 1e-6) / 10;
      yield {
        rule: 'thread/too-short',
        severity: 'hint',
        message: `${length(lengthMm)} of ${thread.designation} thread is ${trimmed(ratio, 2)} × D; in ${part.material!.name} it takes ${least} × D (${length(least * thread.diameterMm)}, a rule of thumb) to hold as well as the screw. A screw no thicker than ${length(fits)}, more material, or a thread insert would do.`,
        of: [hole.name],
        span: lengthSpan(hole),
        related: [],
        facts: {
          length_mm: fact(lengthMm),
          diameter_mm: fact(thread.diameterMm),
          ratio: fact(ratio),
          limit_ratio: least,
          needed_mm: fact(least * thread.diameterMm),
          screw_mm: fact(fits),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    const material = holding(context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec || !material) return;
    const { part, length, limit, tree, write, solid } = context;
    const need = roundUp(limit(material) * hole.thread.spec.diameterMm, part.units);
    if (hole.threadDepth && !hole.threadDepth.from) {
      const longer = setLength(hole.threadDepth, need, part);
      if (longer) yield { title: `Thread it ${length(need)} deep`, safe: false, edits: [longer] };
    }
    if (!hole.depth.through && hole.depth.length) {
      const deep = roundUp(need + 4 * hole.thread.spec.pitchMm, part.units);
      const depth = setLength(hole.depth.length, deep, part);
      const thread = setField(tree, hole.name, 'thread-depth', write(need));
      if (depth && thread && deep > hole.depth.mm && solid.voids.length > 0)
        yield {
          title: `Drill it ${length(deep)} and thread it ${length(need)} deep`,
          safe: false,
          edits: [depth, ...thread],
        };
    }
    const finer = roundDown(hole.depth.mm / limit(material), part.units);
    const coarse = [2, 2.5, 3, 4, 5, 6, 8, 10, 12]
      .filter((d) => d <= finer && d < hole.thread!.spec!.diameterMm)
      .at(-1);
    if (
      coarse &&
      hole.thread.spec.series === 'coarse' &&
      !hole.diameterGiven &&
      (!hole.threadDepth || hole.threadDepth.from)
    )
      yield { title: `Take M${coarse}`, safe: false, edits: [{ span: hole.thread.span, newText: `M${coarse}` }] };
  },
};
