/** tol/fit-unknown – a tolerance class whose limits are not in the tables. */
import { COARSEST_GRADE, fitLimits, LARGEST_MM } from '../../tables/fits';
import { INCH_FAMILIES, inchLimits, isInchFit } from '../../tables/inch-fits';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';
import { type Size, sizesOf } from '../kit/sizes';

/** ISO 286-1's order, loosest first. */
const LETTERS = 'A B C CD D E EF F FG G H J JS K M N P R S T U V X Y Z ZA ZB ZC'.split(' ');

/** Classes of the same side whose limits are known, the most alike first: the same grade, then the next letters. */
function alike({ length, tolerance }: Size): readonly string[] {
  const { letter, grade } = tolerance.fit!;
  const upper = letter === letter.toUpperCase();
  if (isInchFit(letter)) return inchClasses(length.mm, letter, grade);
  const here = LETTERS.indexOf(letter.toUpperCase());
  const wanted = Math.min(grade, COARSEST_GRADE);
  const far = (l: string) => Math.abs(LETTERS.indexOf(l.toUpperCase()) - here);
  return LETTERS.map((l) => (upper ? l : l.toLowerCase()))
    .filter((l) => fitLimits(length.mm, l, wanted) !== undefined)
    .sort((a, b) => far(a) - far(b))
    .map((l) => `${l}${wanted}`)
    .slice(0, 2);
}

/** The classes of the same family whose limits are known at this size, the next first. */
function inchClasses(mm: number, letter: string, grade: number): readonly string[] {
  const last = INCH_FAMILIES.get(letter.toUpperCase())!;
  return Array.from({ length: last }, (_, i) => i + 1)
    .filter((n) => inchLimits(mm, letter, n) !== undefined)
    .sort((a, b) => Math.abs(a - grade) - Math.abs(b - grade))
    .map((n) => `${letter}${n}`)
    .slice(0, 2);
}

function reason({ length, tolerance }: Size): string {
  const { letter, grade } = tolerance.fit!;
  if (isInchFit(letter)) return `ANSI B4.1 does not have ${letter}${grade} at this size`;
  if (length.mm > LARGEST_MM) return `the tables end at ${LARGEST_MM} mm`;
  if (grade > COARSEST_GRADE) return `the tables end at grade ${COARSEST_GRADE}`;
  return `the tables do not have ${letter} with grade ${grade} at this size`;
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
    diameter: 22 T7
    depth: 8
    bottom: flat
`;

export const fitUnknown: Rule = defineRule({
  name: 'tol/fit-unknown',
  severity: 'warning',
  summary: 'The limits of a tolerance class are not known.',
  why: 'A class stands for two limits from a table. Where the table has none, it cannot be measured at the machine, and not checked here.',
  formula:
    'ISO 286-1 for sizes to 500 mm, grades 1 to 18, A to ZC. The standard has t over 24 mm only, v over 14, y over 18. It has cd, ef and fg to 10 mm; J with grades 6 to 8, j with 5 to 7. ANSI B4.1 to 19.69 in: RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5. Small letters are for the shaft.',
  bounds: 'The tables of ISO 286-1 and ANSI B4.1.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['T7', 'P7']),
  mends: 'Use the nearest classes with known limits, or write the limits: `+0.1/-0`.',
  *find({ part }) {
    for (const size of sizesOf(part)) if (size.tolerance.fit && size.tolerance.upperMm === undefined) yield size;
  },
  tell: (size, { length }) => ({
    message: `The limits of ${length(size.length.mm)} ${size.tolerance.text} are not known: ${reason(size)}. Write them out, for example \`+0.05/-0\`, or use another class.`,
    of: size.feature ? [size.feature.name] : [],
    span: size.tolerance.span,
    facts: { class: size.tolerance.text, grade: size.tolerance.fit!.grade, size_mm: size.length.mm },
  }),
  keep: (size) => ({ span: size.tolerance.span, classes: alike(size) }),
  mend: ({ span, classes }) =>
    classes.map((newText) => change(`Write ${newText}, whose limits are known`, { span, newText })),
});
