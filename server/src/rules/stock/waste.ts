/** stock/waste – most of the bar goes into chips. */
import { stockVolumeMm3 } from '../../model/stock';
import { fact, trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';

const NAME = 'stock/waste';

export const waste: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'Most of the stock goes into chips.',
  why: 'All that is bought and not flown is time at the machine, wear and sweeping. Two simple pieces with screws, a sheet bent or cut flat, or a nearer bar size often do the same.',
  formula: '`buy_to_fly`: the volume of the stock over that of the finished part, against `ratio`.',
  limits: [
    {
      name: 'ratio',
      value: 8,
      unit: 'ratio',
      what: 'Times its own volume that a part may be cut from',
      source: 'common practice, no source: 2 to 5 is usual for parts from bar',
    },
  ],
  bad: `part: fork
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 40 }
features:
  throat: { kind: step, face: top, along: right, width: 77, depth: 37.5 }
`,
  good: `part: fork
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 40 }
features:
  throat: { kind: step, face: top, along: right, width: 40, depth: 18 }
`,
  *find({ part, solid, limit }): Generator<Finding> {
    const bought = stockVolumeMm3(part);
    if (!part.body || !(bought > 0) || !solid.measures.exact || !(solid.measures.volumeMm3 > 0)) return;
    const ratio = bought / solid.measures.volumeMm3;
    if (ratio <= limit('ratio') + 1e-9) return;
    yield {
      rule: NAME,
      severity: 'hint',
      message: `The stock is ${trimmed(ratio, 1)} times the part: ${Math.round((1 - 1 / ratio) * 100)} % of it goes into chips. Two pieces screwed together, or a nearer bar, would save most of that.`,
      of: [],
      span: part.stock.written ? part.stock.span : part.body.span,
      related: [],
      facts: { buy_to_fly: fact(ratio), percent: Math.round((1 - 1 / ratio) * 100), limit: limit('ratio') },
    };
  },
};
