/** The same rules of writing over what is told besides findings: plans, facts, hovers. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { planFor } from '../../../server/src/planning/plan-cache';
import { factsLines } from '../../../server/src/report/facts';
import { planLines } from '../../../server/src/report/plan';
import { checkPart, checkShop } from '../../../server/src/rules/check';
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
});
