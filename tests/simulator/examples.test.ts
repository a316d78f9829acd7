/** Parts of the gimbal that say how they are set up, carried out. */
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import { campus, gimbal, partOf } from './parts';
import { simulate } from './simulate';

const FOLDER = resolve(__dirname, '../../examples/gimbal/parts');

describe('the gimbal, carried out on a field of cells', () => {
  const parts = readdirSync(FOLDER)
    .map((file) => ({ file, part: partOf(gimbal('parts', file)) }))
    .filter(({ part }) => part.setups !== undefined);

  it('has a part with set-ups', () => assert.ok(parts.length > 0));

  for (const { file, part } of parts)
    it(`${file}: nothing is met, and it comes out right`, () => {
      const report = simulate(part, campus, { fineMm: 0.6 });
      assert.ok(report.right, JSON.stringify(report, null, 1));
      assert.equal(report.setups.length, part.setups!.length);
      for (const s of report.setups)
        for (const c of s.cuts)
          assert.ok(c.removedMm3 > 0 || part.featureByName.get(c.cut)?.kind === 'engraving', `${s.setup}: ${c.cut}`);
    });
});

describe('plans for parts of the gimbal that say nothing of set-ups, carried out', () => {
  for (const name of ['cable-clamp'])
    it(name, () => {
      const checked = checkPart(gimbal('parts', `${name}.part.yaml`), campus);
      const plan = planOf(checked);
      assert.ok(plan && plan.uncut.length === 0);
      const report = simulate({ ...checked.part, setups: plan.setups.map((s) => s.setup) }, campus, { fineMm: 0.6 });
      assert.ok(report.right, JSON.stringify(report, null, 1));
    });
});
