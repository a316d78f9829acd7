/** A message never says `2 mm, and 2 mm is the least`: what differs from a limit by less than is printed is not blamed. */
import assert from 'node:assert/strict';
import { checkPart } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';
import { shopOf } from './tester';

/** What the bad example has; a limit a hair beyond it, and one that is beyond it as printed. */
const CASES = [
  ['hold/grip', 'smooth', 2, 1],
  ['stock/extra', 'least', 0.2, 1],
] as const;

describe('two figures of one message', () => {
  for (const [name, limit, has, way] of CASES) {
    it(`differ as printed: ${name}, ${limit}`, () => {
      const rule = RULES.find((r) => r.name === name)!;
      const shop = shopOf(rule);
      const found = (at: number) => {
        const limits = new Map([...shop.limits, [name as string, new Map([[limit as string, at]])]]);
        return checkPart(rule.bad, { ...shop, limits }).findings.filter((f) => f.rule === name);
      };
      assert.deepEqual(found(has + way * 3e-4), []);
      assert.equal(found(has + way * 2e-3).length, 1);
    });
  }
});
