/** machine/no-coolant – a gummy alloy, a deep hole, and nothing to wash the chips out. */

import { materialOf } from '../../model/material-of';
import { boresOf } from '../../process/drilling';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { figure, memberOf, PRINTED_ALIKE_RATIO, spanOf } from '../kit/message';
import type { Rule } from '../kit/rule';
import { machinesFor } from './shared';

/** Alloys whose chips weld to the lips without something wet. Common practice, no source. */
const STICKY: ReadonlySet<string> = new Set(['aluminium', 'copper', 'stainless', 'titanium']);

const BAD = `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 30 }
features:
  oil-way: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: 22 }
`;

export const noCoolant: Rule = defineRule({
  name: 'machine/no-coolant',
  severity: 'warning',
  summary: 'A deep hole in a gummy alloy, on a machine without flood coolant.',
  why: 'In aluminium and stainless steel the chips weld into the flutes of a dry drill. It then turns in its own plug and breaks. Cutting oil or alcohol, more pecks and less speed prevent it.',
  formula:
    'For holes over `dry` diameters deep in aluminium, copper alloys, stainless steel or titanium. No machine of the shop has flood coolant. `mist` and air allow half as much again.',
  limits: [
    {
      name: 'dry',
      value: 3,
      unit: 'ratio',
      what: 'Depth in diameters that a twist drill drills dry in a gummy alloy.',
      source: 'common practice, no source',
    },
  ],
  shop: `shop: attic
units: mm
machines:
  attic-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [200, 4000], power: 0.75 kW }, feed: 1000 mm/min, coolant: none, zero-error: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-5: { kind: drill, diameter: 5, flute-length: 52, point: 118, material: hss }
`,
  bad: BAD,
  good: edited(BAD, ['depth: 22', 'depth: 12']),
  *find({ part, shop, solid, limit }) {
    const material = materialOf(part);
    const machines = machinesFor(part, shop);
    if (!material || !STICKY.has(material.family) || machines.length === 0) return;
    if (machines.some((m) => m.coolant === 'flood')) return;
    const wet = machines.some((m) => m.coolant !== 'none');
    const most = limit('dry') * (wet ? 1.5 : 1);
    for (const hole of part.features) {
      if (hole.kind !== 'hole') continue;
      const bores = boresOf(hole, part, solid);
      const deepest = bores.reduce((a, b) => (a && a.drilledMm >= b.drilledMm ? a : b), bores[0]);
      const ratio = deepest ? deepest.drilledMm / (2 * deepest.radiusMm) : 0;
      if (deepest && ratio > most + PRINTED_ALIKE_RATIO) yield { hole, deepest, ratio, most, wet, material };
    }
  },
  tell: ({ hole, deepest, ratio, most, wet, material }) => ({
    message: `The hole is ${figure(ratio, most)} diameters deep in ${material.title} with ${wet ? 'mist or air only' : 'no coolant'}. Over ${figure(most, ratio)} the chips weld into the flutes (rule of thumb). Use less speed, peck, and brush on cutting oil as your shop’s rules allow.`,
    has: `${figure(ratio, most)} × diameter`,
    needs: `${figure(most, ratio)} × or less`,
    of: [memberOf(deepest.of)],
    span: spanOf(hole, 'depth'),
    facts: { ratio, limit: most, coolant: wet ? 'mist or air' : 'none' },
  }),
});
