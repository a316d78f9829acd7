/** safety/material – chips that burn, dust that harms. */

import { materialOf } from '../../model/material-of';
import { CAUTIONS } from '../../tables/cautions.data';
import type { Material } from '../../tables/materials';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

/** That acetal and brass want clean hands and sharp tools is everyday knowledge, and no finding; what burns or poisons is, and what a shop wrote itself. */
const EVERYDAY: ReadonlySet<Material['caution']> = new Set([
  CAUTIONS.lead,
  CAUTIONS.leaded,
  CAUTIONS.formaldehyde,
  CAUTIONS.fluorine,
  CAUTIONS.strings,
]);

const BAD = `part: cover
units: mm
material: magnesium-az31b
body: { x: 60, y: 40, z: 8 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`;

export const material: Rule = defineRule({
  name: 'safety/material',
  severity: 'hint',
  summary: 'The chips or the dust of this material can hurt.',
  why: 'Magnesium and fine titanium chips burn, and water feeds a magnesium fire. Keep its speed under 150 m/min. The dust of beryllium copper and of glass and carbon fibre harms lungs. Follow your shop’s rules; ask trained staff whether the material may be cut there at all.',
  formula:
    'By the material’s row in the tables: magnesium (T.O. 1-1A-9), titanium, beryllium copper (OSHA 29 CFR 1910.1024), glass and carbon fibre. Also what a shop says itself of a material of its own.',
  bounds: 'The sources that are named above.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['magnesium-az31b', 'aluminium-6061-t6']),
  when: 'text',
  *find({ part }) {
    const found = materialOf(part);
    const caution = found?.caution;
    if (part.material && caution && !EVERYDAY.has(caution)) yield { span: part.material.span, found, caution };
  },
  tell: ({ span, found, caution }) => ({
    message: `${caution.text} Follow your shop’s rules; ask trained staff.`,
    of: [],
    span,
    facts: { material: found.name, source: caution.source },
  }),
});
