/** The same rules of writing over what is told besides findings: plans, facts, hovers. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { planFor } from '../../../server/src/planning/plan-cache';
import { factsLines } from '../../../server/src/report/facts';
import { planLines } from '../../../server/src/report/plan';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { factWords, withFactWords } from '../../../server/src/rules/fact-words';
import { RULES } from '../../../server/src/rules/registry';
import { shopOf } from '../tester';
import { faultsOfText } from './terms';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const campus = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
const checked = checkPart(readFileSync(join(GIMBAL, 'parts/bearing-block.part.yaml'), 'utf8'), campus);

describe('what is told besides findings', function () {
  this.timeout(60_000);

  it('a plan is worded plainly', () => {
    const lines = planLines(planFor(checked)!, checked);
    assert.ok(lines.length > 10);
    assert.deepEqual(lines.filter((line) => !line.includes('[')).flatMap(faultsOfText), []);
  });
  it('facts use no word of another meaning', () => {
    // Names of rules and their limits are names.
    const lines = factsLines('bearing-block.part.yaml', checked).map((line) => line.replace(/\b[a-z]+\/[a-z-]+/g, 'x'));
    const faults = lines.flatMap(faultsOfText);
    // Lines of figures are no sentences.
    assert.deepEqual(
      faults.filter((f) => !f.startsWith('sentence:')),
      [],
    );
  });
  it('a hover names facts in words, never by their keys', () => {
    for (const rule of RULES) {
      assert.doesNotMatch(withFactWords(rule.formula ?? ''), /`[a-z0-9]+_[a-z0-9_]+`/, rule.name);
      if (rule.when === 'job') continue;
      for (const { facts } of checkPart(rule.bad, shopOf(rule)).findings)
        for (const [key, value] of Object.entries(facts)) {
          const words = factWords(key, value);
          assert.ok(!words.slice(0, words.length - String(value).length).includes('_'), `${rule.name}: ${words}`);
        }
    }
    assert.equal(factWords('thickness_mm', 0.4), 'thickness 0.4 mm');
    assert.equal(factWords('slope_deg', 28), 'slope 28°');
    assert.equal(factWords('set_up', 'first'), 'set-up first');
    assert.equal(factWords('feed_mm_per_min', 400), 'feed 400 mm/min');
    assert.equal(factWords('speed_m_per_min', 35.343), 'speed 35.343 m/min');
  });
});
