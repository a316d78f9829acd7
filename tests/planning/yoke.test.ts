/** The azimuth yoke of the examples gets a whole plan, and no rule on reaching, holding or order says an error of it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const read = (...path: string[]) => readFileSync(resolve(GIMBAL, ...path), 'utf8');

describe('the azimuth yoke, planned', () => {
  it('from five sides, with nothing left', function () {
    this.timeout(60_000);
    const { shop } = checkShop(read('campus.shop.yaml'));
    const text = read('parts/yoke.part.yaml').split('\nsetups:')[0]!;
    const plan = planOf(checkPart(`${text}\n`, shop));
    assert.ok(plan);
    assert.deepEqual(plan.left, []);
    // Top, left and right for their holes, front and back for the edges on both.
    assert.equal(plan.setups.length, 5);
    const ups = plan.setups.map((s) => s.setup.up?.name);
    assert.deepEqual([...ups].sort(), ['back', 'front', 'left', 'right', 'top']);
    // The outline takes off what stands beyond the ends: they are cut before it.
    const at = (name: string) => plan.setups.findIndex((s) => s.setup.cuts.some((c) => c.name === name));
    assert.ok(Math.max(at('left'), at('right')) < at('shoulders'));
  });
});
