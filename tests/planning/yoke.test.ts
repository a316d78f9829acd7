/** The azimuth yoke of the examples gets a whole plan, and no rule on reaching, holding or order says an error of it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { OF_SETUPS } from '../../server/src/planning/as-written';
import { planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { saidAsChecked } from './said';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const read = (...path: string[]) => readFileSync(resolve(GIMBAL, ...path), 'utf8');

describe('the azimuth yoke, planned', () => {
  it('from four sides, with nothing left; the edges that look away then are broken with a file', function () {
    this.timeout(60_000);
    const { shop } = checkShop(read('campus.shop.yaml'));
    const text = read('parts/yoke.part.yaml').split('\nsetups:')[0]!;
    const checked = checkPart(`${text}\n`, shop);
    const plan = planOf(checked);
    assert.ok(plan);
    assert.deepEqual(plan.uncut, []);
    // Top, left and right for their holes, front for what goes through. No plan has fewer.
    assert.equal(plan.setups.length, 4);
    assert.equal(plan.proof, 'bound');
    const setupFor = (name: string) => plan.setups.filter((s) => s.setup.cuts.some((c) => c.name === name));
    const upFor = (name: string) => setupFor(name).map((s) => s.setup.up?.name);
    assert.deepEqual(upFor('pivot'), ['top']);
    for (const end of ['left', 'right']) {
      assert.deepEqual(upFor(`block-screws-${end}`), [end]);
      assert.deepEqual(upFor(end), [end]);
    }
    for (const name of ['throat', 'shoulders', 'break-front']) assert.deepEqual(upFor(name), ['front'], name);
    // The outline takes off what stands beyond the ends: they are cut before it. And the bore before the throat that crosses
    // it would be drilled into the open.
    const at = (name: string) => plan.setups.indexOf(setupFor(name)[0]!);
    assert.ok(Math.max(at('left'), at('right')) < at('shoulders'));
    // Between any jaws that leave the shoulders free the arms are pressed together, and that is all there is to say.
    const again = saidAsChecked(plan, checked)!;
    const said = (severity: string) => again.findings.filter((f) => f.severity === severity && OF_SETUPS.test(f.rule));
    assert.deepEqual(said('error'), []);
    assert.deepEqual(
      said('warning').map((f) => `${f.rule} ${f.of}`),
      ['hold/squeeze throat'],
    );
    // Eight edges of the frame and the throat on the back.
    const byHand = said('hint').find((f) => f.rule === 'setup/unassigned')!;
    assert.deepEqual(byHand.of, ['break-front']);
    assert.ok(Number(byHand.facts.way_mm) > 400 && Number(byHand.facts.low_min) >= 2, JSON.stringify(byHand.facts));
  });
});
