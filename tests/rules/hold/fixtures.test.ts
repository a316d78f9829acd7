/** Round work in V-blocks, work against an angle plate, long work in two vises: what the rules say of them. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding, tryFixesOn } from '../tester';

const said = (text: string, shop = builtinShop()) =>
  checkPart(text, shop).findings.map((f) => `${f.severity} ${f.rule}`);

describe('hold/v-block', () => {
  const shaft = (
    hold: string,
    { d = 20, cuts = '[key]', axis = 'x', more = '' } = {},
  ) => `${ALUMINIUM}body: { diameter: ${d}, length: 200, axis: ${axis} }
stock: { form: round-bar, diameter: ${d}, axis: ${axis} }
features:
  key: { kind: pocket, face: ${axis === 'x' ? 'top, at: { x: 100, y: center }, size: { x: 40, y: 6 }' : 'top, at: { x: center, y: center }, size: { x: 8, y: 6 }'}, corner-radius: 2.9, depth: 3.5 }
${more}setups:
  one: { up: top, hold: ${hold}, cuts: ${cuts} }
`;
  const trouble = (text: string) => onlyFinding('hold/v-block', text).facts.trouble;
  const V = (at = '{ x: 20, y: center }, { x: 170, y: center }') => `{ v-block: v-block-45, clamps: [${at}] }`;

  it('round work that lies in a V that takes it is held', () => {
    assert.deepEqual(said(shaft(V())), []);
  });
  it('under clamps on the flat table it rolls; the fix lays it in a V', () => {
    const text = shaft('{ clamps: [{ x: 20, y: center }, { x: 170, y: center }] }');
    assert.equal(trouble(text), 'rolls');
    assert.match(mended('hold/v-block', text), /v-block: v-block-45/);
    assert.ok(tryFixesOn({ name: 'hold/v-block' }, text) > 0);
  });
  it('a V takes what it takes', () => {
    // 32 wide, 90°: from 32 / (1 + √2) to 32 √2.
    assert.deepEqual(findingsOf('hold/v-block', shaft(V(), { d: 45 })), []);
    const thick = onlyFinding('hold/v-block', shaft(V(), { d: 46 }));
    assert.deepEqual([thick.facts.trouble, thick.facts.most_mm], ['size', 45.255]);
    assert.deepEqual(onlyFinding('hold/v-block', shaft(V(), { d: 12 })).facts.least_mm, 13.255);
  });
  it('work that stands, or is square, does not lie in it', () => {
    assert.equal(
      trouble(shaft('{ v-block: v-block-45, clamps: [{ x: 10, y: 4 }, { x: 10, y: 16 }] }', { axis: 'z' })),
      'upright',
    );
    const square = `${ALUMINIUM}body: { x: 200, y: 20, z: 20 }\nfeatures:\n  a: { kind: hole, face: top, at: { x: 100, y: center }, diameter: 5, depth: 8 }\nsetups:\n  one: { up: top, hold: ${V()}, cuts: [a] }\n`;
    assert.equal(trouble(square), 'not-round');
  });
  it('upright in a vise it does, and is touched along three lines', () => {
    const upright = (block: string) =>
      shaft(`{ vise: mill-vise-100, jaws: [back, front], grip: 32${block} }`, { axis: 'z' }).replace(
        'length: 200',
        'length: 60',
      );
    assert.deepEqual(said(upright('')), ['warning hold/parallel']);
    assert.deepEqual(said(upright(', v-block: v-block-45')), []);
    const lying = shaft('{ vise: mill-vise-100, jaws: [back, front], grip: 14, v-block: v-block-45 }');
    assert.equal(findingsOf('hold/v-block', lying)[0]!.facts.trouble, 'lying');
  });
  it('where the round side is cut away there is no V to lie in', () => {
    const flat = `  flat: { kind: step, face: bottom, along: front, width: 20, depth: 6 }\n`;
    const text = shaft(V(), { more: flat }).replace(
      '  one:',
      '  zero: { up: bottom, hold: { soft-jaws: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [flat] }\n  one:',
    );
    assert.equal(findingsOf('hold/v-block', text)[0]?.facts.trouble, 'bare');
  });
  it('two blocks where there is one are too many', () => {
    const shop = { ...builtinShop(), vBlocks: builtinShop().vBlocks.map((v) => ({ ...v, count: 1 })) };
    const few = findingsOf('hold/v-block', shaft(V()), shop);
    assert.equal(few[0]?.facts.trouble, 'few');
    const near = shaft(V('{ x: 20, y: center }, { x: 48, y: center }'));
    assert.deepEqual(findingsOf('hold/v-block', near, shop), []);
  });
  it('a cutter beside the bar meets the edges of the block', () => {
    const slot = `  side: { kind: step, face: front, along: top, width: 7, depth: 7 }\n`;
    const cut = (x: number) =>
      findingsOf(
        'access/jaw',
        shaft(V(`{ x: 20, y: center }, { x: ${x}, y: center }`), { more: slot, cuts: '[side]' }),
      );
    assert.ok(cut(170).some((f) => f.facts.meets === 'V-block' || f.facts.meets === 'clamp'));
  });
});

describe('a clamp at an angle plate across a gap that is cut then', () => {
  const fork = (z: number) => `${ALUMINIUM}body: { x: 40, y: 30, z: 60 }
features:
  gap: { kind: slot, face: top, ends: [{ x: -10, y: 15 }, { x: 50, y: 15 }], width: 10, depth: 25 }
setups:
  one: { up: top, hold: { angle-plate: angle-plate-100, against: back, clamps: [{ x: 10, z: ${z} }, { x: 30, z: ${z} }] }, cuts: [gap] }
`;
  it('is told with the cut that opens it; below its floor it is not', () => {
    const [first, second, ...more] = findingsOf('hold/clamps', fork(48));
    assert.equal(more.length, 0);
    assert.deepEqual([first?.severity, first?.of, second?.of], ['warning', ['gap'], ['gap']]);
    // 10 of 30 mm, to a layer.
    assert.ok(Math.abs(Number(first?.facts.hollow_mm) - 10) <= 0.7, String(first?.facts.hollow_mm));
    assert.deepEqual(findingsOf('hold/clamps', fork(20)), []);
  });
});

describe('hold/angle-plate', () => {
  const strap = (hold: string, z = 200) => `${ALUMINIUM}body: { x: 40, y: 6, z: ${z} }
features:
  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 3, depth: 12 }
setups:
  one: { up: top, hold: { angle-plate: angle-plate-100, ${hold} }, cuts: [tie] }
`;
  const clamps = 'clamps: [{ x: 20, z: 120 }, { x: 20, z: 165 }]';
  it('a long strap on end stands out little above it', () => {
    assert.deepEqual(said(strap(`against: back, ${clamps}, out: 12`)), []);
    const high = onlyFinding('hold/angle-plate', strap('against: back, clamps: [{ x: 20, z: 25 }, { x: 20, z: 75 }]'));
    assert.deepEqual([high.severity, high.facts.out_mm, high.facts.limit_ratio], ['warning', 100, 3]);
  });
  it('at three times its thickness nothing is said, and the fix ends there', () => {
    assert.deepEqual(findingsOf('hold/angle-plate', strap(`against: back, ${clamps}, out: 18`)), []);
    const text = strap(`against: back, ${clamps}, out: 18.1`);
    assert.equal(onlyFinding('hold/angle-plate', text).facts.out_mm, 18.1);
    assert.match(mended('hold/angle-plate', text), /out: 18 /);
  });
  it('a side that looks up, or lies below, stands against nothing', () => {
    assert.match(findingsOf('form/schema', strap(`against: top, ${clamps}`))[0]!.message, /top is up/);
  });
  it('its clamps press on the side opposite: on nothing beside the work, on what is cut away', () => {
    const off = strap('against: back, clamps: [{ x: 50, z: 120 }, { x: 20, z: 165 }], out: 12');
    assert.match(onlyFinding('hold/clamps', off).message, /no (work|material)/);
    const one = strap('against: back, clamps: [{ x: 20, z: 120 }], out: 12');
    assert.equal(onlyFinding('hold/clamps', one).facts.clamps, 1);
  });
  it('a strap beside the cut is in the way', () => {
    const text = strap('against: back, clamps: [{ x: 20, z: 140 }, { x: 20, z: 175 }], out: 18')
      .replace('setups:', '  ledge: { kind: step, face: top, along: front, width: 3, depth: 16 }\nsetups:')
      .replace('[tie]', '[tie, ledge]');
    assert.ok(findingsOf('access/jaw', text).some((f) => f.facts.meets === 'clamp'));
  });
});

describe('two vises in line', () => {
  const long = (hold: string) => `${ALUMINIUM}body: { x: 300, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 20 }, corner-radius: 6, depth: 5 }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${hold} }, cuts: [seat] }
`;
  const two = { ...builtinShop(), vises: builtinShop().vises.map((v) => ({ ...v, count: 2 })) };
  it('hold what is long for one, where there are two alike', () => {
    assert.equal(onlyFinding('hold/opening', long('')).facts.length_mm, 300);
    assert.deepEqual(said(long(', apart: 180'), two), []);
    assert.match(mended('hold/opening', long(''), /two such vises/, two), /apart: 170/);
    assert.equal(onlyFinding('hold/opening', long(', apart: 180')).facts.count, 1);
  });
  it('do not stand in each other', () => {
    assert.match(onlyFinding('hold/opening', long(', apart: 80'), two).message, /cannot (stand|be)/);
  });
});

describe('a bar with a hole across, lying in plain jaws', () => {
  const bar = (hold: string) => `${ALUMINIUM}body: { diameter: 20, length: 120, axis: x }
stock: { form: round-bar, diameter: 20, axis: x }
features:
  cross: { kind: hole, face: top, at: { x: 60, y: center }, diameter: 5, depth: through }
setups:
  one: { up: top, hold: ${hold}, cuts: [cross] }
`;
  it('is not said to be squeezed for the line that it is touched along; V-blocks are offered', () => {
    const text = bar('{ vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18 }');
    assert.deepEqual(said(text), ['warning hold/parallel']);
    assert.match(mended('hold/parallel', text, /v-block/), /v-block: v-block-45, clamps: /);
  });
});
