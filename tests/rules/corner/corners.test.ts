/** Square, tight, filleted, mixed and rounded corners. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { ALUMINIUM, block, pocket } from '../parts';
import { endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const CUTTERS = shopWith(endMill('em-3', 3, 12) + endMill('em-6', 6, 20) + endMill('em-10', 10, 40));

describe('corner/square', () => {
  const RULE = 'corner/square';

  it('counts the corners and says what the smallest cutter leaves', () => {
    const text = block(
      [60, 40, 16],
      pocket('nest', { at: 'x: center, y: center', size: [30, 20], radius: 0, depth: 6 }),
    );
    const finding = onlyFinding(RULE, text, CUTTERS);
    assert.equal(finding.facts.corners, 4);
    // R (√2 − 1) with R = 1.5
    assert.equal(finding.facts.left_mm, 0.621);
    assert.equal(finding.severity, 'error');
  });

  it('mends with a radius, or with relief', () => {
    const text = block(
      [60, 40, 16],
      pocket('nest', { at: 'x: center, y: center', size: [30, 20], radius: 0, depth: 6 }),
    );
    assert.match(mended(RULE, text, /Round the corners to 3\.3/, CUTTERS), /corner-radius: 3\.3\n/);
    assert.match(mended(RULE, text, /relief/, CUTTERS), /relief: corner\n/);
  });

  it('counts only corners with walls: a pocket open to one side has two, to two sides one', () => {
    const at = (x: string, y: string) =>
      block([60, 40, 16], pocket('bay', { at: `x: ${x}, y: ${y}`, size: [40, 20], radius: 0, depth: 6 }));
    assert.equal(onlyFinding(RULE, at('10', 'center'), CUTTERS).facts.corners, 2);
    assert.equal(onlyFinding(RULE, at('10', '5'), CUTTERS).facts.corners, 1);
    const across = block(
      [60, 40, 16],
      pocket('bay', { at: 'x: center, y: center', size: [80, 20], radius: 0, depth: 6 }),
    );
    assert.deepEqual(findingsOf(RULE, across, CUTTERS), []);
  });

  it('a step along an edge has none, one in a corner has one', () => {
    const step = (along: string, width: string) =>
      block([60, 40, 16], `  ledge: { kind: step, face: top, along: ${along}, width: ${width}, depth: 6 }\n`);
    assert.deepEqual(findingsOf(RULE, step('front', '10'), CUTTERS), []);
    assert.equal(onlyFinding(RULE, step('[left, front]', '[20, 10]'), CUTTERS).facts.corners, 1);
    const cured = mended(RULE, step('[left, front]', '[20, 10]'), undefined, CUTTERS);
    assert.match(cured, /kind: pocket/);
    assert.deepEqual(findingsOf('corner/square', cured, CUTTERS), []);
  });

  it('tells a corner step what it is, and makes a shoulder along both sides of it', () => {
    // 60 × 11 + 40 × 8 − 11 × 8 = 892 mm², 6 deep: 5352 mm³; the corner is 528.
    const text = (more = '', cuts = '') =>
      block(
        [60, 40, 20],
        `  lip: { kind: step, face: top, along: [front, left], width: [11, 8], depth: 6${more} } # for the lid\n`,
        ALUMINIUM,
        cuts,
      );
    const gone = (t: string) => 60 * 40 * 20 - checkPart(t, builtinShop()).solid.measures.volumeMm3;
    assert.ok(Math.abs(gone(text()) - 528) < 1e-6);
    assert.match(onlyFinding(RULE, text()).message, /only the corner where both meet.*two steps/);
    const both = mended(RULE, text(', floor-radius: 0'), /two steps/);
    assert.ok(Math.abs(gone(both) - 5352) < 1e-6, both);
    assert.match(both, /# for the lid/);
    assert.deepEqual(
      checkPart(both, builtinShop()).findings.filter((f) => f.severity === 'error'),
      [],
    );
    const cuts = `setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: right }, zero: { x: right, y: back, z: parallels }, cuts: [lip] }
`;
    assert.match(mended(RULE, text('', cuts), /two steps/), /cuts: \[lip, lip-left\]/);
  });

  it('two steps that meet in a corner leave none of their own', () => {
    const text = block(
      [60, 40, 16],
      '  a: { kind: step, face: top, along: front, width: 10, depth: 6 }\n  b: { kind: step, face: top, along: left, width: 10, depth: 6 }\n',
    );
    assert.deepEqual(findingsOf(RULE, text, CUTTERS), []);
  });

  it('islands have outside corners, which may be sharp', () => {
    const text = block(
      [60, 40, 16],
      pocket('tray', { at: 'x: center, y: center', size: [50, 30], radius: 4, depth: 6 }) +
        '    islands:\n      post: { size: { x: 8, y: 8 }, at: { x: center, y: center }, height: 3 }\n',
    );
    assert.deepEqual(findingsOf(RULE, text, CUTTERS), []);
  });

  it('a pocket that an island splits into layers tells each corner once', () => {
    const text = block(
      [60, 40, 16],
      pocket('tray', { at: 'x: center, y: center', size: [50, 30], radius: 0, depth: 6 }) +
        '    islands:\n      post: { size: { x: 8, y: 8 }, at: { x: center, y: center }, height: 3 }\n',
    );
    assert.equal(onlyFinding(RULE, text, CUTTERS).facts.corners, 4);
  });

  it('writes the rounding at the corners of a path that are inside, not at the others', () => {
    const text = block(
      [60, 40, 16],
      `  boss:
    kind: contour
    face: top
    path:
      - { x: 10, y: 5 }
      - { x: 50, y: 5 }
      - { x: 50, y: 20 }
      - { x: 30, y: 20 } # the inside corner
      - { x: 30, y: 35 }
      - { x: 10, y: 35 }
    depth: 6
`,
    );
    const finding = onlyFinding(RULE, text, CUTTERS);
    assert.equal(finding.facts.corners, 1);
    const cured = mended(RULE, text, undefined, CUTTERS);
    assert.equal(cured.match(/round:/g)?.length, 1);
    assert.match(cured, /x: 30, y: 20, round: [\d.]+ } # the inside corner/);
  });

  it('a wide open bend that leaves next to nothing is none', () => {
    const path = (y: number) =>
      `[{ x: 10, y: 10 }, { x: 30, y: ${y} }, { x: 50, y: 10 }, { x: 50, y: 30 }, { x: 10, y: 30 }]`;
    const text = (y: number) =>
      block([60, 40, 16], `  boss: { kind: contour, face: top, path: ${path(y)}, depth: 6 }\n`);
    // The dent of 0.5 mm turns 5.7°: R (1 / cos 2.9° − 1) = 0.002 mm; that of 9 mm turns 97°.
    assert.deepEqual(findingsOf(RULE, text(10.5), CUTTERS), []);
    assert.equal(findingsOf(RULE, text(19), CUTTERS).length, 1);
  });

  it('finds corners on every face', () => {
    for (const [face, at, size] of [
      ['bottom', '{ x: 30, y: 20 }', '{ x: 20, y: 12 }'],
      ['front', '{ x: 30, z: 10 }', '{ x: 20, z: 12 }'],
      ['back', '{ x: 30, z: 10 }', '{ x: 20, z: 12 }'],
      ['left', '{ y: 20, z: 10 }', '{ y: 20, z: 12 }'],
      ['right', '{ y: 20, z: 10 }', '{ y: 20, z: 12 }'],
    ]) {
      const text = block([60, 40, 20], `  nest: { kind: pocket, face: ${face}, at: ${at}, size: ${size}, depth: 5 }\n`);
      assert.equal(onlyFinding(RULE, text, CUTTERS).facts.corners, 4, face);
    }
  });
});

describe('corner/tight', () => {
  const RULE = 'corner/tight';
  const tray = (radius: number, depth = 6) =>
    block([60, 40, 16], pocket('tray', { at: 'x: center, y: center', size: [40, 24], radius, depth }));

  it('is a hint within 5 % of the cutter, and none outside', () => {
    assert.equal(onlyFinding(RULE, tray(3), CUTTERS).severity, 'hint');
    assert.equal(findingsOf(RULE, tray(3.15), CUTTERS).length, 1); // 3 / 3.15 = 0.952
    assert.deepEqual(findingsOf(RULE, tray(3.2), CUTTERS), []); // 0.9375
  });

  it('says nothing where the next smaller cutter rolls through', () => {
    const five = shopWith(endMill('em-5', 5, 20) + endMill('em-6', 6, 20));
    assert.deepEqual(findingsOf(RULE, tray(3), five), []);
    const short = shopWith(endMill('em-5', 5, 5) + endMill('em-6', 6, 20));
    assert.equal(findingsOf(RULE, tray(3), short).length, 1);
  });

  it('mends to a tenth more', () => {
    assert.match(mended(RULE, tray(3), undefined, CUTTERS), /corner-radius: 3\.3\n/);
  });

  it('a slot as wide as its cutter is no corner', () => {
    const text = block(
      [60, 40, 16],
      '  way: { kind: slot, face: top, ends: [{ x: 15, y: 20 }, { x: 45, y: 20 }], width: 6, depth: 5 }\n',
    );
    assert.deepEqual(findingsOf(RULE, text, CUTTERS), []);
  });
});

describe('corner/floor-radius', () => {
  const RULE = 'corner/floor-radius';
  const BULL = shopWith(
    endMill('em-10', 10, 40) +
      'bn-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 20, reach: 25, shank: 8, corner-radius: 1, material: carbide }\n' +
      'ball-6: { kind: end-mill, diameter: 6, flutes: 2, flute-length: 12, reach: 20, shank: 6, corner-radius: 3, material: carbide }\n',
  );
  const dish = (floor: number, corner = 5.5, depth = 8) =>
    block(
      [60, 40, 40],
      pocket('dish', {
        at: 'x: center, y: center',
        size: [40, 24],
        radius: corner,
        depth,
        more: `floor-radius: ${floor}`,
      }),
    );

  it('takes the bull-nose cutter that has it', () => {
    assert.deepEqual(findingsOf(RULE, dish(1), BULL), []);
    assert.deepEqual(findingsOf(RULE, dish(3), BULL), []);
  });

  it('is an error only of a shop that is known: the built-in one may lack what a real one has', () => {
    // A shoulder 34 deep: the built-in shop's bull-noses of 1 mm reach 30.
    const bracket = block(
      [50, 40, 40],
      '  in: { kind: step, face: top, along: front, width: 34, depth: 34, floor-radius: 1 }\n',
    );
    assert.equal(onlyFinding(RULE, bracket).severity, 'warning');
    assert.match(onlyFinding(RULE, bracket).message, /built-in shop/);
    assert.equal(onlyFinding(RULE, bracket, BULL).severity, 'error');
  });

  it('warns where a smaller corner can step it off', () => {
    const finding = onlyFinding(RULE, dish(2), BULL);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.tool_corner_mm, 1);
    assert.match(mended(RULE, dish(2), /1 mm|3 mm/, BULL), /floor-radius: [13]\n/);
  });

  it('is an error where every corner on hand is larger', () => {
    assert.equal(onlyFinding(RULE, dish(0.5), BULL).severity, 'error');
    assert.doesNotMatch(mended(RULE, dish(0.5), /sharp/, BULL), /floor-radius/);
  });

  it('is an error where the cutter that has it does not fit or reach', () => {
    // Corner radius 3.5 lets at most 7 mm in: the bull-nose of 8 is out, the ball of 3 is too round.
    assert.equal(onlyFinding(RULE, dish(1, 3.5), BULL).severity, 'error');
    assert.equal(onlyFinding(RULE, dish(1, 5.5, 26), BULL).severity, 'error');
  });

  it('says when the floor is rounder than the corners', () => {
    assert.match(
      onlyFinding(RULE, dish(4, 3.2), BULL).message,
      /floor radius of 4 mm, above its corner radius of 3\.2 mm/,
    );
  });
});

describe('corner/mixed', () => {
  const RULE = 'corner/mixed';
  const ALL = shopWith([2, 3, 4, 6, 8].map((d) => endMill(`em-${d}`, d, 6 * d)).join(''));
  const row = (radii: readonly number[]) =>
    block(
      [160, 40, 16],
      radii
        .map((radius, i) => pocket(`p${i}`, { at: `x: ${16 + 30 * i}, y: center`, size: [20, 26], radius, depth: 4 }))
        .join(''),
    );

  it('counts cutters, not radii', () => {
    // 3.3, 3.5 and 3.8 are all finished by em-6.
    assert.deepEqual(findingsOf(RULE, row([3.3, 3.5, 3.8, 2.2, 4.5]), ALL), []);
    const finding = onlyFinding(RULE, row([1.1, 1.7, 2.2, 3.3, 4.5]), ALL);
    assert.equal(finding.facts.cutters, 5);
    assert.equal(finding.facts.radii, 5);
    assert.equal(finding.severity, 'hint');
  });

  it('mends them all at once', () => {
    const cured = mended(RULE, row([1.1, 1.7, 2.2, 3.3, 4.5]), undefined, ALL);
    assert.equal(cured.match(/corner-radius: 1\.1\n/g)?.length, 5);
  });
});

describe('corner/outside-round', () => {
  const RULE = 'corner/outside-round';
  const ROUNDER = shopWith(
    'cr-2: { kind: corner-rounder, diameter: 8, corner-radius: 2, flutes: 4, reach: 6, shank: 8, material: carbide }\n',
  );
  const edge = (radius: number) => block([60, 40, 10], `  soft: { kind: edge-round, edges: top, radius: ${radius} }\n`);

  it('knows the form cutter on hand', () => {
    assert.deepEqual(findingsOf(RULE, edge(2), ROUNDER), []);
    assert.equal(onlyFinding(RULE, edge(2.5), ROUNDER).facts.nearest_mm, 2);
    assert.equal(onlyFinding(RULE, edge(2.5), ROUNDER).severity, 'hint');
  });

  it('the corners of an outline are followed by the side of an end mill, where one is long enough', () => {
    // A key with full round ends: nobody steps a ball along these; the plate lies flat and an end mill goes round it.
    const key = (z: number, tail = '') =>
      block(
        [50, 12, z],
        '  ends: { kind: edge-round, edges: [[left, front], [left, back]], radius: 6 }\n',
        undefined,
        tail,
      );
    const shop = shopWith(endMill('em-10', 10, 30));
    assert.deepEqual(findingsOf(RULE, key(8), shop), []);
    assert.deepEqual(findingsOf(RULE, key(60), shop), []); // half from each end
    assert.equal(findingsOf(RULE, key(61), shop).length, 1);
    // Set-ups that never turn an end of the edge up leave only the ball.
    assert.equal(findingsOf(RULE, key(8, 'setups:\n  one: { up: left, cuts: [ends] }\n'), shop).length, 1);
  });

  it('mends to a chamfer of the same size, or to the cutter there is', () => {
    assert.match(mended(RULE, edge(2.5), /chamfer/, ROUNDER), /kind: chamfer, edges: top, size: 2\.5/);
    assert.match(mended(RULE, edge(2.5), /cr-2/, ROUNDER), /radius: 2 /);
  });

  it('says nothing of chamfers', () => {
    checkMarked(block([60, 40, 10], '  soft: { kind: chamfer, edges: top, size: 2.4 }\n'), {
      topics: ['corner'],
      hints: true,
    });
  });
});
