/**
 * Plans that cut from both sides, or hold the work by stock that is cut off afterwards. How far a tool reaches and what a jaw
 * leaves free is worked out by hand beside each; that it is done so is common practice, no source.
 */

import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { planOf } from '../../server/src/planning/plan';
import { planLines } from '../../server/src/report/plan';
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
      plan.uncut.map((l) => l.item.name),
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

describe('half from each side, where jaws are in the way of all of it', () => {
  const outline = (z: number) =>
    part(
      `{ x: 50, y: 40, z: ${z} }`,
      '  outline: { kind: contour, face: top, depth: through, at: { x: 25, y: 20 }, size: { x: 45, y: 35 }, corner-radius: 9 }\n',
    );

  it('an outline in 28 mm without surplus: its upper half, then held by that, the lower', () => {
    const { plan, again } = made(outline(28));
    assert.deepEqual(cutsOf({ plan }), [
      ['top', ['outline half']],
      ['bottom', ['outline half']],
    ]);
    const lines = planLines(plan, again).join('\n');
    assert.match(lines, /outline is cut half from each side: from one alone the jaws are in the way\./);
  });

  it('half of 11 mm does not stand above the least grip, 6 mm: not cut, and what is in the way is named', () => {
    const checked = checkPart(outline(11), SHOP);
    const plan = planOf(checked)!;
    assert.match(planLines(plan, checked).join('\n'), /Nothing can be cut\.[\s\S]*not cut: outline: with \w+ up: .*\[/);
  });

  it('two notches through sides that meet: a set-up each, and told which is in the way of fewer', () => {
    const notches = part(
      '{ x: 50, y: 50, z: 30 }',
      '  notch: { kind: pocket, face: top, at: { x: 25, y: 0 }, size: { x: 16, y: 20 }, corner-radius: 5, depth: through }\n' +
        '  gap: { kind: pocket, face: top, at: { x: 0, y: 25 }, size: { x: 20, y: 16 }, corner-radius: 5, depth: through }\n',
    );
    const checked = checkPart(notches, SHOP);
    const plan = planOf(checked)!;
    assert.equal(plan.setups.length, 2);
    assert.match(planLines(plan, checked).join('\n'), /In the way of fewer: (notch|gap), with top up: .*jaw.*\[/);
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
