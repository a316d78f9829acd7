/** Every part of the gimbal is planned whole, and each plan written into its text is made as written, without a warning. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { SHOP } from './parts';

const FOLDER = 'examples/gimbal/parts';

describe('plans of the examples', () => {
  for (const file of readdirSync(FOLDER)) {
    it(`${file}: all of it, by the least number of set-ups, nothing said against it`, () => {
      const checked = checkPart(readFileSync(`${FOLDER}/${file}`, 'utf8'), SHOP);
      const plan = planOf(checked)!;
      assert.deepEqual(
        plan.uncut.map((l) => `${l.item.name}: ${l.why?.message}`),
        [],
      );
      assert.notEqual(plan.proof, 'open');
      if (checked.part.setups) assert.ok(plan.setups.length <= checked.part.setups.length);
      const setups = plan.setups.map((s) => s.setup);
      const text = applyEdits(
        checked.tree.text,
        locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)),
      );
      const said = checkPart(text, SHOP).findings.filter(
        (f) => f.severity === 'error' || (f.severity === 'warning' && /^(access|hold|setup)\//.test(f.rule)),
      );
      // No vise holds a U that is cut out from its front but across its arms, which then close: told, and so it is.
      const [squeezed] = said.filter((f) => f.rule === 'hold/squeeze' && f.facts.as === 'arm');
      if (file.startsWith('yoke')) assert.ok(squeezed && squeezed.of[0] === 'throat');
      assert.deepEqual(
        said.filter((f) => f !== squeezed || !file.startsWith('yoke')).map((f) => `${f.rule} ${f.message}`),
        [],
        text,
      );
    });
  }
});
