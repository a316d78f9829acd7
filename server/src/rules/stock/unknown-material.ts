import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

/** Raised while the text is resolved. */
const BAD = `part: cover
units: mm
material: aluminium-6016
body: { x: 60, y: 40, z: 8 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`;

export const unknownMaterial: Rule = defineRule({
  name: 'stock/unknown-material',
  severity: 'warning',
  summary: 'The material is not in the table.',
  why: 'Without its density, stiffness and machining group the part has no mass. Speeds, forces and wall limits are those of an unnamed metal, and its hazards are not reported.',
  formula: 'The name is compared with the names of the materials in the tables, and with their other spellings.',
  bounds: 'The table of materials (`scribeline tables`), and those of the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['aluminium-6016', 'aluminium-6061-t6']),
  when: 'read',
  mends: 'Use the nearest known material.',
  find: () => [],
  tell: (hit: never) => hit,
});
