/** Tube, angle, channel and tee, as they are planned: carried out, each comes out right. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { writePlan } from '../../server/src/planning/keep';
import { planFor } from '../../server/src/planning/plan-cache';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { simulate } from './simulate';

const WORLDS = join(__dirname, '../fields/worlds');
const PARTS = ['sections/foot', 'sections/case', 'sections/rib', 'sections/ring', 'channel/cradle'];

describe('parts of sections', function () {
  this.timeout(120_000);
  for (const name of PARTS)
    it(`${name} comes out right as it is planned`, () => {
      const read = (file: string) => readFileSync(join(WORLDS, file), 'utf8');
      const { shop, findings } = checkShop(read(`${name.split('/')[0]}/bench.shop.yaml`));
      assert.deepEqual(findings, []);
      // Inside corners are sharp in the field.
      const text = read(`${name}.part.yaml`)
        .replace(/root: \d/, 'root: 0')
        .replace(/^setups:[\s\S]*/m, '');
      const checked = checkPart(text, shop);
      const plan = planFor(checked);
      assert.ok(plan);
      const written = writePlan(plan, checked);
      assert.ok(!written.kept);
      const planned = checkPart(written.text, shop);
      assert.deepEqual(
        planned.findings.filter((f) => f.severity === 'error'),
        [],
      );
      const made = simulate(planned.part, shop, { fineMm: 0.6 });
      assert.ok(
        made.right,
        JSON.stringify({ ...made, setups: made.setups.map((s) => [s.faults, s.cuts.map((c) => [c.cut, c.met])]) }),
      );
    });
});
