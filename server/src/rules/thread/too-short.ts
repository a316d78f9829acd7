/** thread/too-short – too few turns for the material. */

import type { Hole } from '../../model/model';
import { boreOf } from '../../process/tapping';
import { findMaterial } from '../../tables/materials';
import { type Engaged, engaged } from '../../tables/thread-strength';
import type { Thread } from '../../tables/threads';
import { setLength } from '../kit/edits';
import { setField, subjectOf } from '../kit/fields';
import { fact, roundDown, roundUp, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { type Holding, holding, lengthSpan, measured } from './judge';

const THUMB: Readonly<Record<Holding, number>> = { steel: 1, aluminium: 1.5, plastic: 2 };

/** Loads of a thread so long, where the strength of the material is known. */
function pullOf(hole: Hole, thread: Thread, lengthMm: number, { part, shop, limit }: RuleContext): Engaged | undefined {
  const materialMPa = part.material && findMaterial(part.material.name)?.ultimateMPa;
  return materialMPa === undefined
    ? undefined
    : engaged(thread, boreOf(hole, shop), lengthMm, { screwMPa: limit('screw'), materialMPa });
}

/** The shorter of what the rule of thumb and the strength ask for; a shop's own rule of thumb goes before both. */
function neededMm(hole: Hole, thread: Thread, lengthMm: number, material: Holding, context: RuleContext): number {
  const thumb = context.limit(material);
  const pull = thumb === THUMB[material] ? pullOf(hole, thread, lengthMm, context) : undefined;
  const thumbMm = thumb * thread.diameterMm;
  return pull ? Math.min(thumbMm, context.limit('margin') * pull.equalMm) : thumbMm;
}

export const tooShort: Rule = {
  name: 'thread/too-short',
  severity: 'hint',
  summary: 'A thread is too short to hold its screw in this material.',
  why: 'A soft material strips before the screw breaks unless enough turns share the load: about one diameter in steel, one and a half in aluminium, two in plastics. Stronger materials need fewer turns than the rule of thumb, and where the load is small a shorter thread is fine.',
  formula:
    '`ratio` = `length_mm` of thread in material / `diameter_mm`, against the rule of thumb for the material; and `length_mm` against `equal_mm` × `margin`, the length at which the thread shears off just as the screw breaks: `equal_mm` = screw strength × stress area / (½ material strength × shear area per mm), stress area π/4 (D − 0.9382 P)², shear area by least material, π D (0.5 + 0.577 (D − E) / P) with the least major diameter D of a 6g screw (2A) and the greatest pitch diameter E of a 6H hole (2B); the screw’s own thread, along the bore, where that is weaker. A hint only where the thread is under both; by the rule of thumb alone where the shop sets one of its own, or the material’s strength is not known.',
  limits: [
    {
      name: 'screw',
      value: 800,
      unit: 'mpa',
      what: 'tensile strength of the screw that the thread is to hold as well as',
      source: 'ISO 898-1, property class 8.8',
    },
    {
      name: 'margin',
      value: 1.25,
      unit: 'ratio',
      what: 'over the length at which screw and thread are equally strong: turns share the load unevenly',
      source: 'common practice, no source; the formula is that of Machinery’s Handbook, after FED-STD-H28',
    },
    {
      name: 'steel',
      value: THUMB.steel,
      unit: 'ratio',
      what: 'least length of thread, of its diameter, in steel and cast iron',
      source: 'common practice, no source (1 to 1.5)',
    },
    {
      name: 'aluminium',
      value: THUMB.aluminium,
      unit: 'ratio',
      what: 'least length of thread, of its diameter, in aluminium, brass and other soft metals',
      source: 'common practice, no source (1.5 to 2)',
    },
    {
      name: 'plastic',
      value: THUMB.plastic,
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
      const least = neededMm(hole, thread, lengthMm, material, context) / thread.diameterMm;
      if (ratio >= least - 1e-6) continue;
      const fits = Math.floor((lengthMm / least) * 10 + 1e-6) / 10;
      const pull = pullOf(hole, thread, lengthMm, context);
      yield {
        rule: 'thread/too-short',
        severity: 'hint',
        message: `${length(lengthMm)} of ${thread.designation} thread is ${trimmed(ratio, 2)} × D; in ${part.material!.name} it takes ${trimmed(least, 2)} × D (${length(least * thread.diameterMm)}, ${least === limit(material) ? 'a rule of thumb' : 'by its strength'}) to hold as well as the screw${pull ? `: it strips at about ${trimmed(pull.stripsN / 1000, 1)} kN, a screw of ${limit('screw')} N/mm² breaks at ${trimmed(pull.breaksN / 1000, 1)} kN` : ''}. A screw no thicker than ${length(fits)}, more material, or a thread insert would do.`,
        of: [hole.name],
        span: lengthSpan(hole),
        related: [],
        facts: {
          length_mm: fact(lengthMm),
          diameter_mm: fact(thread.diameterMm),
          ratio: fact(ratio),
          limit_ratio: fact(least),
          needed_mm: fact(least * thread.diameterMm),
          screw_mm: fact(fits),
          ...(pull && {
            equal_mm: fact(pull.equalMm),
            strips_kn: fact(pull.stripsN / 1000),
            breaks_kn: fact(pull.breaksN / 1000),
            screw_mpa: limit('screw'),
          }),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    const material = holding(context.part);
    if (hole?.kind !== 'hole' || !hole.thread?.spec || !material) return;
    const { part, length, tree, write, solid } = context;
    const { spec } = hole.thread;
    const needMm = neededMm(hole, spec, 0, material, context);
    const need = roundUp(needMm, part.units);
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
    const finer = roundDown((hole.depth.mm / needMm) * spec.diameterMm, part.units);
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
