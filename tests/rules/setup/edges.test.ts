/** Edges and slopes come after the faces that they are drawn from; check, plan and times say the same of a slope. */
import assert from 'node:assert/strict';
import { planFor } from '../../../server/src/planning/plan-cache';
import { timeOf } from '../../../server/src/planning/times';
import { writeSetups } from '../../../server/src/planning/write';
import { operationsOf } from '../../../server/src/process/operations';
import { checkPart } from '../../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../../server/src/text/edit';
import { endMill, shopWith } from '../shops';
import { findingsOf, mended } from '../tester';

const text = (features: string, cuts = '', extra = 'top: 3, left: 2') => `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 30 }
${extra && `stock: { form: block, extra: { ${extra} } }\n`}features:
${features}${cuts && `setups:\n  one: { up: top, cuts: [${cuts}] }\n`}`;
const EDGE = '  edge: { kind: chamfer, edges: [top], size: 1 }\n';
const SLOPE = '  slope: { kind: slope, face: top, along: left, width: 4, angle: 45 }\n';
const RULE = 'setup/order';

describe('edges and slopes and the faces they are drawn from', () => {
  it('before a face is cut it is told, with how much stands over it; after it nothing is', () => {
    for (const [features, name] of [
      [EDGE, 'edge'],
      [SLOPE, 'slope'],
    ] as const) {
      const [early, ...more] = findingsOf(RULE, text(features, `${name}, top, left`));
      assert.deepEqual(more, []);
      assert.deepEqual([early!.severity, early!.facts.waits_for, early!.facts.over_mm], ['warning', 'top', 3]);
      assert.deepEqual(findingsOf(RULE, text(features, `top, left, ${name}`)), []);
    }
  });

  it('a slope waits for the face beside it too; an edge of one face only for that', () => {
    const [beside] = findingsOf(RULE, text(SLOPE, 'top, slope, left'));
    assert.deepEqual([beside!.facts.waits_for, beside!.facts.over_mm], ['left', 2]);
    assert.deepEqual(findingsOf(RULE, text(EDGE, 'top, edge, left')), []);
    const corner = '  edge: { kind: chamfer, edges: [[top, left]], size: 1 }\n';
    assert.equal(findingsOf(RULE, text(corner, 'top, edge, left'))[0]?.facts.waits_for, 'left');
  });

  it('a face without stock on it, and edges of the side that looks down, are waited for by nobody', () => {
    assert.deepEqual(findingsOf(RULE, text(EDGE, 'edge', 'bottom: 2')), []);
    const both = '  edge: { kind: chamfer, edges: [top, bottom], size: 1 }\n';
    const twice = `${text(both, 'top, edge', 'top: 3, bottom: 2')}  two: { up: bottom, cuts: [bottom, edge] }\n`;
    assert.deepEqual(findingsOf(RULE, twice), []);
  });

  it('is mended by cutting the face first', () => {
    assert.match(mended(RULE, text(EDGE, 'edge, top, left'), /before it/), /cuts: \[top, edge, left\]/);
  });
});

describe('a slope in check, plan and times', () => {
  const CONE = 'cm-90: { kind: chamfer-mill, diameter: 12, angle: 90, reach: 12 }\n';
  const said = (angle: number, tools: string) => {
    const shop = shopWith(tools);
    const part = text(SLOPE.replace('angle: 45', `angle: ${angle}`), '', '');
    const checked = checkPart(part, shop);
    const feature = checked.part.features[0]!;
    const plan = planFor(checked)!;
    const setups = plan.setups.map((s) => s.setup);
    const edits = writeSetups(setups, checked.part, checked.tree);
    const written = checkPart(applyEdits(part, locateEdits(checked.tree, edits)), shop);
    const ways = (c: typeof checked) =>
      operationsOf(feature, { part: c.part, solid: c.solid, shop }).map((o) =>
        o.does === 'missing' ? 'missing' : o.does,
      );
    return {
      check: ways(checked),
      planned: ways(written),
      held: setups.filter((s) => s.cuts.some((c) => c.name === 'slope')).map((s) => s.hold?.type),
      lacks: timeOf(setups, checked).setups.flatMap((t) => t.missing),
      proof: [plan.bound, plan.proof],
      errors: written.findings.filter((f) => f.severity === 'error').map((f) => f.rule),
    };
  };

  it('is made by a cone with its flank, the work held level', () => {
    const { check, planned, held, errors } = said(45, CONE + endMill('em-16', 16, 34));
    assert.deepEqual([check, planned, errors], [['chamfer'], ['chamfer'], []]);
    assert.notEqual(held[0], 'angle');
  });

  it('of another lean is planned held at its angle, as the check says', () => {
    const { check, planned, held, errors, lacks, proof } = said(30, CONE + endMill('em-16', 16, 34));
    assert.deepEqual(
      [check, planned],
      [
        ['rough', 'face'],
        ['rough', 'face'],
      ],
    );
    assert.deepEqual([held, errors, lacks, proof], [['angle'], [], [], [1, 'bound']]);
  });

  it('along its edge where an end mill is that long', () => {
    const { check, planned, held, errors } = said(30, endMill('em-16', 16, 62));
    assert.deepEqual([check, planned, errors], [['rough', 'finish'], ['rough', 'finish'], []]);
    assert.notEqual(held[0], 'angle');
  });
});
