/**
 * The rules against the simulator: a part with one fault planted, which a rule names, does not come out right; without
 * the fault no rule calls it an error, and it does. So do the rules' own examples where they say how they are held.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';
import { PLANTED, SHOP } from './defects';
import { type Report, simulate } from './simulate';

const FINE = { fineMm: 0.6 };
const bench = checkShop(SHOP);
const errorsOf = (checked: ReturnType<typeof checkPart>) =>
  checked.findings.filter((f) => f.severity === 'error').map((f) => f.rule);
const say = (r: Report) =>
  JSON.stringify({ ...r, setups: r.setups.map((s) => [s.faults, s.cuts.map((c) => [c.cut, c.met])]) });

describe('one planted fault', () => {
  it('the shop has none', () => assert.deepEqual(bench.findings, []));

  for (const { rule, what, good, bad } of PLANTED)
    it(`${rule}: ${what}`, () => {
      const clean = checkPart(good, bench.shop);
      assert.deepEqual(errorsOf(clean), []);
      const made = simulate(clean.part, bench.shop, FINE);
      assert.ok(made.right, say(made));
      const faulty = checkPart(bad, bench.shop);
      assert.ok(
        faulty.findings.some((f) => f.rule === rule),
        faulty.findings.map((f) => f.rule).join(),
      );
      const failed = simulate(faulty.part, bench.shop, FINE);
      assert.equal(failed.right, false, say(failed));
    });
});

/** What a rule of these names shows on the field: something is met, or left, or not held. Cells lie square to the part: no leaning work; and a cutter that fills its slot cuts it there as well as any. */
const SHOWN =
  /^(access\/(?!angle|asked-tool)|hold\/(parallel|parallels|opening|in-the-cut|drills-the-parallels)|setup\/unassigned|corner|hole\/flat-bottom)/;

describe("the rules' own examples, carried out", () => {
  for (const rule of RULES.filter((r) => SHOWN.test(r.name) && /^setups:/m.test(r.bad) && /^setups:/m.test(r.good)))
    it(rule.name, () => {
      const shop = rule.shop === undefined ? builtinShop() : checkShop(rule.shop).shop;
      const failed = simulate(checkPart(rule.bad, shop).part, shop, FINE);
      assert.equal(failed.right, false, say(failed));
      const made = simulate(checkPart(rule.good, shop).part, shop, FINE);
      assert.equal(made.right, true, say(made));
    });
});
