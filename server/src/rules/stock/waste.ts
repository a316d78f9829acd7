/** stock/waste – most of the bar goes into chips. */

import { stockVolumeMm3 } from '../../geometry/stock-volume';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { figure } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: fork
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 40 }
features:
  throat: { kind: step, face: top, along: right, width: 77, depth: 37.5 }
`;

export const waste: Rule = defineRule({
  name: 'stock/waste',
  severity: 'hint',
  summary: 'Most of the stock is cut away.',
  why: 'Material that is bought and cut away costs machine time, wear and cleaning. Two simple pieces with screws, a bent sheet or a nearer bar size are often as good.',
  formula: 'The volume of the stock over that of the finished part is compared with `ratio`.',
  limits: [
    {
      name: 'ratio',
      value: 8,
      unit: 'ratio',
      what: 'Largest volume of the stock over that of the part.',
      source: 'common practice, no source: 2 to 5 is usual for parts from bar',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['width: 77, depth: 37.5', 'width: 40, depth: 18']),
  *find({ part, solid: { measures }, limit }) {
    const bought = stockVolumeMm3(part);
    if (!part.body || !(bought > 0) || !measures.exact || !(measures.volumeMm3 > 0)) return;
    const ratio = bought / measures.volumeMm3;
    if (ratio > limit('ratio') + ROUNDING) yield { body: part.body, ratio, percent: Math.round((1 - 1 / ratio) * 100) };
  },
  tell: ({ body, ratio, percent }, { part, limit }) => ({
    message: `The stock has ${figure(ratio)} times the volume of the part: ${percent} % is cut away. Use two pieces screwed together, or a nearer bar.`,
    has: `${figure(ratio)} ×`,
    needs: `${limit('ratio')} × or less`,
    of: [],
    span: part.stock.written ? part.stock.span : body.span,
    facts: { buy_to_fly: ratio, percent, limit: limit('ratio') },
  }),
});
