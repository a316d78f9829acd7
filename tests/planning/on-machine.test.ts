/** Which machine a plan names, in shops that have several: none where the first does. */
import assert from 'node:assert/strict';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';

const ROUTER =
  'router: { travel: { x: 600, y: 400, z: 100 }, spindle: { rpm: [8000, 24000], power: 0.8 kW }, takes: [plastic, aluminium] }';
const MILL = 'mill: { travel: { x: 300, y: 200, z: 300 }, spindle: { rpm: [100, 3000], power: 1 kW } }';
const SMALL = 'small: { travel: { x: 30, y: 30, z: 300 }, spindle: { rpm: [100, 3000], power: 1 kW } }';
const shopOf = (...machines: readonly string[]) =>
  checkShop(`shop: attic
machines:
${machines.map((m) => `  ${m}\n`).join('')}parallels: [10, 22]
vises: { vise: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-6: { kind: drill, diameter: 6, flute-length: 57, point: 118, material: hss }
  em-10: { kind: end-mill, diameter: 10, reach: 30 }
`).shop;
const partOf = (material: string) => `part: bracket
material: ${material}
body: { x: 60, y: 40, z: 22 }
features:
  far: { kind: hole, face: top, at: { x: 5, y: center }, diameter: 6, depth: through }
  near: { kind: hole, face: top, at: { x: 55, y: center }, diameter: 6, depth: through }
`;

function planned(material: string, ...machines: readonly string[]) {
  const checked = checkPart(partOf(material), shopOf(...machines));
  const plan = planOf(checked);
  assert.ok(plan && plan.uncut.length === 0);
  const edits = writeSetups(
    plan.setups.map((s) => s.setup),
    checked.part,
    checked.tree,
  );
  const text = applyEdits(checked.tree.text, locateEdits(checked.tree, edits));
  const after = checkPart(text, shopOf(...machines));
  return {
    named: plan.setups.map((s) => s.setup.machine?.name),
    written: /machine: (\w+)/.exec(text)?.[1],
    errors: after.findings.filter((f) => f.severity === 'error').map((f) => f.rule),
  };
}

describe('the machine of a plan', () => {
  it('is named where the shop’s first does not take the material', () => {
    assert.deepEqual(planned('steel-s235jr', ROUTER, MILL), { named: ['mill'], written: 'mill', errors: [] });
  });

  it('is named where the first has too little travel', () => {
    assert.deepEqual(planned('aluminium-6061-t6', SMALL, MILL), { named: ['mill'], written: 'mill', errors: [] });
  });

  it('is not named where the first does, or there is one alone', () => {
    for (const machines of [[MILL, ROUTER], [MILL, SMALL], [MILL]])
      assert.deepEqual(planned('steel-s235jr', ...machines), { named: [undefined], written: undefined, errors: [] });
    assert.deepEqual(planned('aluminium-6061-t6', ROUTER, MILL).written, undefined);
  });

  it('is named where a thread is milled, and hands move the axes of the first', () => {
    const shop = checkShop(`shop: attic
machines:
  ${MILL.replace('mill:', 'old:').replace(/ }$/, ', control: read-out }')}
  ${MILL}
parallels: [10, 22]
vises: { vise: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-17.5: { kind: drill, diameter: 17.5, flute-length: 120 }
  tm-12: { kind: thread-mill, diameter: 12, pitch: 2.5, reach: 35 }
`).shop;
    const text = `part: nut\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 22 }\nfeatures:\n  eye: { kind: hole, face: top, at: { x: center, y: center }, thread: M20, depth: through }\n`;
    assert.deepEqual(
      planOf(checkPart(text, shop))?.setups.map((s) => s.setup.machine?.name),
      ['mill'],
    );
    assert.deepEqual(
      planOf(checkPart(text.replace('thread: M20', 'diameter: 17.5'), shop))?.setups.map((s) => s.setup.machine?.name),
      [undefined],
    );
  });

  it('stays the first where none takes it: that is told', () => {
    const { written, errors } = planned('steel-s235jr', ROUTER, ROUTER.replace('router', 'other'));
    assert.equal(written, undefined);
    assert.ok(errors.includes('machine/material'), errors.join());
  });
});
