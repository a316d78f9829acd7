/** setup/more-than-needed: raised by its bad example, cured by the plan that the planner writes, quiet on the good one. */
import assert from 'node:assert/strict';
import { fewerSetups, planFor } from '../../server/src/planning/plan-cache';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart } from '../../server/src/rules/check';
import { moreThanNeeded } from '../../server/src/rules/setup/more-than-needed';
import { PlanSoon } from '../../server/src/service/plan/scheduler';
import { Workspace } from '../../server/src/service/workspace';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { SHOP } from './parts';

describe('setup/more-than-needed', () => {
  it('is raised where the planner finds fewer, and its plan cures it', () => {
    const checked = checkPart(moreThanNeeded.bad, SHOP);
    const [finding, ...others] = fewerSetups(checked);
    assert.equal(others.length, 0);
    assert.equal(finding?.rule, 'setup/more-than-needed');
    assert.deepEqual(finding?.facts, { written: 2, needed: 1, bound: 1, up: 'top' });
    const setups = planFor(checked)!.setups.map((s) => s.setup);
    const edits = writeSetups(setups, checked.part, checked.tree);
    const after = checkPart(applyEdits(checked.tree.text, locateEdits(checked.tree, edits)), SHOP);
    assert.deepEqual(fewerSetups(after), []);
    assert.deepEqual(
      after.findings.filter((f) => f.severity === 'error'),
      [],
    );
  });

  it('is not raised where directions need as many', () => {
    assert.deepEqual(fewerSetups(checkPart(moreThanNeeded.good, SHOP)), []);
    const two = moreThanNeeded.bad
      .replace('diameter: 5.5, depth: through', 'diameter: 5.5, depth: 6')
      .replace('face: top, at: { x: 10', 'face: bottom, at: { x: 10');
    assert.deepEqual(fewerSetups(checkPart(two, SHOP)), []);
  });

  it('is told in an editor after a quiet moment only, and looked for once', async () => {
    const pending: (() => void)[] = [];
    let calledOff = 0;
    const files = new Map([['/a/p.part.yaml', moreThanNeeded.bad]]);
    const host = {
      read: async (path: string) => files.get(path),
      list: async () => [],
      documents: async () => [],
      log: () => {},
      later: (_ms: number, work: () => void) => {
        pending.push(work);
        return () => {
          calledOff++;
        };
      },
    };
    const snapshot = (await new Workspace(host).snapshot('/a/p.part.yaml'))!;
    let news = 0;
    const soon = new PlanSoon(host, () => news++);
    const told = () => soon.with(snapshot).findings.some((f) => f.rule === 'setup/more-than-needed');
    assert.equal(told(), false);
    for (let n = 0; n < 20; n++) assert.equal(told(), false);
    assert.equal(pending.length, 1, 'who asks often waits no longer');
    assert.equal(calledOff, 0);
    soon.forget(snapshot.path);
    assert.equal(calledOff, 1, 'the text was changed');
    assert.equal(told(), false);
    assert.equal(pending.length, 2);
    pending.at(-1)!();
    assert.equal(news, 1);
    assert.equal(told(), true);
    assert.equal(soon.with(snapshot), soon.with(snapshot));
    assert.equal(pending.length, 2);
  });
});
