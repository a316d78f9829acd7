/** tol/needless – a close tolerance on something that by its own name touches nothing. */

import { gradeOf } from '../../tables/fits';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { memberPhrase } from '../kit/message';
import type { Rule } from '../kit/rule';
import { sizesOf } from '../kit/sizes';

/** Words by which people name what is there for weight or air only. */
const TOUCHES_NOTHING =
  /(^|-)(light|lighten|lightening|relief|relieve|clearance|clear|window|vent|pocketing|weight)(-|$)/;

const BAD = `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  lightening: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30 ±0.03, y: 20 }, corner-radius: 5, depth: 8 }
`;

export const needless: Rule = defineRule({
  name: 'tol/needless',
  severity: 'hint',
  summary: 'A close tolerance is on a feature that touches nothing, by its name.',
  why: 'A tolerance must be measured, and measuring costs time. A pocket that only saves weight may be a tenth out without any harm.',
  formula:
    'Sizes finer than ISO 286 grade `grade` on a feature named lightening, relief, clearance, window or vent. Features that a geometric tolerance or a datum names do not count.',
  limits: [
    {
      name: 'grade',
      value: 11,
      unit: 'count',
      what: 'ISO 286 grade that costs nothing extra.',
      source: 'common practice, no source: milling holds it without measuring twice',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['30 ±0.03', '30']),
  mends: 'Delete the tolerance: the part’s general tolerance then holds.',
  *find({ part, limit }) {
    const named = new Set([
      ...part.tolerances.flatMap((t) => t.of.map((o) => o.name)),
      ...[...part.datums.values()].map((d) => d.target.name),
    ]);
    for (const { feature, tolerance, length, what } of sizesOf(part)) {
      if (!feature || named.has(feature.name) || !TOUCHES_NOTHING.test(feature.name)) continue;
      const { upperMm, lowerMm } = tolerance;
      if (upperMm === undefined || lowerMm === undefined) continue;
      const widthMm = upperMm - lowerMm;
      const grade = gradeOf(length.mm, widthMm);
      if (grade !== undefined && grade < limit('grade'))
        yield { feature, tolerance, size: length, what, widthMm, grade };
    }
  },
  tell: ({ feature, tolerance, what, widthMm, grade }, { length, limit, part }) => ({
    message: `The ${what} of ${memberPhrase(part, feature.name)} has a tolerance ${length(widthMm)} wide (IT${grade}). By its name it touches nothing. Delete the tolerance: it costs less.`,
    has: `IT${grade}`,
    of: [feature.name],
    span: tolerance.span,
    facts: { grade, width_mm: widthMm, limit: limit('grade') },
  }),
  keep: ({ size, tolerance }) => ({ span: size.span, tolerance: tolerance.text }),
  mend({ span, tolerance }, { tree }) {
    const { start, end } = tree.locate(span);
    const written = tree.text.slice(start, end);
    const bare = written.replace(tolerance, '').trimEnd();
    return [change('Delete the tolerance', bare !== written && bare !== '' ? { span, newText: bare } : undefined)];
  },
});
