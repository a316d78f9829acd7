/** tol/fit-side – a shaft's class on a hole, or a hole's on a shaft. */

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

export const fitSide: Rule = defineRule({
  name: 'tol/fit-side',
  severity: 'warning',
  summary: 'A tolerance class is written for the other side: a shaft’s on a hole, or a hole’s on what goes into it.',
  why: 'In ISO 286 a capital letter is a hole and a small one a shaft. H7 on a hole lets it be wider than its nominal size, h7 narrower: the pin that should slide in has to be pressed.',
  formula:
    'Openings (holes, counterbores, pockets, slots) take capital letters; what stands (the body, contours, islands) small ones.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['22 h7', '22 H7']),
  mends: 'The same class with its letter turned.',
  *find({ part }) {
    for (const size of sizesOf(part)) {
      const right = turned(size);
      if (right) yield { size, right };
    }
  },
  tell({ size: { tolerance, feature, side, length: size }, right }, { length }) {
    const [is, wants] = side === 'inside' ? ['a shaft', 'an opening'] : ['a hole', 'what stands'];
    return {
      message: `${tolerance.text} is a class for ${is}, but ${length(size.mm)} is the size of ${wants}: ${right} is meant, perhaps. Limits written out, \`+0.05/-0\`, leave no doubt.`,
      of: feature ? [feature.name] : [],
      span: tolerance.span,
      facts: { class: tolerance.text, turned: right, size_mm: size.mm },
    };
  },
  keep: ({ size, right }) => ({ span: size.tolerance.span, newText: right }),
  mend: (edit) => [change(`Write ${edit.newText}`, edit)],
});
