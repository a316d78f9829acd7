/**
 * Plans that cut from both sides, or hold the work by stock that is cut off afterwards. How far a tool reaches and what a jaw
 * leaves free is worked out by hand beside each; that it is done so is common practice, no source.
 */

import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { type Plan, planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { simulate } from '../simulator/simulate';

const SHOP = checkShop(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood } }
vises: { vise: { jaw: { width: 60, height: 32 }, opens: 90, force: 15 kN } }
parallels: [10, 14, 18, 22, 26]
holders: { collet: { diameter: 30, length: 50 }, chuck: { diameter: 36, length: 60 } }
tools:
  em-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 26, reach: 34, shank: 8, material: carbide, holder: collet, stickout: 40 }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 36, reach: 45, shank: 16, material: carbide, holder: collet, stickout: 50 }
  fm-50: { kind: face-mill, diameter: 50, flutes: 4, flute-length: 8, reach: 40, shank: 22, holder: collet, stickout: 45 }
  sd-6: { kind: spot-drill, diameter: 6, flute-length: 12, holder: chuck, stickout: 40 }
  dr-5: { kind: drill, diameter: 5, flute-length: 52, holder: chuck, stickout: 60 }
  dr-6: { kind: drill, diameter: 6, flute-length: 57, holder: chuck, stickout: 66 }
`).shop;

const part = (body: string, features: string, stock = '') =>
  `part: mount\nmaterial: aluminium-6061-t6\nbody: ${body}\n${stock}features:\n${features}`;

/** Planned, written, and read again: no error, nothing about set-ups but hints, and it comes out right when it is cut. */
function made(text: string, shop = SHOP): { plan: Plan; again: CheckedPart; written: string } {
  const checked = checkPart(text, shop);
  const plan = planOf(checked)!;
  assert.deepEqual(
    plan.left.map((l) => `${l.item.name}: ${l.why?.message}`),
    [],
  );
  const setups = plan.setups.map((s) => s.setup);
  const written = applyEdits(text, locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)));
  const again = checkPart(written, shop);
  assert.deepEqual(
    again.findings.filter((f) => f.severity === 'error' || f.rule.startsWith('form/')).map((f) => f.message),
    [],
    written,
  );
  const report = simulate(again.part, shop, { fineMm: 0.6 });
  assert.ok(report.right, `${written}\n${JSON.stringify(report.setups)}`);
  return { plan, again, written };
}

const cutsOf = ({ plan }: { plan: Plan }) =>
  plan.setups.map(({ setup }) => [setup.up!.name, setup.cuts.map((c) => (c.depth ? `${c.name} ${c.depth}` : c.name))]);

describe('half from each side', () => {
  const bore = (z: number, more = '') =>
    part(
      `{ x: 50, y: 50, z: ${z} }`,
      `  bore: { kind: pocket, face: top, at: { x: 25, y: 25 }, diameter: 9, depth: through }\n${more}`,
    );

  it('a bore deeper than its mill reaches: 50 mm, of which it has 34', () => {
    assert.deepEqual(cutsOf(made(bore(50))), [
      ['top', ['bore half']],
      ['bottom', ['bore half']],
    ]);
  });

  it('one that it reaches through is cut in one set-up', () => {
    assert.deepEqual(cutsOf(made(bore(33))), [['top', ['bore']]]);
  });

  it('deeper than twice what the mill reaches it is not cut at all, and said so', () => {
    const plan = planOf(checkPart(bore(70), SHOP))!;
    assert.deepEqual(
      plan.left.map((l) => l.item.name),
      ['bore'],
    );
  });

  it('a drilled hole too: 80 mm, of which the drill has 57', () => {
    const hole = '  tie: { kind: hole, face: front, at: { x: 25, z: 20 }, diameter: 6, depth: through }\n';
    assert.deepEqual(cutsOf(made(part('{ x: 50, y: 80, z: 40 }', hole))), [
      ['front', ['tie half']],
      ['back', ['tie half']],
    ]);
  });

  it('what stands in the other set-up anyway goes with it', () => {
    const under = '  well: { kind: pocket, face: bottom, at: { x: 40, y: 40 }, diameter: 12, depth: 5 }\n';
    const both = cutsOf(made(bore(50, under)));
    assert.equal(both.length, 2);
    assert.ok(both.some(([up, cuts]) => up === 'bottom' && cuts!.includes('well')));
  });

  it('the set-ups it was written in are no more than needed', () => {
    const { again } = made(bore(50));
    assert.deepEqual(
      again.findings.filter((f) => f.rule.startsWith('setup/')).map((f) => f.rule),
      [],
    );
  });
});

describe('held by the surplus below, and faced off after turning over', () => {
  const stock = (bottom: number) =>
    `stock: { form: block, sawn: [left, right, front, back, bottom], extra: { left: 1.5, right: 1.5, front: 1.5, back: 1.5, bottom: ${bottom} } }\n`;
  const plate = (bottom: number) =>
    part(
      '{ x: 50, y: 40, z: 16 }',
      '  tie: { kind: hole, face: top, at: { x: 25, y: 20 }, diameter: 6, depth: 8 }\n',
      stock(bottom),
    );

  it('8 mm of it: all four sides in the first set-up, the bottom in the second', () => {
    const [first, second, ...more] = cutsOf(made(plate(8)));
    assert.deepEqual(more, []);
    assert.equal(first![0], 'top');
    assert.deepEqual([...(first![1] as string[])].sort(), ['back', 'front', 'left', 'right', 'tie']);
    assert.deepEqual(second, ['bottom', ['bottom']]);
  });

  it('2 mm of it are nothing to hold by', () => {
    assert.ok(cutsOf(made(plate(2))).length > 2);
  });

  it('in the shop that is built in as well', () => {
    assert.equal(cutsOf(made(plate(8), builtinShop())).length, 2);
  });
});
