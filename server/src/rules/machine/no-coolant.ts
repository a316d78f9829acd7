/** machine/no-coolant – a gummy alloy, a deep hole, and nothing to wash the chips out. */
import { boresOf } from '../../process/drilling';
import { fact, memberOf, spanOf, trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { machinesFor, materialOf } from './shared';

const NAME = 'machine/no-coolant';

/** Alloys whose chips weld to the lips without something wet. Common practice, no source. */
const STICKY: ReadonlySet<string> = new Set(['aluminium', 'copper', 'stainless', 'titanium']);

export const noCoolant: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A deep hole in a gummy alloy, on a machine without flood coolant.',
  why: 'In aluminium and stainless steel the chips weld themselves into the flutes of a dry drill, which then turns in its own plug and breaks. With a brush of cutting oil or alcohol, more pecks and less speed it goes; dry at full speed it does not.',
  formula:
    'For holes drilled more than `dry` diameters deep in aluminium, copper alloys, stainless steel or titanium, where no machine of the shop has flood; `mist` and air allow half as much again.',
  limits: [
    {
      name: 'dry',
      value: 3,
      unit: 'ratio',
      what: 'Diameters that a twist drill goes dry in a gummy alloy',
      source: 'common practice, no source',
    },
  ],
  shop: `shop: attic
units: mm
machines:
  attic-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [200, 4000], power: 0.75 kW }, feed: 1000 mm/min, coolant: none, locates: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-5: { kind: drill, diameter: 5, flute-length: 52, point: 118, material: hss }
`,
  bad: `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 30 }
features:
  oil-way: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: 22 }
`,
  good: `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 30 }
features:
  oil-way: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: 12 }
`,
  *find({ part, shop, solid, limit }): Generator<Finding> {
    const material = materialOf(part);
    const machines = machinesFor(part, shop);
    if (!material || !STICKY.has(material.family) || machines.length === 0) return;
    if (machines.some((m) => m.coolant === 'flood')) return;
    const best = machines.some((m) => m.coolant !== 'none') ? 'mist or air' : 'none';
    const most = limit('dry') * (best === 'none' ? 1 : 1.5);
    for (const feature of part.features) {
      if (feature.kind !== 'hole') continue;
      const deepest = boresOf(feature, part, solid).reduce(
        (a, b) => (a && a.drilledMm >= b.drilledMm ? a : b),
        boresOf(feature, part, solid)[0],
      );
      if (!deepest) continue;
      const ratio = deepest.drilledMm / (2 * deepest.radiusMm);
      if (ratio <= most + 1e-9) continue;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `Drilled ${trimmed(ratio, 1)} diameters deep in ${material.title} with ${best === 'none' ? 'no coolant' : 'mist or air only'} (a rule of thumb: to ${trimmed(most, 1)}): the chips weld themselves into the flutes. Go slower, clear the chips every diameter, and brush on cutting oil or alcohol as the shop’s rules allow.`,
        of: [memberOf(deepest.of)],
        span: spanOf(feature, 'depth'),
        related: [],
        facts: { ratio: fact(ratio), limit: fact(most), coolant: best },
      };
    }
  },
};
