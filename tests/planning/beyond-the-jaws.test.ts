/**
 * Work that stands out of the jaws, as far as a cut at its end goes and 3 mm farther: common practice, no source. How far is
 * worked out by hand beside each.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { writePlan } from '../../server/src/planning/keep';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import { cutsOf, made, part, SHOP } from './bench';

const errors = (text: string) =>
  checkPart(text, SHOP)
    .findings.filter((f) => f.severity === 'error')
    .map((f) => f.rule);

describe('as far as what is cut at the end goes', () => {
  const rail = (features: string, setup: string) =>
    part(
      '{ x: 70, y: 40, z: 26 }',
      `${features}setups:\n  s: { up: top, hold: { vise: vise, jaws: [back, front], grip: 22, parallels: 10${setup} }\n`,
      'stock: { form: block, sawn: [right], extra: { right: 2 } }\n',
    );
  const step = (mm: number) => `  ledge: { kind: step, face: top, along: right, width: ${mm}, depth: 14 }\n`;

  it('a step in an end that is milled as well goes in farther than the end', () => {
    for (const mm of [5, 9, 20]) assert.deepEqual(errors(rail(step(mm), ' }, cuts: [right, ledge]')), [], `${mm}`);
  });

  it('not where the end that stands out is the other one, or the stop is there', () => {
    assert.deepEqual(errors(rail(step(9), ', stop: right }, cuts: [right, ledge]')).includes('access/jaw'), true);
    assert.deepEqual(
      errors(rail(step(9), ', overhang: { left: 12 } }, cuts: [right, ledge]')).includes('access/jaw'),
      true,
    );
  });

  it('a corner that is broken from top to bottom', () => {
    const broken = '  corner: { kind: chamfer, edges: [[left, front]], size: 5 }\n';
    const at = (setup: string) =>
      errors(
        part(
          '{ x: 44, y: 40, z: 20 }',
          `${broken}setups:\n  s: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22${setup} }, cuts: [corner] }\n`,
        ),
      );
    assert.deepEqual(at(', stop: right'), []);
    assert.ok(at(', stop: left').includes('access/jaw'));
    assert.ok(at(', overhang: { left: 2 }').includes('access/jaw'));
  });
});

describe('planned so', () => {
  it('a notch in the side near an end: 8 + 12 mm, and 3 more', () => {
    const { plan, written } = made(
      part(
        '{ x: 60, y: 40, z: 20 }',
        '  notch: { kind: pocket, face: top, at: { x: 14, y: 0 }, size: { x: 12, y: 12 }, corner-radius: 4.5, depth: 18 }\n' +
          '  gap: { kind: pocket, face: top, at: { x: 0, y: 24 }, size: { x: 12, y: 12 }, corner-radius: 4.5, depth: 18 }\n',
      ),
    );
    assert.equal(plan.setups.length, 1);
    assert.deepEqual(plan.setups[0]!.setup.hold!.overhang!.by.mm, 23);
    assert.match(written, /stop: right, overhang: \{ left: 23 \}/);
  });

  it('as far as the shop wants its tools to stay clear of the jaws: 5 mm beyond 8 + 12', () => {
    const shop = { ...SHOP, limits: new Map([['access/jaw', new Map([['clear', 5]])]]) };
    const { plan, again } = made(
      part(
        '{ x: 60, y: 40, z: 20 }',
        '  notch: { kind: pocket, face: top, at: { x: 14, y: 0 }, size: { x: 12, y: 12 }, corner-radius: 4.5, depth: 18 }\n',
      ),
      shop,
    );
    assert.equal(plan.setups[0]!.setup.hold!.overhang!.by.mm, 25);
    assert.deepEqual(
      again.findings.filter((f) => f.rule === 'access/jaw').map((f) => f.message),
      [],
    );
  });

  it('an upright corner: one set-up, broken with the side of an end mill', () => {
    const plate = part(
      '{ x: 44, y: 40, z: 20 }',
      '  tie: { kind: hole, face: top, at: { x: 22, y: 20 }, diameter: 6, depth: 8 }\n  corner: { kind: chamfer, edges: [[left, front]], size: 5 }\n',
    );
    // The simulator breaks edges with cones only.
    assert.deepEqual(cutsOf(made(plate, SHOP, false)), [['top', ['tie', 'corner']]]);
  });
});

describe('a stop at an end that is milled', () => {
  const shaft = `part: pivot-shaft
material: steel-c45
body: { diameter: 20, length: 80, axis: x }
stock: { form: round-bar, sawn: [left, right], extra: { left: 3, right: 3 } }
features:
  cross: { kind: hole, face: top, at: { x: 60, y: center }, diameter: 5, depth: through }
  flat: { kind: step, face: top, along: [left], width: 15, depth: 4 }
`;

  it('is left out where the cutter would touch it, though that is a warning only', () => {
    const checked = checkPart(shaft, builtinShop());
    const plan = planOf(checked)!;
    assert.equal(plan.setups.length, 1);
    assert.equal(plan.setups[0]!.setup.hold?.stop, undefined);
    const written = writePlan(plan, checked);
    assert.ok(!written.kept);
    const { text } = written;
    const near = checkPart(text, builtinShop()).findings.filter((f) => f.rule === 'access/jaw');
    assert.deepEqual(near, []);
    // With it there the cutter touches it: what the plan was before.
    const again = checkPart(text.replace(/ \}\n {4}zero/, ', stop: left }\n    zero'), builtinShop());
    assert.match(again.findings.map((f) => `${f.rule} ${f.message}`).join(), /access\/jaw .*touches the stop/);
  });
});
