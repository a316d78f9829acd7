/**
 * Plans that cut from both sides, or hold the work by stock that is cut off afterwards. How far a tool reaches and what a jaw
 * leaves free is worked out by hand beside each; that it is done so is common practice, no source.
 */

import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import { cutsOf, made, part, SHOP } from './bench';

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
