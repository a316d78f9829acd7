/** Parts of the gimbal that say how they are set up, carried out. */
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { campus, gimbal, partOf } from './parts';
import { simulate } from './simulate';

const FOLDER = resolve(__dirname, '../../examples/gimbal/parts');

describe('the gimbal, carried out on a field of cells', () => {
  const parts = readdirSync(FOLDER)
    .map((file) => ({ file, part: partOf(gimbal('parts', file)) }))
    .filter(({ part }) => part.setups !== undefined);

  it('has a part with set-ups', () => assert.ok(parts.length > 0));

  for (const { file, part } of parts)
    it(`${file} comes out right, and nothing is met`, () => {
      const report = simulate(part, campus, { fineMm: 0.6 });
      assert.ok(report.right, JSON.stringify(report, null, 1));
      assert.equal(report.setups.length, part.setups!.length);
      for (const s of report.setups) for (const c of s.cuts) assert.ok(c.removedMm3 > 0, `${s.setup}: ${c.cut}`);
    });
});
