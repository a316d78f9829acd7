import { memo } from '../../memo';
import type { Feature, Length } from '../../model/model';
import { valuesOf } from '../../model/values';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { PRINTED_ALIKE_MM } from '../kit/message';
import type { Rule } from '../kit/rule';

const UNSEEN = new Set(['tolerance', 'places', 'startMm']);

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 0.03
`;

export const tooSmallToSee: Rule = defineRule({
  name: 'form/too-small-to-see',
  severity: 'warning',
  summary: 'A size of a feature is smaller than a manual set-up can hit.',
  why: 'A pocket a few hundredths deep, or a tiny chamfer, is less than the error of zero. It is there on one part and missing on the next. Usually a unit or a decimal point is wrong.',
  formula:
    'Every size that is written for a feature against `size`. Tolerances do not count, and neither does 0, which means none.',
  limits: [
    {
      name: 'size',
      value: 0.05,
      unit: 'mm',
      what: 'Smaller sizes are reported.',
      source: 'common practice, no source: about what an edge finder repeats to, with the sheet of a note between',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['depth: 0.03', 'depth: 3 ±0.02']),
  when: 'text',
  *find({ part, limit }) {
    const least = limit('size');
    for (const feature of part.features) {
      for (const value of lengthsOf(feature))
        if (Math.abs(value.mm) < least - PRINTED_ALIKE_MM) yield { feature, value };
    }
  },
  tell({ feature, value }, { length, limit }) {
    const least = limit('size');
    return {
      message: `The size ${length(value.mm)} is smaller than a manual set-up can hit (${length(least)}). Check the unit and the decimal point, or delete it.`,
      has: length(value.mm),
      needs: length(least),
      of: [feature.name],
      span: value.span,
      facts: { size_mm: value.mm, limit_mm: least },
    };
  },
});

/** What is written for a feature and is not 0. */
const lengthsOf = memo((feature: Feature): readonly Length[] => {
  const lengths: Length[] = [];
  for (const { type, value, path } of valuesOf(feature)) {
    if (type === 'length' && !value.from && value.mm !== 0 && !path.some((p) => UNSEEN.has(p))) lengths.push(value);
  }
  return lengths;
});
