/** What a machinist cuts first where either order can be made: common practice, no source. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';

const SHOP = builtinShop();
const planned = (body: string, features: string, stock = '') => {
  const plan = planOf(
    checkPart(`part: arm\nmaterial: aluminium-6061-t6\nbody: ${body}\n${stock}features:\n${features}`, SHOP),
  )!;
  assert.deepEqual(plan.left, []);
  const order = plan.setups.flatMap((s) => s.setup.cuts.map((c) => c.name));
  return { plan, order, warnings: plan.setups.flatMap((s) => s.warnings.map((w) => w.rule)) };
};
const goesFirst = (order: readonly string[], a: string, b: string) =>
  assert.ok(order.indexOf(a) >= 0 && order.indexOf(a) < order.indexOf(b), `${a} before ${b}: ${order}`);

describe('the order of craft', () => {
  it('the bore and the screw before the slit that opens them', () => {
    const { order } = planned(
      '{ x: 40, y: 50, z: 14 }',
      `  slit: { kind: slot, face: top, ends: [{ x: 20, y: 20 }, { x: 20, y: 55 }], width: 3, depth: through }
  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 16 H7, depth: through }
`,
    );
    goesFirst(order, 'bore', 'slit');
  });

  it('a hole that crosses a bore of a fit before the bore', () => {
    const { order } = planned(
      '{ x: 40, y: 40, z: 24 }',
      `  seat: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 8 H7, depth: through }
  oil: { kind: hole, face: front, at: { x: 20, z: 12 }, diameter: 4.2, depth: 20 }
`,
    );
    goesFirst(order, 'oil', 'seat');
  });

  it('a fork: the gap before the screws and the pin across it, in three set-ups, and what is said is the pin’s length', () => {
    const { plan, order, warnings } = planned(
      '{ x: 80, y: 60, z: 20 }',
      `  gap: { kind: pocket, face: top, path: [{ x: 15, y: -12 }, { x: 65, y: -12 }, { x: 65, y: 45, round: 8 }, { x: 15, y: 45, round: 8 }], depth: through }
  pin: { kind: hole, face: left, at: { y: 10, z: center }, diameter: 8 H7, depth: through }
  screws: { kind: hole, face: back, at: { x: center, z: center }, pattern: { line: { x: 40, count: 2 } }, thread: M6, depth: through }
`,
      'stock: { form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\n',
    );
    assert.equal(plan.setups.length, 3);
    goesFirst(order, 'gap', 'pin');
    goesFirst(order, 'gap', 'screws');
    assert.deepEqual(warnings, ['access/reach']);
  });

  it('a bore of a fit is never made half from each side', () => {
    const { plan } = planned(
      '{ x: 90, y: 40, z: 20 }',
      '  pin: { kind: hole, face: left, at: { y: center, z: center }, diameter: 8 H7, depth: through }\n',
    );
    assert.deepEqual(
      plan.setups.flatMap((s) => s.setup.cuts.map((c) => c.depth)),
      [undefined],
    );
  });
});
