/** Holes and what is about them: walls, cavities, slopes, the far side, the holder. */
import assert from 'node:assert/strict';
import { checkMarked } from '../marked';
import { block, hole, pocket } from '../parts';
import { drill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const near = (actual: unknown, expected: number, tolerance: number) =>
  assert.ok(Math.abs(Number(actual) - expected) <= tolerance, `${actual} is not ${expected} ± ${tolerance}`);

describe('hole/point-breaks-through', () => {
  const RULE = 'hole/point-breaks-through';
  const foot = (depth: number, more = '') => block([40, 30, 12], hole('h', 'x: center, y: center', 8, depth, more));

  // Geometry: a 118° point is 0.3004 D long: 2.403 mm at 8 mm.
  it('breaks through where less than the point is left', () => {
    const finding = onlyFinding(RULE, foot(10));
    near(finding.facts.point_mm, 2.403, 5e-4);
    assert.equal(finding.facts.left_mm, 2);
    near(finding.facts.through_mm, 0.403, 5e-4);
    assert.equal(finding.severity, 'error');
    assert.deepEqual(findingsOf(RULE, foot(9.59)), []);
    assert.equal(findingsOf(RULE, foot(9.6)).length, 1);
  });

  it('goes by the point’s own angle', () => {
    // 140°: 0.182 D = 1.456 mm
    assert.deepEqual(findingsOf(RULE, foot(10.5, 'point: 140')), []);
    assert.equal(findingsOf(RULE, foot(10.6, 'point: 140')).length, 1);
  });

  it('is no matter of flat and through holes', () => {
    assert.deepEqual(findingsOf(RULE, foot(11, 'bottom: flat')), []);
    assert.deepEqual(findingsOf(RULE, block([40, 30, 12], hole('h', 'x: center, y: center', 8, 'through'))), []);
  });

  it('only warns where the point comes out in another cavity', () => {
    const text = block(
      [40, 30, 20],
      pocket('under', { at: 'x: center, y: center', size: [20, 20], depth: 9, face: 'bottom' }) +
        hole('h', 'x: center, y: center', 8, 9),
    );
    assert.equal(onlyFinding(RULE, text).severity, 'warning');
    // Meant to open there: the full diameter does.
    assert.deepEqual(
      findingsOf(RULE, text.replace('depth: 9\n    \n', '').replace(/8\n {4}depth: 9/, '8\n    depth: 12')),
      [],
    );
  });

  it('mends by depth, floor, or going through', () => {
    // 10 − 0.403 through − 0.8 for a floor, to a tenth below: the depth that the message says is the one that is written.
    assert.equal(onlyFinding(RULE, foot(10)).facts.allowed_depth_mm, 8.7);
    assert.match(onlyFinding(RULE, foot(10)).message, /Make it 8\.7 mm deep \(leaves 0\.8 mm/);
    assert.match(mended(RULE, foot(10), /deep/), /depth: 8\.7\n/);
    assert.match(mended(RULE, foot(10), /flat/), /bottom: flat/);
    assert.match(mended(RULE, foot(10), /through/), /depth: through/);
  });
});

describe('hole/breaks-out', () => {
  const RULE = 'hole/breaks-out';
  const rail = (y: number | string, depth: string | number = 'through') =>
    block([60, 20, 10], hole('h', `x: center, y: ${y}`, 6, depth));

  it('measures how far outside', () => {
    const finding = onlyFinding(RULE, rail(2));
    near(finding.facts.outside_mm, 1, 0.02);
    assert.equal(finding.facts.length_mm, 10);
    assert.deepEqual(findingsOf(RULE, rail(3)), []);
    assert.deepEqual(findingsOf(RULE, rail(3.2)), []);
  });

  it('counts a step or contour that took the wall away', () => {
    const text = (width: number) =>
      block(
        [60, 20, 10],
        `  ledge: { kind: step, face: top, along: front, width: ${width}, depth: 6 }\n${hole('h', 'x: center, y: 10', 6, 'through')}`,
      );
    assert.equal(onlyFinding(RULE, text(8)).facts.length_mm, 6);
    assert.deepEqual(findingsOf(RULE, text(6.9)), []);
  });

  it('judges the work as it is when it is drilled: stock beyond the wall holds the drill', () => {
    const text = (cuts: string) =>
      rail(2).replace('features:', 'stock: { form: block, extra: { front: 4 } }\nfeatures:') +
      `setups:\n  first: { up: top, cuts: [${cuts}] }\n`;
    assert.deepEqual(findingsOf(RULE, text('h, front')), []);
    assert.equal(onlyFinding(RULE, text('front, h')).facts.outside_mm, 1); // 6 / 2 − 2
  });

  it('does not mind a chamfer beside it', () => {
    const text = `${block([60, 20, 10], hole('h', 'x: center, y: 4', 6, 'through'))}  edge: { kind: chamfer, edges: top, size: 2 }\n`;
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('mends by moving in', () => {
    const cured = mended(RULE, rail(2), /Move/);
    assert.match(cured, /y: (6|7)/);
  });

  it('names the member of a pattern', () => {
    const text = block(
      [60, 20, 10],
      hole('h', 'x: 31, y: center', 6, 'through', 'pattern: { line: { x: 28, count: 3 } }'),
    );
    assert.deepEqual(onlyFinding(RULE, text).of, ['h[3]']);
  });
});

describe('hole/breaks-out, of a hole whose middle is outside', () => {
  const out = (body: string, at: string, stock = '', setups = '') =>
    findingsOf(
      'hole/breaks-out',
      `part: p\nmaterial: aluminium-6061-t6\nbody: ${body}\n${stock}features:\n  h: { kind: hole, face: top, at: ${at}, diameter: 6, depth: 8 }\n${setups}`,
    );
  const BLOCK = '{ x: 60, y: 40, z: 16 }';
  it('says by how much, of a block and of a disc, and that no drill starts there', () => {
    for (const [body, at, mm] of [
      [BLOCK, '{ x: -0.5, y: 20 }', 0.5],
      [BLOCK, '{ x: 30, y: 41.25 }', 1.25],
      ['{ diameter: 40, length: 16, axis: z }', '{ x: 20, y: 42 }', 2],
    ] as const) {
      const [f, ...more] = out(body, at);
      assert.equal(more.length, 0);
      assert.match(f!.message, /no drill starts/);
      near(f!.facts.axis_out_mm, mm, 1e-6);
      near(f!.facts.outside_mm, mm + 3, 0.02);
    }
  });
  it('of a plate that a contour cut out too', () => {
    const outline =
      '  edge: { kind: contour, face: top, path: [{ x: 5, y: 5 }, { x: 55, y: 5 }, { x: 55, y: 35 }, { x: 5, y: 35 }], depth: through }\n';
    const text = `part: p\nmaterial: aluminium-6061-t6\nbody: ${BLOCK}\nfeatures:\n${outline}  h: { kind: hole, face: top, at: { x: 4.25, y: 20 }, diameter: 6, depth: through }\n`;
    const [f] = findingsOf('hole/breaks-out', text);
    assert.match(f!.message, /no drill starts/);
    near(f!.facts.axis_out_mm, 0.75, 1e-6);
  });
  it('not where it only touches, nor while stock is still there', () => {
    assert.equal(out(BLOCK, '{ x: 0.2, y: 20 }')[0]!.facts.axis_out_mm, undefined);
    assert.deepEqual(out(BLOCK, '{ x: -3.2, y: 20 }'), []);
    const held = '{ vise: mill-vise-100, jaws: [back, front], grip: 8 }';
    const stock = 'stock: { form: block, extra: { left: 8 } }\n';
    assert.deepEqual(
      out(BLOCK, '{ x: -0.5, y: 20 }', stock, `setups:\n  one: { up: top, hold: ${held}, cuts: [h] }\n`),
      [],
    );
  });
});

describe('hole/breaks-out, of a counterbore', () => {
  const RULE = 'hole/breaks-out';
  const seat = (y: number) =>
    block([40, 30, 20], hole('h', `x: 20, y: ${y}`, 5.5, 'through', 'counterbore: { diameter: 10, depth: 5.5 }'));

  it('hints where the seat is open at a face, by how much', () => {
    const finding = onlyFinding(RULE, seat(4));
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.outside_mm, 1); // 10 / 2 − 4
    assert.deepEqual(findingsOf(RULE, seat(6)), []);
  });

  it('is told of the hole instead where that is open too', () => {
    assert.equal(onlyFinding(RULE, seat(2)).severity, 'warning');
  });

  it('a seat cut into the round side of a bar is none', () => {
    const bar =
      'part: bar\nmaterial: aluminium-6061-t6\nbody: { diameter: 30, length: 60, axis: x }\nfeatures:\n' +
      hole('h', 'x: 20, y: center', 5.5, 'through', 'counterbore: { diameter: 10, depth: 5.5 }');
    assert.deepEqual(findingsOf(RULE, bar), []);
  });
});

describe('hole/crosses', () => {
  const RULE = 'hole/crosses';
  const manifold = (y: number, d = 6) =>
    block(
      [60, 30, 30],
      '  gallery: { kind: hole, face: left, at: { y: 15, z: 15 }, diameter: 8, depth: 50 }\n' +
        `  port: { kind: hole, face: top, at: { x: 30, y: ${y} }, diameter: ${d}, depth: 20 }\n`,
    );

  it('hints at holes that cross near their middles, warns beyond a quarter of the larger', () => {
    assert.equal(onlyFinding(RULE, manifold(15)).severity, 'hint');
    assert.equal(onlyFinding(RULE, manifold(17)).severity, 'hint'); // 2 = 8 / 4
    const finding = onlyFinding(RULE, manifold(17.2));
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.offset_mm, 2.2);
    assert.equal(finding.facts.limit_mm, 2);
    assert.deepEqual(findingsOf(RULE, manifold(22.1)), []);
  });

  it('tells of the smaller hole, once, and points at the other', () => {
    const finding = onlyFinding(RULE, manifold(18));
    assert.deepEqual(finding.of, ['port', 'gallery']);
    assert.equal(finding.related.length, 1);
  });

  it('a hole that starts on a floor, or ends in a pocket, crosses nothing', () => {
    const text = block(
      [60, 30, 30],
      pocket('well', { at: 'x: 30, y: 15', size: [30, 20], depth: 10 }) +
        hole('down', 'x: 30, y: 15', 6, 'through', 'from: well\n    face: top') +
        hole('side', 'x: 20, z: 25', 4, 8, 'face: front'),
    );
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('two holes that meet where a step has taken the material do not cross', () => {
    // A bracket: foot and wall 6 thick. Both holes go through, and their lines meet in the open corner of the L.
    const bracket = (depth: number) =>
      block(
        [40, 40, 40],
        `  corner: { kind: step, face: top, along: front, width: ${depth}, depth: ${depth} }\n` +
          hole('foot', 'x: 20, y: 10', 5, 'through', 'face: bottom') +
          hole('wall', 'x: 20, z: 25', 5, 'through', 'face: back'),
      );
    assert.deepEqual(findingsOf(RULE, bracket(34)), []);
    // A step that ends above the wall's hole leaves both in material.
    assert.equal(findingsOf(RULE, bracket(8)).length, 1);
  });

  it('tells of two patterns once, at the worst pair, and how many more do the same', () => {
    const text = block(
      [60, 30, 30],
      '  gallery: { kind: hole, face: left, at: { y: 15, z: 15 }, diameter: 8, depth: 55 }\n' +
        '  port: { kind: hole, face: top, pattern: { places: [{ x: 12, y: 15 }, { x: 30, y: 18 }, { x: 46, y: 15 }] }, diameter: 6, depth: 20 }\n',
    );
    const finding = onlyFinding(RULE, text);
    assert.deepEqual(finding.of, ['port[2]', 'gallery']);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.offset_mm, 3);
    assert.equal(finding.facts.more, 2);
    assert.match(finding.message, /^Hole port\[2\] crosses hole gallery .*2 more pairs/);
  });

  it('warns of a hole half in the wall of a pocket', () => {
    const text = block(
      [60, 30, 30],
      pocket('well', { at: 'x: 30, y: 15', size: [30, 20], depth: 20 }) + hole('beside', 'x: 45.5, y: 15', 6, 25),
    );
    const finding = onlyFinding(RULE, text);
    assert.equal(finding.facts.half_open_mm, 20);
    assert.equal(finding.severity, 'warning');
  });
});

describe('hole/sloped-start', () => {
  const RULE = 'hole/sloped-start';
  const axle = (y: number, d: number) =>
    `part: axle\nmaterial: aluminium-6061-t6\nbody: { diameter: 30, length: 50, axis: x }\nfeatures:\n  h: { kind: hole, face: top, at: { x: 12, y: ${y} }, diameter: ${d}, depth: through }\n`;

  it('warns on a curve, off its crown', () => {
    const finding = onlyFinding(RULE, axle(21, 5));
    // On a circle of 15 mm, 6 mm off the crown, ± 2.35 mm: the fall is the difference of two sagittas.
    const sag = (x: number) => 15 - Math.sqrt(225 - x * x);
    near(finding.facts.fall_mm, sag(8.35) - sag(3.65), 0.01);
    assert.deepEqual(findingsOf(RULE, axle(15, 2.5)), []);
  });

  it('warns on an incline, not on a chamfered or countersunk mouth', () => {
    const slope = (deg: number) =>
      block(
        [60, 30, 30],
        `  ramp: { kind: slope, face: top, along: right, angle: ${deg}, width: 30 }\n${hole('h', 'x: 45, y: center', 5, 20)}`,
      );
    assert.equal(onlyFinding(RULE, slope(10)).facts.slope_deg, 10);
    assert.deepEqual(findingsOf(RULE, slope(4)), []);
    const rim = block(
      [60, 30, 30],
      `${hole('h', 'x: 45, y: center', 5, 20)}  rim: { kind: chamfer, edges: { rim: h }, size: 1 }\n`,
    );
    assert.deepEqual(findingsOf(RULE, rim), []);
    assert.deepEqual(
      findingsOf(
        RULE,
        block([60, 30, 30], hole('h', 'x: 45, y: center', 5, 20, 'countersink: { diameter: 8, angle: 90 }')),
      ),
      [],
    );
  });

  it('warns of a start half on the edge of a step', () => {
    const text = block(
      [60, 30, 30],
      `  ledge: { kind: step, face: top, along: right, width: 20, depth: 5 }\n${hole('h', 'x: 40, y: center', 6, 20)}`,
    );
    assert.equal(onlyFinding(RULE, text).facts.fall_mm, 5);
  });

  it('a through hole that is flat on the other side is drilled from there', () => {
    const text = block(
      [60, 30, 30],
      `  ledge: { kind: step, face: top, along: right, width: 20, depth: 5 }\n${hole('h', 'x: 40, y: center', 6, 'through')}`,
    );
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('a flat cures it', () => {
    const text = block(
      [60, 30, 30],
      `  ramp: { kind: slope, face: top, along: right, angle: 10, width: 30 }\n${hole('h', 'x: 45, y: center', 5, 20)}`,
    );
    assert.match(mended(RULE, text), /counterbore/);
  });
});

describe('hole/near-edge', () => {
  const RULE = 'hole/near-edge';
  const bracket = (y: number, more = '') =>
    block([50, 30, 12], `${hole('h', `x: center, y: ${y}`, 5, 'through').replace('diameter: 5', 'thread: M6')}${more}`);

  it('wants half of a thread’s diameter beside it', () => {
    // M6: tap hole 5, so the centre must be 3 + 2.5 off.
    assert.deepEqual(findingsOf(RULE, bracket(5.5)), []);
    const finding = onlyFinding(RULE, bracket(5));
    assert.equal(finding.facts.web_mm, 2.5);
    assert.equal(finding.facts.needed_mm, 3);
    assert.match(mended(RULE, bracket(5)), /y: 5\.5/);
  });

  it('counts a step that took the wall away', () => {
    const text = bracket(15, '  ledge: { kind: step, face: top, along: front, width: 10, depth: 6 }\n');
    assert.equal(onlyFinding(RULE, text).facts.web_mm, 2.5);
    assert.match(mended(RULE, text), /y: 15\.5/);
  });

  it('says no “move it” where the middle is the best place: a thinner thread', () => {
    // A standoff: M4 (tap hole 3.3) in 7 round leaves 1.85 of 2; M3 (2.5) leaves 2.25 of 1.5.
    const standoff =
      'part: standoff\nmaterial: aluminium-6061-t6\nbody: { diameter: 7, length: 30, axis: z }\nfeatures:\n  h: { kind: hole, face: top, at: { x: center, y: center }, thread: M4, depth: through }\n';
    const finding = onlyFinding(RULE, standoff);
    assert.equal(finding.facts.web_mm, 1.85);
    assert.equal(finding.facts.thinner, 'M3');
    assert.doesNotMatch(finding.message, /Move/);
    assert.match(mended(RULE, standoff), /thread: M3,/);
    // The middle of a bar, between two faces: M5 in 8 leaves 1.9 on both sides.
    const bar = block([50, 8, 8], hole('h', 'x: center, y: center', 5, 'through').replace('diameter: 5', 'thread: M5'));
    assert.match(onlyFinding(RULE, bar).message, /Use M4, or add material around it/);
  });

  it('in a corner it moves away from both faces', () => {
    // M3: tap hole 2.5, so 1.5 + 1.25 from each face.
    const corner = block(
      [50, 30, 12],
      hole('h', 'x: 2.5, y: 2', 2.5, 'through').replace('diameter: 2.5', 'thread: M3'),
    );
    const finding = onlyFinding(RULE, corner);
    assert.equal(finding.facts.missing_mm, 0.75);
    assert.match(finding.message, /Move it in by 0\.75 mm there, and away from the left face/);
    assert.match(mended(RULE, corner), /x: 2\.8, y: 2\.8/);
  });

  it('counts a slot or pocket that is open at a side, and no closed one', () => {
    // M6, tap hole 5, at y 12: the slot's wall at y 7 leaves 12 − 7 − 2.5.
    const slot = (from: number) =>
      `  gap: { kind: slot, face: top, ends: [{ x: ${from}, y: 4 }, { x: 40, y: 4 }], width: 6, depth: 6 }\n`;
    assert.equal(onlyFinding(RULE, bracket(12, slot(0))).facts.web_mm, 2.5);
    assert.deepEqual(findingsOf(RULE, bracket(12, slot(8))), []);
  });

  it('counts the pocket round an island as outside, not a pocket beside the hole', () => {
    const post = (d: number) =>
      block(
        [60, 40, 15],
        `  tray: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 50, y: 30 }, corner-radius: 5, depth: 8, islands: { post: { diameter: ${d}, at: { x: 20, y: 20 } } } }\n` +
          '  h: { kind: hole, face: top, at: { x: 20, y: 20 }, thread: M3, depth: 12, thread-depth: 6 }\n',
      );
    // Tap hole 2.5: (5 − 2.5) / 2.
    assert.equal(onlyFinding(RULE, post(5)).facts.web_mm, 1.25);
    assert.deepEqual(findingsOf(RULE, post(5.6)), []);
  });

  it('does not speak of plain holes', () => {
    assert.deepEqual(findingsOf(RULE, block([50, 30, 12], hole('h', 'x: center, y: 5', 6, 'through'))), []);
  });
});

describe('hole/out-of-reach', () => {
  const RULE = 'hole/out-of-reach';
  const shop = shopWith(drill(3, 33, 'holder: chuck, stickout: 45') + drill(5, 52, 'holder: chuck, stickout: 70'));
  const post = (x: number, d = 3) =>
    block(
      [80, 60, 60],
      `  ledge: { kind: step, face: top, along: left, width: 50, depth: 40 }\n${hole('h', `x: ${x}, y: center`, d, 10, 'from: ledge\n    face: top')}`,
    );

  it('measures from the tip up to the wall within the chuck', () => {
    // The wall stands 40 above the mouth; 10 deep and 0.9 of point: 50.9 against 45.
    const finding = onlyFinding(RULE, post(35), shop);
    near(finding.facts.needed_mm, 50.901, 2e-3);
    assert.equal(finding.facts.out_mm, 45);
    assert.equal(finding.facts.wall_mm, 40);
    assert.equal(finding.facts.holder_mm, 40);
  });

  it('is silent where the wall is out of the chuck’s way, or the drill stands out', () => {
    assert.deepEqual(findingsOf(RULE, post(29), shop), []);
    assert.equal(findingsOf(RULE, post(31), shop).length, 1);
    assert.deepEqual(findingsOf(RULE, post(35, 5), shop), []);
  });
});

describe('good practice raises nothing', () => {
  it('a plate of ordinary holes', () => {
    checkMarked(
      `part: plate
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 100, y: 60, z: 16 }
features:
  bearing: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }
  shaft: { kind: hole, face: top, from: bearing, at: { x: center, y: center }, diameter: 12, depth: through }
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { grid: { x: { pitch: 80, count: 2 }, y: { pitch: 40, count: 2 } } }
    diameter: 5.5
    counterbore: M5
    depth: through
  dowel: { kind: hole, face: top, at: { x: 20, y: 30 }, diameter: 6 H7, depth: through }
  side: { kind: hole, face: front, at: { x: center, z: 8 }, pattern: { line: { x: 36, count: 2 } }, thread: M5, thread-depth: 9, depth: 13 }
  rim: { kind: chamfer, edges: { rim: bearing }, size: 0.5 }
`,
      { topics: ['hole', 'thread', 'corner', 'access'] },
    );
  });
});
