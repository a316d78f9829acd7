/** machine/weight – more than the table bears. */

import { materialOf } from '../../model/material-of';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { stockVolumeMm3 } from '../../model/stock';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { machinesFor } from './shared';

/** The heaviest of the vises that its set-ups hold it in, where the shop says what they weigh. */
function viseOf({ setups }: Part, shop: Shop): number | undefined {
  const named = (setups ?? []).flatMap((s) => s.hold?.vise?.name ?? []);
  const weighed = shop.vises.filter((v) => named.includes(v.name)).flatMap((v) => v.massKg ?? []);
  return weighed.length > 0 ? Math.max(...weighed) : undefined;
}

const BAD = `part: block
units: mm
material: steel-c45
body: { x: 300, y: 200, z: 220 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: 20 }
`;

export const weight: Rule = defineRule({
  name: 'machine/weight',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The stock and its vise weigh more than the table carries.',
  why: 'A table with too much load bends its ways and wears its screws. One person cannot lift a heavy workpiece into the vise. Follow your shop’s rules for lifting; ask trained staff.',
  formula:
    'Stock volume × density, plus the `mass` of the vise that holds it, or `vise`, against `table-load` of the machine. Not reported where the shop gives none.',
  limits: [
    {
      name: 'vise',
      value: 30,
      unit: 'count',
      what: 'Kilograms allowed for the vise or fixture under the workpiece.',
      source: 'common practice, no source: a 125 mm machine vise weighs 20 to 35 kg',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['x: 300, y: 200, z: 220', 'x: 200, y: 120, z: 80']),
  *find({ part, shop, limit }) {
    const material = materialOf(part);
    const loads = machinesFor(part, shop).flatMap((m) =>
      m.tableLoadKg === undefined ? [] : [{ name: m.name, kg: m.tableLoadKg }],
    );
    if (!part.body || !material || loads.length === 0 || loads.length < machinesFor(part, shop).length) return;
    const stockKg = (stockVolumeMm3(part) * material.densityGPerCm3) / 1e6;
    const viseKg = viseOf(part, shop) ?? limit('vise');
    const best = loads.reduce((a, b) => (a.kg >= b.kg ? a : b));
    if (stockKg + viseKg > best.kg + ROUNDING) yield { body: part.body, stockKg, viseKg, best };
  },
  tell({ body, stockKg, viseKg, best }, { part }) {
    const all = stockKg + viseKg;
    return {
      message: `The stock weighs ${trimmed(stockKg, 1)} kg, with its vise ${trimmed(all, 1)} kg. The table of ${best.name} carries ${best.kg} kg. Rough it out elsewhere first, or make it of several pieces. Follow your shop’s rules for lifting; ask trained staff.`,
      has: `${best.kg} kg`,
      needs: `${trimmed(all, 1)} kg`,
      of: [],
      span: part.stock.written ? part.stock.span : body.span,
      facts: { stock_kg: stockKg, vise_kg: viseKg, with_vise_kg: all, bears_kg: best.kg, machine: best.name },
    };
  },
});
