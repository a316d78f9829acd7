import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
parameters:
  lean: 30 deg
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: lean / 10
`;

/** Raised while the text is resolved. */
export const unit: Rule = defineRule({
  name: 'form/unit',
  severity: 'error',
  summary: 'The units of an expression do not fit together.',
  why: 'A length plus an angle, or a diameter in degrees, is a slip that would make a scrapped part.',
  formula:
    'Lengths add to lengths and angles to angles. A bare number has the unit of the value beside it. A product of two lengths is an area: allowed only on the way, as in `sqrt(a*a + b*b)`.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['depth: lean / 10', 'depth: 3 * tan(lean) + 1']),
  when: 'read',
  find: () => [],
  tell: (hit: never) => hit,
});
