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
  assert.deepEqual(plan.uncut, []);
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

  it('the screw that closes a slit before the slit', () => {
    const { order } = planned(
      '{ x: 40, y: 50, z: 14 }',
      `  slit: { kind: slot, face: top, ends: [{ x: 20, y: 20 }, { x: 20, y: 55 }], width: 2, depth: through }
  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 16 H7, depth: through }
  pinch: { kind: hole, face: left, at: { y: 42, z: 7 }, thread: M4, depth: through }
`,
    );
    goesFirst(order, 'bore', 'slit');
    goesFirst(order, 'pinch', 'slit');
  });

  it('a screw’s hole and the seat of its head from one side, be the hole seen from the other too', () => {
    const { plan } = planned(
      '{ x: 60, y: 40, z: 20 }',
      `  under: { kind: pocket, face: bottom, at: { x: 42, y: 20 }, size: { x: 24, y: 24 }, corner-radius: 5, depth: 6 }
  clear: { kind: hole, face: bottom, at: { x: 12, y: 20 }, diameter: 6.6, depth: through }
  head: { kind: hole, face: top, at: { x: 12, y: 20 }, diameter: 11, depth: 6, bottom: flat }
`,
    );
    assert.equal(plan.setups.length, 2);
    const at = (name: string) => plan.setups.findIndex((s) => s.setup.cuts.some((c) => c.name === name));
    assert.equal(at('clear'), at('head'));
  });

  it('squares up first: nothing is placed from a face on which stock stands until later', () => {
    const { plan } = planned(
      '{ x: 80, y: 40, z: 25 }',
      `  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 20 }, corner-radius: 4, depth: 8 }
  tie: { kind: hole, face: front, at: { x: 15, z: 12 }, diameter: 6, depth: 15 }
`,
      'stock: { form: block, sawn: [left, right, front, back, top, bottom], extra: { left: 2, right: 2, front: 2, back: 2, top: 2, bottom: 2 } }\n',
    );
    for (const [i, { setup, items }] of plan.setups.entries()) {
      const later = new Set(plan.setups.slice(i + 1).flatMap((s) => s.items.flatMap((x) => x.face ?? [])));
      const raw = Object.values(setup.zero).filter((z) => later.has(z.name as never));
      if (items.some((x) => x.feature))
        assert.deepEqual(
          raw.map((z) => z.name),
          [],
          `${setup.name}: ${setup.cuts.map((c) => c.name)}`,
        );
    }
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
