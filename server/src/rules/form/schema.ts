import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

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
    dept: 3
`;

/** Raised while the text is read and resolved. */
export const schema: Rule = defineRule({
  name: 'form/schema',
  severity: 'error',
  summary: 'The text is not what a part file can say.',
  why: 'A field that is missing, misspelt or of the wrong kind leaves open what is made. Its feature is not checked until the text is corrected; everything else is.',
  formula:
    'Each field is compared with the format (`schemas/FORMAT.md`): its name and the kind of its value. Fields that must be there are looked for.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['dept', 'depth']),
  when: 'read',
  mends: 'Write the nearest field or word, where one was probably meant.',
  find: () => [],
  tell: (hit: never) => hit,
});
