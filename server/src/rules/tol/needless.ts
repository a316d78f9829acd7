/** tol/needless – a close tolerance on something that by its own name touches nothing. */
import { gradeOf } from '../../tables/fits';
import { samePlace } from '../../text/tree';
import { fact } from '../kit/message';
import type { Finding, Fix, Rule } from '../kit/rule';
import { sizesOf } from '../kit/sizes';

const NAME = 'tol/needless';

/** Words by which people name what is there for weight or air only. */
const TOUCHES_NOTHING =
  /(^|-)(light|lighten|lightening|relief|relieve|clearance|clear|window|vent|pocketing|weight)(-|$)/;

export const needless: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'A close tolerance on something that touches nothing, by its own name.',
  why: 'A tolerance is measured, and what is measured is paid for. A pocket that only saves weight may be a tenth out without anybody ever knowing.',
  formula:
    'Sizes finer than grade `grade` of ISO 286 on a feature named for what it is there for: lightening, relief, clearance, window, vent. Features that a geometric tolerance or a datum names are left out.',
  limits: [
    {
      name: 'grade',
      value: 11,
      unit: 'count',
      what: 'ISO 286 grade that costs nothing extra',
      source: 'common practice, no source: milling holds it without measuring twice',
    },
  ],
  bad: `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  lightening: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30 ±0.03, y: 20 }, corner-radius: 5, depth: 8 }
`,
  good: `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  lightening: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 5, depth: 8 }
`,
  mends: 'The tolerance taken off: the part’s general tolerance holds.',
  *find({ part, length, limit }): Generator<Finding> {
    const named = new Set([
      ...part.tolerances.flatMap((t) => t.of.map((o) => o.name)),
      ...[...part.datums.values()].map((d) => d.target.name),
    ]);
    for (const { feature, tolerance, length: size, what } of sizesOf(part)) {
      if (!feature || named.has(feature.name) || !TOUCHES_NOTHING.test(feature.name)) continue;
      const { upperMm, lowerMm } = tolerance;
      if (upperMm === undefined || lowerMm === undefined) continue;
      const grade = gradeOf(size.mm, upperMm - lowerMm);
      if (grade === undefined || grade >= limit('grade')) continue;
      yield {
        rule: NAME,
        severity: 'hint',
        message: `The ${what} of ${feature.name} is to be within ${length(upperMm - lowerMm)}, IT${grade}, though by its name it touches nothing: without a tolerance it costs less.`,
        of: [feature.name],
        span: tolerance.span,
        related: [],
        facts: { grade, width_mm: fact(upperMm - lowerMm), limit: limit('grade') },
      };
    }
  },
  *mend(finding, { part, tree }): Generator<Fix> {
    const size = [...sizesOf(part)].find((s) => samePlace(s.tolerance.span, finding.span));
    if (!size) return;
    const { start, end } = tree.locate(size.length.span);
    const written = tree.text.slice(start, end);
    const bare = written.replace(size.tolerance.text, '').trimEnd();
    if (bare !== written && bare !== '')
      yield { title: 'Leave the tolerance off', safe: false, edits: [{ span: size.length.span, newText: bare }] };
  },
};
