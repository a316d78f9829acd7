/** tol/shaft-or-hole – a shaft's class on a hole, or a hole's on a shaft. */

import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';
import { type Size, sizesOf } from '../kit/sizes';

/** The class with its letter as the side wants it. */
function turned({ side, tolerance }: Size): string | undefined {
  const fit = tolerance.fit;
  if (!fit || side === 'neither') return undefined;
  const letter = side === 'inside' ? fit.letter.toUpperCase() : fit.letter.toLowerCase();
  return letter === fit.letter ? undefined : `${letter}${fit.grade}`;
}

const BAD = `part: hub
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 15 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 h7
    depth: 8
    bottom: flat
`;

export const shaftOrHole: Rule = defineRule({
  name: 'tol/shaft-or-hole',
  severity: 'warning',
  summary: 'A tolerance class for a shaft is on a hole, or one for a hole on a shaft.',
  why: 'A capital letter is a hole, a small one a shaft: in ISO 286, and here in ANSI B4.1. H7 on a hole lets it be larger than its nominal size, h7 smaller. The pin that should slide in must then be pressed.',
  formula:
    'Openings (holes, counterbores, pockets, slots) have capital letters; outside sizes (the body, contours, islands) have small ones.',
  bounds: 'ISO 286-1: capital letters for openings, small letters for outside sizes.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['22 h7', '22 H7']),
  mends: 'Use the same class with the other letter.',
  *find({ part }) {
    for (const size of sizesOf(part)) {
      const right = turned(size);
      if (right) yield { size, right };
    }
  },
  tell({ size: { tolerance, feature, side, length: size }, right }, { length }) {
    const [is, wants] = side === 'inside' ? ['a shaft', 'an opening'] : ['a hole', 'an outside'];
    return {
      message: `The size ${length(size.mm)} is that of ${wants}. ${tolerance.text} is a class for ${is}. Write ${right}, or the limits themselves: \`+0.05/-0\`.`,
      has: tolerance.text,
      needs: right,
      of: feature ? [feature.name] : [],
      span: tolerance.span,
      facts: { class: tolerance.text, turned: right, size_mm: size.mm },
    };
  },
  keep: ({ size, right }) => ({ span: size.tolerance.span, newText: right }),
  mend: (edit) => [change(`Write ${edit.newText}`, edit)],
});
