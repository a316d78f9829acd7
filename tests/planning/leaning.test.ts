/** What leans is planned with the work held at its angle; the count by hand from the directions that are wanted. */
import assert from 'node:assert/strict';
import { planFor } from '../../server/src/planning/plan-cache';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { SHOP } from './parts';

const part = (features: string) =>
  `part: nozzle-block\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 30 }\nfeatures:\n${features}`;
const jet = (name: string, at: string, about: string, angle: number) =>
  `  ${name}: { kind: hole, face: top, at: { ${at} }, diameter: 5.5, depth: 18, tilt: { about: ${about}, angle: ${angle} } }\n`;
const pin = '  pin: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: 12 }\n';
const slope = (angle: number) => `  slope: { kind: slope, face: top, along: right, angle: ${angle}, width: 15 }\n`;

function planned(features: string) {
  const text = part(features);
  const checked = checkPart(text, SHOP);
  const plan = planFor(checked)!;
  const edits = writeSetups(
    plan.setups.map((s) => s.setup),
    checked.part!,
    checked.tree,
  );
  const written = applyEdits(text, locateEdits(checked.tree, edits));
  const errors = checkPart(written, SHOP).findings.filter((f) => f.severity === 'error');
  assert.deepEqual(errors, [], written);
  return { plan, written, lots: plan.setups.map((s) => s.setup.cuts.map((c) => c.name)) };
}

describe('a plan for what leans', () => {
  it('holds the work at the feature’s angle, once for each direction', () => {
    const { plan, written, lots } = planned(
      jet('a', 'x: 25, y: 12', 'y', 20) + jet('b', 'x: 25, y: 28', 'y', 20) + pin,
    );
    assert.deepEqual(lots, [['pin'], ['a', 'b']]);
    assert.deepEqual([plan.bound, plan.proof, plan.uncut.length], [2, 'bound', 0]);
    assert.match(written, /hold: \{ angle: 20, about: y, vise: mill-vise-100, /);
    const two = planned(jet('a', 'x: 25, y: 20', 'y', 20) + jet('b', 'x: 42, y: 20', 'y', -15));
    assert.deepEqual([two.plan.bound, two.lots], [2, [['a'], ['b']]]);
  });

  it('a slope of the same lean is cut in the set-up that is there anyway, another one from its end', () => {
    const same = planned(jet('a', 'x: 25, y: 20', 'y', 20) + slope(20));
    assert.deepEqual([same.plan.bound, same.lots], [1, [['slope', 'a']]]);
    const other = planned(jet('a', 'x: 25, y: 20', 'y', 20) + slope(25));
    assert.equal(other.plan.bound, 2);
    assert.equal(other.lots.length, 2);
  });
});
