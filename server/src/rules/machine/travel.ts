/** machine/travel – the part is longer than any table of the shop moves. */
import { stockSizeMm } from '../../spec/stock';
import { fact } from '../message';
import type { Finding, Rule } from '../rule';
import { certain, machinesFor } from './shared';

const NAME = 'machine/travel';

export const travel: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'The part is longer than the machine can travel.',
  why: 'A cut ends where the table’s screw ends. A longer part has to be moved in the vise and found again, which costs a set-up and a part of its accuracy, or goes to another machine.',
  formula:
    'The part’s three sizes, longest first, against each machine’s two travels across the table, longest first, and its travel along the spindle: the part may be turned, so it fits where one order of its sizes does. `size_mm` is the size that is too much, `travel_mm` the most the shop has for it.',
  limits: [],
  bad: `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 480, y: 60, z: 20 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`,
  good: `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 380, y: 60, z: 20 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`,
  *find({ part, shop, length }): Generator<Finding> {
    const machines = machinesFor(part, shop);
    if (!part.body || machines.length === 0) return;
    const sizes = [...stockSizeMm(part)].sort((a, b) => b - a);
    const tooMuch = machines.map(({ name, travelMm }) => {
      const table = [travelMm[0], travelMm[1]].sort((a, b) => b - a);
      // The two longer sides lie across the table, the shortest stands up.
      const over = [
        [sizes[0]!, table[0]!],
        [sizes[1]!, table[1]!],
        [sizes[2]!, travelMm[2]],
      ].find(([size, travel]) => size! > travel! + 1e-6);
      return over && { name, sizeMm: over[0]!, travelMm: over[1]! };
    });
    if (tooMuch.some((t) => t === undefined)) return;
    const best = tooMuch.reduce((a, b) => (a!.travelMm >= b!.travelMm ? a : b))!;
    yield {
      rule: NAME,
      severity: certain(shop),
      message: `Its stock is ${length(best.sizeMm)} long, and ${best.name} travels ${length(best.travelMm)} that way: ${length(best.sizeMm - best.travelMm)} too much. Make it in two pieces, or move it along the vise and find it again.`,
      of: [],
      span: part.body.span,
      related: [],
      facts: { size_mm: fact(best.sizeMm), travel_mm: fact(best.travelMm), machine: best.name },
    };
  },
};
