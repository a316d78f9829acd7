/** machine/weight – more than the table bears. */

import { stockVolumeMm3 } from '../../geometry/stock-volume';
import { materialOf } from '../../model/material-of';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { machinesFor } from './shared';

interface Fixture {
  readonly kg: number;
  readonly name?: string;
}

/** Cast iron, g/cm³ (EN-GJL-250, EN 1561); its foot is taken as large as its upright side: common practice, no source. */
const PLATE = { densityGPerCm3: 7.2, sides: 2 } as const;

/** The heaviest of what its set-ups hold it in: vises that the shop weighs, angle plates by their sizes, else what is usual. */
function fixtureOf({ setups }: Part, shop: Shop, usualKg: number): Fixture {
  const holds = (setups ?? []).flatMap((s) => s.hold ?? []);
  const plates = shop.anglePlates
    .filter((p) => holds.some((h) => h.anglePlate?.name === p.name))
    .map(({ name, widthMm, heightMm, thicknessMm }): Fixture => {
      const sideMm3 = widthMm * heightMm * thicknessMm;
      return { name, kg: (PLATE.sides * sideMm3 * PLATE.densityGPerCm3) / 1e6 };
    });
  const vises = shop.vises
    .filter((v) => holds.some((h) => h.vise?.name === v.name))
    .flatMap((v): Fixture | readonly Fixture[] => (v.massKg === undefined ? [] : { kg: v.massKg }));
  const onlyPlates = plates.length > 0 && holds.every((h) => h.anglePlate);
  const others = vises.length > 0 ? vises : onlyPlates ? [] : [{ kg: usualKg }];
  return [...plates, ...others].reduce((a, b) => (b.kg > a.kg ? b : a));
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
  summary: 'The stock and what holds it weigh more than the table carries.',
  why: 'A table with too much load bends its ways and wears its screws. One person cannot lift a heavy workpiece into the vise. Follow your shop’s rules for lifting; ask trained staff.',
  formula:
    'Stock volume × density, plus the `mass` of the vise that holds it, or `vise`, against `table-load` of the machine. An angle plate counts by its sizes: two sides of cast iron, 7.2 g/cm³. Not reported where the shop gives none.',
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
    const { kg: viseKg, name } = fixtureOf(part, shop, limit('vise'));
    const best = loads.reduce((a, b) => (a.kg >= b.kg ? a : b));
    if (stockKg + viseKg > best.kg + ROUNDING) yield { body: part.body, stockKg, viseKg, name, best };
  },
  tell({ body, stockKg, viseKg, name = 'its vise', best }, { part }) {
    const all = stockKg + viseKg;
    return {
      message: `The stock weighs ${trimmed(stockKg, 1)} kg, with ${name} ${trimmed(all, 1)} kg. The table of ${best.name} carries ${best.kg} kg. Rough it out elsewhere first, or make it of several pieces. Follow your shop’s rules for lifting; ask trained staff.`,
      has: `${best.kg} kg`,
      needs: `${trimmed(all, 1)} kg`,
      of: [],
      span: part.stock.written ? part.stock.span : body.span,
      facts: { stock_kg: stockKg, vise_kg: viseKg, with_vise_kg: all, bears_kg: best.kg, machine: best.name },
    };
  },
});
