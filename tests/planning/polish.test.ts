/**
 * A plan never loses to its own judge: what a fix of the rules would cure is in no plan, and of two ways with as many set-ups the
 * one with fewer warnings is the plan. What is right in each part: common practice, no source.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { saidAsChecked } from './said';

const SHOP = builtinShop();

function planned(body: string, features: string, more = '') {
  const checked = checkPart(
    `part: arm\nmaterial: aluminium-6061-t6\nbody: ${body}\n${more}features:\n${features}`,
    SHOP,
  );
  const plan = planOf(checked)!;
  assert.deepEqual(plan.uncut, []);
  saidAsChecked(plan, checked);
  const setups = plan.setups.map((s) => s.setup);
  const text = applyEdits(
    checked.tree.text,
    locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)),
  );
  const again = checkPart(text, SHOP);
  assert.deepEqual(
    again.findings.filter((f) => f.severity === 'error').map((f) => f.message),
    [],
  );
  const warned = again.findings.filter((f) => f.severity === 'warning');
  return { setups, text, again, warned, rules: warned.map((f) => f.rule) };
}

describe('a plan does not lose to its own judge', () => {
  it('the reamed bore before the slot beside it, where the jaws press across that', () => {
    const { setups, rules } = planned(
      '{ x: 40, y: 50, z: 20 }',
      `  slit: { kind: slot, face: top, ends: [{ x: center, y: 10 }, { x: center, y: 55 }], width: 4, depth: through }
  bore: { kind: hole, face: top, at: { x: 12, y: 30 }, diameter: 10 H7, depth: through }
`,
    );
    assert.deepEqual(
      setups.map((s) => s.cuts.map((c) => c.name)),
      [['bore', 'slit']],
    );
    assert.deepEqual(rules, []);
  });

  it('seats in line from both sides: the zero found in the way that holds their tolerance is written', () => {
    const seat = (face: string) =>
      `{ kind: hole, face: ${face}, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }`;
    const { setups, text, rules } = planned(
      '{ x: 60, y: 40, z: 20 }',
      `  seat-top: ${seat('top')}\n  seat-bottom: ${seat('bottom')}\n  shaft: { kind: hole, face: top, at: { x: center, y: center }, diameter: 12, depth: through }\n`,
      'datums: { A: seat-top }\ntolerances:\n  - { concentricity: 0.03, of: seat-bottom, datums: [A] }\n',
    );
    assert.equal(setups.length, 2);
    assert.match(text, /method: |zero: \{ x: seat/);
    assert.deepEqual(rules, []);
  });

  it('a bar four times as long as the jaws lies under clamps, or in two vises in line', () => {
    const { setups, rules } = planned(
      '{ x: 380, y: 20, z: 20 }',
      '',
      'stock: { form: square-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\n',
    );
    assert.equal(setups.length, 1);
    assert.ok(!rules.includes('hold/opening'), rules.join());
  });

  it('no fix of a set-up leaves fewer warnings than the plan has', () => {
    const fork = planned(
      '{ x: 80, y: 60, z: 20 }',
      `  gap: { kind: pocket, face: top, path: [{ x: 15, y: -12 }, { x: 65, y: -12 }, { x: 65, y: 45, round: 8 }, { x: 15, y: 45, round: 8 }], depth: through }
  pin: { kind: hole, face: left, at: { y: 10, z: center }, diameter: 8 H7, depth: through }
  screws: { kind: hole, face: back, at: { x: center, z: center }, pattern: { line: { x: 40, count: 2 } }, thread: M6, depth: through }
`,
    );
    for (const f of fork.warned.filter((w) => /^(access|hold|setup)/.test(w.rule)))
      for (const fix of fixesFor(fork.again, f)) {
        const text = applyEdits(fork.text, locateEdits(fork.again.tree, fix.edits));
        const after = checkPart(text, SHOP);
        if (after.part.setups?.length !== fork.setups.length || !text.startsWith(fork.text.split('setups:')[0]!))
          continue;
        const left = after.findings.filter((w) => w.severity === 'warning').length;
        assert.ok(left >= fork.warned.length, `${fix.title}: ${left} of ${fork.warned.length}`);
      }
  });

  it('zero stays on the same side, where the stop has to go to the other end', () => {
    // A cross hole near the middle and a bore; nothing of it needs the bar's own width between the cuts.
    const { setups, again } = planned(
      '{ x: 40, y: 40, z: 16 }',
      `  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 10 H7, depth: through }
  set-screws: { kind: hole, face: right, at: { y: center, z: center }, thread: M4, depth: 13, thread-depth: 9 }
  flange: { kind: hole, face: top, at: { x: center, y: center }, pattern: { bolt-circle: { diameter: 28, count: 3, start: 90 } }, clearance: M3, depth: through }
`,
      'stock: { form: block }\n',
    );
    assert.equal(setups.length, 2);
    assert.deepEqual(
      again.findings.filter((f) => f.rule === 'setup/opposite-zero').map((f) => f.message),
      [],
    );
  });
});

describe('round bar round a body that is not round', () => {
  it('all that stands outside the body is planned, and no cut of it is told as air', () => {
    const { setups, rules } = planned(
      '{ x: 60, y: 36, z: 24 }',
      '  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 12, depth: 10 }\n',
      'stock: { form: round-bar, diameter: 45, axis: x, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\n',
    );
    const cut = setups.flatMap((s) => s.cuts.map((c) => c.name)).sort();
    assert.deepEqual(cut, ['back', 'bore', 'bottom', 'front', 'left', 'right', 'top']);
    assert.ok(!rules.some((r) => r.startsWith('stock/') || r === 'setup/unassigned'), rules.join());
  });
});
