/** The bar it is cut from: does it hold the part, and is there something to clean up. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { findingsOf, mended, onlyFinding } from '../tester';

const part = (body: string, stock: string, features = '') =>
  `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: ${body}\nstock: ${stock}\nfeatures:\n${
    features ||
    '  bore:\n    kind: hole\n    face: top\n    at: { x: center, y: center }\n    diameter: 8\n    depth: through\n'
  }`;

describe('stock/too-small', () => {
  const round = (diameter: number, features = '', body = '{ x: 30, y: 40, z: 20 }') =>
    part(body, `{ form: round-bar, diameter: ${diameter}, axis: z, extra: { bottom: 3, top: 3 } }`, features);

  it('wants the diagonal of the body across a round bar: 3-4-5', () => {
    const finding = onlyFinding('stock/too-small', round(45));
    assert.equal(finding.facts.needed_mm, 50);
    assert.equal(finding.facts.missing_mm, 5);
    assert.deepEqual(findingsOf('stock/too-small', round(50)), []);
  });

  it('offers the next bar', () => {
    assert.match(mended('stock/too-small', round(45)), /diameter: 50,/);
  });

  it('needs no bar for corners that are cut away', () => {
    const disc =
      '  outline:\n    kind: contour\n    face: top\n    at: { x: center, y: center }\n    diameter: 30\n    depth: through\n';
    assert.deepEqual(findingsOf('stock/too-small', round(31, disc, '{ x: 30, y: 30, z: 20 }')), []);
    const finding = onlyFinding('stock/too-small', round(28, disc, '{ x: 30, y: 30, z: 20 }'));
    assert.ok(Math.abs(Number(finding.facts.needed_mm) - 30) < 0.5, `${finding.facts.needed_mm}`);
  });

  it('but for one that is left anywhere along the bar', () => {
    const half =
      '  outline:\n    kind: contour\n    face: top\n    at: { x: center, y: center }\n    diameter: 30\n    depth: 10\n';
    const finding = onlyFinding('stock/too-small', round(31, half, '{ x: 30, y: 30, z: 20 }'));
    assert.equal(finding.facts.needed_mm, 42.426); // 30 √2
  });

  it('compares a turned body with its bar', () => {
    const turned = (d: number) =>
      part('{ diameter: 40, length: 30, axis: z }', `{ form: round-bar, diameter: ${d}, axis: z }`);
    assert.equal(onlyFinding('stock/too-small', turned(38)).facts.missing_mm, 2);
    assert.deepEqual(findingsOf('stock/too-small', turned(40)), []);
  });

  it('finds stock that ends inside the part', () => {
    const text = part(
      '{ x: 60, y: 40, z: 16 }',
      '{ form: flat-bar, sawn: [left, right], extra: { left: 3, right: -1 } }',
    );
    const found = findingsOf('stock/too-small', text);
    // Where the spec does not allow a negative length it has said so already.
    if (found.length === 0) assert.equal(findingsOf('form/schema', text).length, 1);
    else assert.equal(found[0]!.facts.extra_mm, -1);
  });

  it('wants a square bar square', () => {
    const square = (extra: string) =>
      part(
        '{ x: 60, y: 30, z: 28 }',
        `{ form: square-bar, sawn: [left, right], extra: { left: 3, right: 3${extra} } }`,
      );
    const finding = onlyFinding('stock/too-small', square(''));
    assert.equal(finding.severity, 'warning');
    assert.deepEqual([finding.facts.a_mm, finding.facts.b_mm], [30, 28]);
    assert.deepEqual(findingsOf('stock/too-small', square(', top: 2')), []);
    assert.match(mended('stock/too-small', square('')), /form: flat-bar/);
  });

  it('asks nothing where no stock is written', () => {
    const text = part('{ x: 60, y: 40, z: 16 }', 'X').replace('stock: X\n', '');
    assert.deepEqual(findingsOf('stock/too-small', text), []);
    assert.deepEqual(findingsOf('stock/extra', text), []);
  });
});

describe('stock/extra below work that is held by it', () => {
  const part = (bottom: number, up: string) => `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock: { form: block, sawn: [bottom], extra: { left: 1.5, right: 1.5, front: 1.5, back: 1.5, bottom: ${bottom} } }
features:
  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 8 }
setups:
  round: { up: ${up}, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [left, right, front, back, bore] }
  over: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }, cuts: [bottom] }
`;

  it('may be the grip and what a cutter stays clear by; more, or held elsewhere, is told', () => {
    assert.deepEqual(findingsOf('stock/extra', part(9, 'top')), []);
    assert.equal(onlyFinding('stock/extra', part(9.5, 'top')).severity, 'hint');
    assert.equal(onlyFinding('stock/extra', part(9, 'left')).severity, 'hint');
    // Drilled from above only, the jaws could grip the part itself.
    const drilled = part(9, 'top').replace('[left, right, front, back, bore]', '[bore]');
    assert.equal(onlyFinding('stock/extra', drilled).severity, 'hint');
  });

  it('a step along the jaws that leaves too little of the part to grip is a reason as well; the fix leaves what holds it', () => {
    const held = (deep: number, bottom: number) =>
      part(bottom, 'top')
        .replace('  bore: {', `  rebate: { kind: step, face: top, along: front, width: 6, depth: ${deep} }\n  bore: {`)
        .replace('[left, right, front, back, bore]', '[rebate, bore]');
    // 16 high less 1 of clearance: from 9 deep on less than the grip of 6 would be left below the step.
    assert.deepEqual(findingsOf('stock/extra', held(10, 9)), []);
    assert.equal(onlyFinding('stock/extra', held(8, 9)).severity, 'hint');
    const wasted = onlyFinding('stock/extra', held(10, 12));
    assert.deepEqual([wasted.facts.limit_mm, wasted.facts.usual_mm], [9, 9]);
    assert.match(mended('stock/extra', held(10, 12)), /bottom: 9/);
  });

  it('before any set-up is written it is said what the stock could be for', () => {
    const bare = part(8, 'top').replace(/setups:[\s\S]*$/, '');
    assert.match(onlyFinding('stock/extra', bare).message, /grip the workpiece by it and face it off last/);
    const outline = bare.replace(
      '  bore: {',
      '  outline: { kind: contour, face: top, at: { x: 30, y: 20 }, size: { x: 60, y: 40 }, corner-radius: 4, depth: through }\n  bore: {',
    );
    const sides = outline.replace('sawn: [bottom]', 'sawn: [left]').replace('left: 1.5', 'left: 20');
    assert.match(
      onlyFinding('stock/extra', sides.replace('left: 20', 'left: 12')).message,
      /keep it as the frame of tabs/,
    );
  });
});

describe('stock/extra', () => {
  it('points at the extra, or at the sawn face that has none', () => {
    checkMarked(
      `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock:
  form: flat-bar
  sawn:
    - left
    - right # ! stock/extra
    - front
    - back
  extra:
    left: 0.3 # ! stock/extra
    front: 3
    back: 9 # ! stock/extra
features:
  bore:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 8
    depth: through
`,
      { topics: ['stock'], hints: true },
    );
  });

  it('is a hint where it is only too much', () => {
    const text = part('{ x: 60, y: 40, z: 16 }', '{ form: flat-bar, sawn: [left], extra: { left: 9 } }');
    assert.equal(onlyFinding('stock/extra', text).severity, 'hint');
    assert.match(mended('stock/extra', text), /extra: \{ left: 3 \}/);
  });

  it('writes the allowance where none is: beside the others, or with the first', () => {
    const beside = part('{ x: 60, y: 40, z: 16 }', '{ form: flat-bar, sawn: [left, right], extra: { left: 3 } }');
    assert.match(mended('stock/extra', beside), /extra: \{ left: 3, right: 3 \}/);
    const first = part('{ x: 60, y: 40, z: 16 }', '{ form: flat-bar, sawn: [left] }');
    assert.match(mended('stock/extra', first), /sawn: \[left\], extra: \{ left: 3 \}/);
  });

  it('what it leaves is faced, where a set-up can; by itself it would be stock that nobody cuts', () => {
    const text = (up: string, cuts = 'back') =>
      part('{ x: 60, y: 40, z: 16 }', '{ form: flat-bar, sawn: [left, right], extra: { left: 3 } }').concat(`setups:
  main: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [bore, left] }
  end: { up: ${up}, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }, cuts: [${cuts}] }
`);
    const titles = (t: string) => {
      const checked = checkPart(t, builtinShop());
      return fixesFor(checked, checked.findings.find((f) => f.rule === 'stock/extra')!).map((f) => f.title);
    };
    const unfaced = (t: string) => findingsOf('setup/unassigned', t).filter((f) => f.of.includes('right')).length;
    const [first, ...rest] = titles(text('right'));
    assert.equal(first, 'Leave 3 mm on the right face and cut it in end');
    assert.deepEqual(rest, ['Leave 3 mm on the right face']);
    const mendedText = mended('stock/extra', text('right'));
    assert.match(mendedText, /extra: \{ left: 3, right: 3 \}[\s\S]*cuts: \[back, right\]/);
    assert.deepEqual([unfaced(mendedText), unfaced(mended('stock/extra', text('right'), /face$/))], [0, 1]);
    // It is cut already; or it lies on the table there, and along the side the jaws are in the way.
    for (const other of [text('right', 'right'), text('left')]) assert.ok(titles(other).every((t) => /face$/.test(t)));
  });
});

describe('stock/unknown-material', () => {
  it('names the nearest and writes it', () => {
    const text = part('{ x: 60, y: 40, z: 16 }', '{ form: flat-bar }').replace('6061-t6', '6016');
    assert.match(mended('stock/unknown-material', text), /material: aluminium-6061-t6\n/);
  });
});
