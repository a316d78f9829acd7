/** How far the spindle goes at most, found from boxes alone, against where it goes: on every example whose set-ups are written. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { mostSpan, spindleSpan } from '../../../server/src/process/access/spindle-span';
import { timelineOf } from '../../../server/src/process/stock';
import { readPart } from '../../../server/src/rules/check';
import { RULES } from '../../../server/src/rules/registry';

describe('where the spindle goes', () => {
  it('is never farther than the bound that spares the search for it', () => {
    const shop = builtinShop();
    let asked = 0;
    let close = 0;
    for (const rule of RULES) {
      if (rule.when === 'job' || !/^setups:/m.test(rule.good)) continue;
      const { part, solid } = readPart(rule.good, shop);
      for (const s of timelineOf(part, solid).setups)
        for (const passes of ['lengthwise', 'crosswise'] as const) {
          const span = spindleSpan(s, { part, solid, shop }, passes);
          if (!span) continue;
          const most = mostSpan(s, shop);
          for (const i of [0, 1, 2] as const) {
            asked++;
            assert.ok(span.mm[i] <= most[i] + 1e-9, `${rule.name}, ${s.setup.name}: ${span.mm[i]} of ${most[i]}`);
            if (span.mm[i] > most[i] / 2) close++;
          }
        }
    }
    assert.ok(asked > 50, `${asked}`);
    assert.ok(close > 5, `it bounds something: ${close}`);
  });
});
