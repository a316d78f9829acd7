/** Whether a straight tool along the spindle gets there. */
import assert from 'node:assert/strict';
import { checkPart, fixesFor } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { block, hole, pocket } from '../parts';
import { drill, endMill, shopWith, tap } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

describe('access/no-setup', () => {
  const RULE = 'access/no-setup';
  const FEATURES = `  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 4, depth: 5 }
  blind: { kind: hole, face: front, at: { x: center, z: 10 }, diameter: 5, depth: 12 }
  bore: { kind: hole, face: left, at: { y: 8, z: 8 }, diameter: 6, depth: through }
  ledge: { kind: step, face: top, along: right, width: 6, depth: 4 }
  edge: { kind: chamfer, edges: [[top, front]], size: 1 }
`;
  const setups = (text: string) => `${block([50, 30, 30], FEATURES)}setups:\n${text}`;

  it('every feature from one of its approaches is well', () => {
    const text = setups(
      '  a: { up: top, cuts: [seat] }\n  b: { up: front, cuts: [blind, edge] }\n  c: { up: right, cuts: [bore, ledge] }\n',
    );
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('says in plain words that no set-up turns the face up', () => {
    const found = findingsOf(RULE, setups('  a: { up: top, cuts: [seat, ledge, edge] }\n'));
    assert.deepEqual(
      found.map((f) => f.of[0]),
      ['blind', 'bore'],
    );
    assert.match(found[0]!.message, /can be reached only from front\. No set-up has front up/);
  });

  it('is raised on the name in the list of cuts', () => {
    checkMarked(
      `${block([50, 30, 30], FEATURES)}setups:
  a:
    up: top
    cuts:
      - seat
      - blind # ! access/no-setup
      - bore # ! access/no-setup
      - ledge
      - edge
`,
      { topics: ['access'] },
    );
  });

  it('is raised on a feature that no set-up could take', () => {
    const finding = onlyFinding(RULE, setups('  a: { up: top, cuts: [seat] }\n  b: { up: right, cuts: [bore] }\n'));
    assert.deepEqual(finding.of, ['blind']);
    assert.match(finding.message, /front up/);
  });

  it('says nothing without set-ups, nor where work is held at an angle', () => {
    assert.deepEqual(findingsOf(RULE, block([50, 30, 30], FEATURES)), []);
    const angled = setups('  a: { up: top, cuts: [seat, bore, ledge, edge, blind], hold: { angle: 30 } }\n');
    assert.deepEqual(findingsOf(RULE, angled), []);
  });

  it('moves it to the set-up that can', () => {
    const text = setups(
      '  a: { up: top, cuts: [seat, blind, ledge, edge] }\n  b: { up: front, cuts: [front] }\n  c: { up: left, cuts: [bore] }\n',
    );
    const cured = mended(RULE, text);
    assert.match(cured, /a: \{ up: top, cuts: \[seat, ledge, edge] }/);
    assert.match(cured, /b: \{ up: front, cuts: \[front, blind] }/);
  });

  it('and in lists of lines', () => {
    const text = setups(
      '  a:\n    up: top\n    cuts:\n      - seat # first\n      - blind # later\n  b:\n    up: front\n    cuts:\n      - front # faced\n  c: { up: left, cuts: [bore] }\n',
    );
    const cured = mended(RULE, text);
    assert.match(cured, /- front # faced\n {6}- blind\n/);
    assert.match(cured, /# later/);
    assert.deepEqual(findingsOf(RULE, cured), []);
  });
});

describe('access/covered', () => {
  const RULE = 'access/covered';
  const well = pocket('well', { at: 'x: 20, y: center', size: [20, 20], depth: 10 });
  const under = (x: number, d = 6) =>
    block([60, 40, 30], well + hole('seat', `x: ${x}, y: center`, d, 4, 'from: well\n    face: top'));

  it('is raised as soon as the hole reaches under the wall', () => {
    assert.deepEqual(findingsOf(RULE, under(26.9)), []);
    const finding = onlyFinding(RULE, under(29));
    assert.equal(finding.facts.over_mm, 10);
    assert.equal(finding.severity, 'error');
    assert.match(finding.message, /starts on the floor of well but is not fully inside it/);
  });

  it('mends by starting on the face', () => {
    assert.doesNotMatch(mended(RULE, under(29)), /from: well/);
  });

  it('a through feature may come from the other side', () => {
    const text = block(
      [60, 40, 30],
      well + hole('seat', 'x: 29, y: center', 6, 'through', 'from: well\n    face: top'),
    );
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('what another feature opened is not over it', () => {
    const text = block(
      [60, 40, 30],
      `${well}  bay: { kind: pocket, face: top, at: { x: 36, y: center }, size: { x: 30, y: 20 }, corner-radius: 4, depth: 10 }\n${hole('seat', 'x: 29, y: center', 6, 4, 'from: well\n    face: top')}`,
    );
    assert.deepEqual(findingsOf(RULE, text), []);
  });

  it('a floor wider than the mouth above it is buried', () => {
    const text = block(
      [60, 40, 30],
      `${pocket('mouth', { at: 'x: 30, y: center', size: [16, 16], depth: 8 })}${pocket('cave', { at: 'x: 30, y: center', size: [30, 16], depth: 6, more: 'from: mouth' })}`,
    );
    const finding = onlyFinding(RULE, text);
    assert.deepEqual(finding.of, ['cave']);
    assert.equal(finding.facts.over_mm, 8);
  });
});

describe('access/reach', () => {
  const RULE = 'access/reach';
  const SHOP = shopWith(
    endMill('em-4', 4, 12) + endMill('em-10', 10, 30) + drill(5, 52) + drill(4.2, 43) + tap('M5', 'plug', 20),
  );
  const slot = (width: number, depth: number | string, z = 40) =>
    block(
      [60, 40, z],
      `  gap: { kind: slot, face: top, ends: [{ x: 15, y: 20 }, { x: 45, y: 20 }], width: ${width}, depth: ${depth} }\n`,
    );

  it('a slot wants a cutter no thicker than it is wide', () => {
    assert.deepEqual(findingsOf(RULE, slot(4, 12), SHOP), []);
    const finding = onlyFinding(RULE, slot(4, 13), SHOP);
    assert.equal(finding.facts.needed_mm, 13);
    assert.equal(finding.facts.longest_mm, 12);
    assert.equal(finding.facts.gap_mm, 4);
    assert.equal(finding.severity, 'error');
    assert.match(onlyFinding(RULE, slot(3, 2), SHOP).message, /needs an end mill up to 3 mm\. The shop has none/);
  });

  it('mends by depth or by width', () => {
    assert.match(mended(RULE, slot(4, 20), /deep/, SHOP), /depth: 12/);
    assert.match(mended(RULE, slot(4, 20), /wide/, SHOP), /width: 10/);
  });

  it('a through slot is within reach half from each side: a warning', () => {
    assert.equal(onlyFinding(RULE, slot(4, 'through', 20), SHOP).severity, 'warning');
    assert.equal(onlyFinding(RULE, slot(4, 'through', 24), SHOP).severity, 'error');
  });

  it('a deep slit from end to end is sawn rather than milled from both sides', () => {
    const slit = (width: number) =>
      block(
        [60, 40, 20],
        `  slit: { kind: slot, face: top, ends: [{ x: -5, y: 20 }, { x: 65, y: 20 }], width: ${width}, depth: through }\n`,
      );
    const shop = shopWith(endMill('em-2', 2, 12) + endMill('em-5', 5, 12));
    const told = onlyFinding(RULE, slit(2), shop);
    assert.equal(told.severity, 'warning');
    assert.match(
      told.message,
      /Use a slitting saw at most 2 mm thick, cutting 20 mm beside its arbor, from its side\.$/,
    );
    assert.match(onlyFinding(RULE, slit(5), shop).message, /Cut half from each side\.$/);
  });

  it('a thread is never half from each side: two do not meet in step', () => {
    const long = hole('it', 'x: 30, y: 20', '', 'through', 'thread: M5').replace(/ *diameter: *\n/, '');
    const shop = shopWith(drill(4.2, 60) + tap('M5', 'plug', 25));
    const told = onlyFinding(RULE, block([60, 40, 30], long), shop);
    assert.equal(told.severity, 'error');
    assert.match(told.message, /Make the thread 25 mm deep\.$/);
  });

  it('the gap between two bosses, and a ring, are as narrow as a slot', () => {
    const bosses = (gap: number) =>
      block(
        [80, 40, 40],
        `  posts:
    kind: contour
    face: top
    paths:
      - [{ x: 10, y: 10 }, { x: 38, y: 10 }, { x: 38, y: 30 }, { x: 10, y: 30 }]
      - [{ x: ${38 + gap}, y: 10 }, { x: 70, y: 10 }, { x: 70, y: 30 }, { x: ${38 + gap}, y: 30 }]
    depth: 20
`,
      );
    // No plain slot: a tenth on each wall is left to finish.
    assert.equal(onlyFinding(RULE, bosses(5), SHOP).facts.gap_mm, 4.8);
    assert.deepEqual(findingsOf(RULE, bosses(11), SHOP), []);
    const ring = (width: number) =>
      block(
        [80, 80, 20],
        `  seal: { kind: groove, face: top, at: { x: 40, y: 40 }, diameter: 30, width: ${width}, depth: 3 }\n`,
      );
    assert.equal(onlyFinding(RULE, ring(3), SHOP).facts.gap_mm, 3);
    assert.deepEqual(findingsOf(RULE, ring(4), SHOP), []);
  });

  it('an island makes a pocket as narrow as the lane round it', () => {
    const lane = (size: number) =>
      block(
        [80, 60, 40],
        `${pocket('tray', { at: 'x: center, y: center', size: [40, 40], radius: 6, depth: 20 })}    islands:\n      post: { size: { x: ${size}, y: ${size} }, corner-radius: 5, at: { x: center, y: center } }\n`,
      );
    // (40 − 30) / 2 = 5: em-10 does not pass, em-4 does not reach; (40 − 18) / 2 = 11 passes.
    assert.equal(findingsOf(RULE, lane(30), SHOP).length, 1);
    assert.deepEqual(findingsOf(RULE, lane(18), SHOP), []);
  });

  it('a step is also cut from the side it opens to', () => {
    const step = (width: number) =>
      block([80, 60, 60], `  ledge: { kind: step, face: top, along: front, width: ${width}, depth: 45 }\n`);
    assert.deepEqual(findingsOf(RULE, step(30), SHOP), []);
    assert.equal(onlyFinding(RULE, step(31), SHOP).facts.needed_mm, 45);
  });

  it('a hole wants flutes as long as it is deep in material', () => {
    const bore = (z: number) => block([40, 40, z], hole('h', 'x: center, y: center', 5, 'through'));
    // The flutes of dr-5 are 52 long; of that its point, 2.5 / tan 59° = 1.502, goes on below.
    assert.deepEqual(findingsOf(RULE, bore(50.49), SHOP), []);
    assert.equal(onlyFinding(RULE, bore(50.51), SHOP).facts.needed_mm, 52.012);
    assert.equal(onlyFinding(RULE, bore(60), SHOP).severity, 'warning'); // half from each side
    const blind = block([40, 40, 80], hole('h', 'x: center, y: center', 5, 60));
    assert.equal(onlyFinding(RULE, blind, SHOP).severity, 'error');
  });

  it('a tap wants to reach as deep as the thread', () => {
    const tapped = (depth: number) =>
      block(
        [40, 40, 60],
        hole('h', 'x: center, y: center', 5, 35, `thread-depth: ${depth}`).replace('diameter: 5', 'thread: M5'),
      );
    assert.deepEqual(findingsOf(RULE, tapped(20), SHOP), []);
    assert.match(onlyFinding(RULE, tapped(24), SHOP).message, /M5 tap/);
    assert.match(mended(RULE, tapped(24), /Make the thread/, SHOP), /thread-depth: 20/);
  });

  it('letters finer than the finest cutter', () => {
    const text = block(
      [40, 40, 10],
      '  mark: { kind: engraving, face: top, at: { x: 20, y: 20 }, text: A, height: 5, depth: 0.3, stroke: 0.5 }\n',
    );
    assert.equal(findingsOf(RULE, text, SHOP).length, 1);
    const fine = shopWith(
      'eng: { kind: engraver, diameter: 0.4, angle: 60, flutes: 1, flute-length: 3, reach: 3, shank: 6, material: carbide }\n',
    );
    assert.deepEqual(findingsOf(RULE, text, fine), []);
  });
});

describe('access/tilted', () => {
  const RULE = 'access/tilted';
  const leaning = block([60, 40, 30], hole('jet', 'x: 30, y: center', 5, 18, 'tilt: { about: y, angle: 20 }'));

  it('warns, and is content with a set-up at an angle', () => {
    assert.equal(onlyFinding(RULE, leaning).facts.angle_deg, 20);
    assert.deepEqual(findingsOf(RULE, `${leaning}setups:\n  a: { up: top, hold: { angle: 20 }, cuts: [jet] }\n`), []);
  });

  it('sets it upright', () => {
    assert.doesNotMatch(mended(RULE, leaning), /tilt/);
  });

  it('an incline that a straight cutter makes is no matter', () => {
    const ramp = (x: number, deg: number) =>
      block([x, 40, 30], `  ramp: { kind: slope, face: top, along: front, angle: ${deg}, width: 10 }\n`);
    const SHORT = shopWith(
      `${endMill('em-10', 10, 40)}cm-30: { kind: chamfer-mill, diameter: 30, angle: 90, reach: 30, material: carbide }\n`,
    );
    assert.deepEqual(findingsOf(RULE, ramp(40, 20), SHORT), []); // along its edge
    assert.deepEqual(findingsOf(RULE, ramp(120, 45), SHORT), []); // with a 90° chamfer mill
    assert.equal(onlyFinding(RULE, ramp(120, 20), SHORT).severity, 'hint');
  });
});

describe('access/undercut', () => {
  const RULE = 'access/undercut';
  const SHOP = shopWith(
    'tee: { kind: tee-cutter, diameter: 16, neck: 7, thickness: 8, reach: 22, flutes: 6, shank: 10, material: hss }\n' +
      'dove: { kind: dovetail-cutter, diameter: 16, neck: 8, thickness: 6.3, angle: 60, reach: 20, flutes: 6, shank: 12, material: hss }\n' +
      'ring: { kind: tee-cutter, diameter: 16, neck: 10, thickness: 1.6, reach: 26, flutes: 6, shank: 10, material: carbide }\n',
  );
  const rail = (fields: string, ends = '[{ x: 0, y: center }, { x: 80, y: center }]') =>
    block([80, 60, 30], `  rail: { kind: slot, face: top, ends: ${ends}, ${fields} }\n`);

  it('a T-slot the size of its cutter, open at an end', () => {
    assert.deepEqual(findingsOf(RULE, rail('width: 8, depth: 18, tee: { width: 16, height: 8 }'), SHOP), []);
    const wide = onlyFinding(RULE, rail('width: 8, depth: 18, tee: { width: 20, height: 8 }'), SHOP);
    assert.equal(wide.severity, 'error');
    assert.equal(wide.facts.width_mm, 20);
    assert.equal(findingsOf(RULE, rail('width: 6, depth: 18, tee: { width: 16, height: 8 }'), SHOP).length, 1); // neck
    assert.equal(findingsOf(RULE, rail('width: 8, depth: 24, tee: { width: 16, height: 8 }'), SHOP).length, 1); // reach
    assert.equal(findingsOf(RULE, rail('width: 8, depth: 18, tee: { width: 16, height: 1.2 }'), SHOP).length, 1); // height
  });

  it('offers cutters of about the size that is drawn, not a wheel for snap-ring grooves', () => {
    const text = rail('width: 8, depth: 18, tee: { width: 18, height: 7 }');
    const checked = checkPart(text, SHOP);
    const titles = fixesFor(checked, checked.findings.find((f) => f.rule === RULE)!).map((f) => f.title);
    assert.deepEqual(titles, [
      'Make it the size of tee: 16 mm wide and 8 mm high below a neck of 8 mm',
      'Make it a plain slot',
    ]);
  });

  it('a closed one lets no cutter in', () => {
    const closed = rail('width: 8, depth: 18, tee: { width: 16, height: 8 }', '[{ x: 20, y: 30 }, { x: 60, y: 30 }]');
    assert.match(onlyFinding(RULE, closed, SHOP).message, /no open end/);
  });

  it('a dovetail by its angle', () => {
    assert.deepEqual(findingsOf(RULE, rail('width: 12, depth: 6, dovetail: { angle: 60 }'), SHOP), []);
    assert.equal(findingsOf(RULE, rail('width: 12, depth: 6, dovetail: { angle: 45 }'), SHOP).length, 1);
    assert.equal(findingsOf(RULE, rail('width: 12, depth: 8, dovetail: { angle: 60 }'), SHOP).length, 1); // too shallow a cutter
  });

  it('a ring groove in a bore', () => {
    const bore = (groove: string) =>
      block(
        [60, 60, 30],
        `  bore: { kind: hole, face: top, at: { x: 30, y: 30 }, diameter: 20, depth: through }\n  ring: { kind: groove, in: bore, ${groove} }\n`,
      );
    assert.deepEqual(findingsOf(RULE, bore('diameter: 22, width: 1.6, below: 5'), SHOP), []);
    assert.equal(findingsOf(RULE, bore('diameter: 28, width: 1.6, below: 5'), SHOP).length, 1); // too far out
    assert.equal(findingsOf(RULE, bore('diameter: 22, width: 1.1, below: 5'), SHOP).length, 1); // too thin
    assert.equal(findingsOf(RULE, bore('diameter: 22, width: 1.6, below: 26'), SHOP).length, 1); // too deep
  });

  it('mends to the cutter there is, or to a plain slot', () => {
    const text = rail('width: 8, depth: 18, tee: { width: 20, height: 8 }');
    assert.match(mended(RULE, text, /size of tee/, SHOP), /width: 8, depth: 18, tee: \{ width: 16, height: 8 }/);
    assert.doesNotMatch(mended(RULE, text, /plain/, SHOP), /tee/);
  });
});

describe('access/angle', () => {
  const RULE = 'access/angle';
  const jet = hole('jet', 'x: 30, y: center', 5, 18, 'tilt: { about: y, angle: 20 }');
  const pin = hole('pin', 'x: 10, y: center', 5, 12);
  const setups = (hold: string, cuts: string, more = '') =>
    `${block([60, 40, 30], jet + pin)}setups:\n  a: { up: top, ${hold}cuts: [${cuts}] }\n${more}`;

  it('tells how far the spindle looks past it, and holds it right', () => {
    const off = (hold: string) => onlyFinding(RULE, setups(hold, 'jet')).facts;
    assert.deepEqual(off('hold: { angle: 15, about: y }, '), { off_deg: 5, held_deg: 15, wanted_deg: 20, about: 'y' });
    assert.equal(off('hold: { angle: -20 }, ').off_deg, 40);
    assert.equal(off('').off_deg, 20);
    // Turned about x instead: cos 20° twice.
    assert.equal(off('hold: { angle: 20, about: x }, ').off_deg, 27.991);
    assert.match(mended(RULE, setups('hold: { angle: 15 }, ', 'jet')), /angle: 20, about: y \}, cuts/);
    assert.match(mended(RULE, setups('hold: { angle: 20, about: x }, ', 'jet')), /angle: 20, about: y/);
  });

  it('what stands square is not cut leaning', () => {
    const text = setups('hold: { angle: 20 }, ', 'jet, pin', '  b: { up: top, cuts: [top] }\n');
    assert.deepEqual(onlyFinding(RULE, text).of, ['pin']);
    assert.deepEqual(onlyFinding(RULE, setups('hold: { angle: 20 }, ', 'jet, top')).of, ['top']);
    assert.match(mended(RULE, text), /cuts: \[jet\][\s\S]*cuts: \[top, pin\]/);
  });

  it('a slope is cut leaning by its own angle, or from a face that it runs to', () => {
    const slope = '  slope: { kind: slope, face: top, along: right, angle: 25, width: 20 }\n';
    const held = (hold: string) => `${block([60, 40, 30], slope)}setups:\n  a: { ${hold}, cuts: [slope] }\n`;
    assert.deepEqual(findingsOf(RULE, held('up: top, hold: { angle: 25 }')), []);
    assert.deepEqual(findingsOf(RULE, held('up: right, hold: { angle: -65 }')), []);
    assert.equal(onlyFinding(RULE, held('up: top, hold: { angle: -25 }')).facts.off_deg, 50);
    assert.deepEqual(findingsOf(RULE, held('up: front')), []);
  });
});

describe('the seats of a hole beside a wall', () => {
  // On a land 25 mm below a wall 10 mm from the hole's middle: a chuck 40 mm wide meets it unless it stays above.
  const text = (more: string, cuts = 'land, it') => `${block(
    [60, 40, 40],
    `  land: { kind: step, face: top, along: left, width: 40, depth: 25 }
  it: { kind: hole, face: top, from: land, at: { x: 30, y: center }, diameter: 6, depth: 10, ${more} }
`,
  )}setups:
  first: { up: top, cuts: [${cuts}] }
`;
  const shop = (tool: string) => shopWith(`${endMill('em-16', 16, 30)}${drill(6, 50)}${tool}\n`);
  const out = (mm: number) => `holder: chuck, stickout: ${mm}`;
  const SINK = 'countersink: { diameter: 10, angle: 90 }';
  const BORE = 'counterbore: { diameter: 10, depth: 4 }';

  it('tell of a countersink whose holder comes down on the wall: its tip goes 5 mm under the land, so it needs 30', () => {
    const sink = (mm: number) => shop(`sink: { kind: countersink, diameter: 12, angle: 90, reach: 14, ${out(mm)} }`);
    const found = onlyFinding('access/holder', text(SINK), sink(29));
    assert.equal(found.severity, 'error');
    assert.equal(found.facts.needed_mm, 30);
    assert.deepEqual(findingsOf('access/holder', text(SINK), sink(31)), []);
  });

  it('tell of a counterbore cutter: 4 mm deep, so it needs 29', () => {
    const cutter = (mm: number) =>
      shop(`cb: { kind: counterbore-cutter, diameter: 10, pilot: 6, reach: 14, ${out(mm)} }`);
    assert.equal(onlyFinding('access/holder', text(BORE), cutter(28)).facts.needed_mm, 29);
    assert.deepEqual(findingsOf('access/holder', text(BORE), cutter(30)), []);
  });

  it('only warn of a spot drill: the hole comes without its spot', () => {
    const spot = (mm: number) => shop(`spot: { kind: spot-drill, diameter: 8, flute-length: 12, ${out(mm)} }`);
    const plain = text('point: 118').replace('from: land, ', '').replace('depth: 10', 'depth: 35');
    const found = onlyFinding('access/holder', plain, spot(22));
    assert.equal(found.severity, 'warning');
    assert.match(found.message, /without a spot/);
    assert.deepEqual(findingsOf('access/holder', plain, spot(30)), []);
  });
});

describe('a cutter on a neck', () => {
  it('meets the wall by its shank, where the shop says how thick that is', () => {
    // The disc is 14 wide on a neck of 7; above its reach of 20 a shank of 24 comes nearer than the wall 10 from its axis.
    const text = `${block(
      [60, 40, 50],
      `  land: { kind: step, face: top, along: left, width: 40, depth: 25 }
  tee: { kind: slot, face: top, from: land, ends: [{ x: 30, y: -5 }, { x: 30, y: 45 }], width: 8, depth: 12, tee: { width: 14, height: 5 } }
`,
    )}setups:
  first: { up: top, cuts: [land, tee] }
`;
    const shop = (more: string) =>
      shopWith(
        `${endMill('em-8', 8, 30)}${endMill('em-6', 6, 30)}tee: { kind: tee-cutter, diameter: 14, neck: 7, thickness: 5, reach: 20${more} }\n`,
      );
    const told = (more: string) =>
      checkPart(text, shop(more))
        .findings.filter((f) => f.severity === 'error')
        .map((f) => f.rule);
    assert.deepEqual(told(''), []);
    assert.deepEqual(told(', shank: 10'), []);
    assert.deepEqual(told(', shank: 24'), ['access/reach']);
  });
});
