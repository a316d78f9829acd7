/** Corners too small and too deep: the numbers, the boundary, and the many corners that are none. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { block, pocket } from '../parts';
import { endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'corner/inside-radius';
/** Two cutters: 6 across reaching 20, 10 across reaching 40. */
const TWO = shopWith(endMill('em-6', 6, 20) + endMill('em-10', 10, 40));
const well = (radius: number, depth: number | string, more = '') =>
  block([80, 60, 50], pocket('well', { at: 'x: center, y: center', size: [50, 30], radius, depth, more }));

describe('corner/inside-radius', () => {
  it('says radius, depth, cutter, reach and ratio', () => {
    const finding = onlyFinding(RULE, well(4, 28), TWO);
    assert.equal(finding.severity, 'error');
    assert.equal(finding.facts.radius_mm, 4);
    assert.equal(finding.facts.depth_mm, 28);
    assert.equal(finding.facts.cutter_mm, 6);
    assert.equal(finding.facts.reach_mm, 20);
    assert.equal(finding.facts.ratio, 3.5); // 28 / (2 · 4)
    assert.equal(finding.facts.corners, 4);
    assert.match(finding.message, /28 mm deep; em-6 reaches 20 mm/);
    assert.match(finding.message, /Make the radius 5\.5 mm \(em-10\), or the depth 20 mm\.$/);
  });

  it('just reaches, and just does not', () => {
    assert.deepEqual(findingsOf(RULE, well(4, 20), TWO), []);
    assert.equal(findingsOf(RULE, well(4, 20.01), TWO).length, 1);
    assert.deepEqual(findingsOf(RULE, well(5, 40), TWO), []);
    assert.equal(findingsOf(RULE, well(4.99, 40), TWO).length, 1);
  });

  it('takes a cutter exactly as thick as the corner allows', () => {
    assert.deepEqual(findingsOf(RULE, well(3, 20), TWO), []);
    assert.equal(onlyFinding(RULE, well(2.9, 10), TWO).facts.cutter_mm, undefined);
  });

  it('says so where no cutter is thin enough', () => {
    assert.match(onlyFinding(RULE, well(1, 5), TWO).message, /end mill of 2 mm at most.*the shop has none so thin/);
  });

  it('mends by radius and by depth', () => {
    assert.match(mended(RULE, well(4, 28), /corner radius 5\.5 mm/, TWO), /corner-radius: 5\.5\n/);
    assert.match(mended(RULE, well(4, 28), /20 mm deep/, TWO), /depth: 20\n/);
  });

  it('cuts a through window half from each side: a warning', () => {
    const text = block(
      [80, 60, 30],
      pocket('window', { at: 'x: center, y: center', size: [50, 30], radius: 4, depth: 'through' }),
    );
    const finding = onlyFinding(RULE, text, TWO);
    assert.equal(finding.severity, 'warning');
    assert.match(finding.message, /half from each side/);
  });

  it('does not count the depth of a wider pocket above', () => {
    const text = block(
      [100, 80, 50],
      pocket('wide', { at: 'x: center, y: center', size: [80, 60], radius: 6, depth: 24 }) +
        pocket('narrow', { at: 'x: center, y: center', size: [40, 24], radius: 3.5, depth: 18, more: 'from: wide' }),
    );
    // 42 below the top, but the walls of `wide` stand 18 mm away: em-6 needs 18.
    assert.deepEqual(findingsOf(RULE, text, TWO), []);
    const deeper = text.replace('depth: 18', 'depth: 21');
    assert.equal(onlyFinding(RULE, deeper, TWO).facts.depth_mm, 21);
  });

  it('counts a wall that stands beside the shank', () => {
    // `narrow` shares its left wall with `wide`: from there down it is 24 + 10 deep.
    const text = block(
      [100, 80, 50],
      pocket('wide', { at: 'x: 50, y: center', size: [80, 60], radius: 6, depth: 24 }) +
        pocket('narrow', { at: 'x: 25, y: center', size: [30, 24], radius: 3.5, depth: 10, more: 'from: wide' }),
    );
    assert.equal(onlyFinding(RULE, text, TWO).facts.depth_mm, 34);
  });

  it('a thick shank above a thin cut meets the wall of the wider pocket', () => {
    const thick = shopWith(
      endMill('em-10', 10, 40) +
        'em-3: { kind: end-mill, diameter: 3, flutes: 3, flute-length: 9, reach: 12, shank: 12, material: carbide }\n',
    );
    const text = (gap: number) =>
      block(
        [100, 80, 50],
        pocket('wide', { at: 'x: center, y: center', size: [40 + 2 * gap, 24 + 2 * gap], radius: 6, depth: 10 }) +
          pocket('narrow', { at: 'x: center, y: center', size: [40, 24], radius: 1.5, depth: 11, more: 'from: wide' }),
      );
    // Shank radius 6 about an axis 1.5 mm off the narrow wall: clear of a wall 8 mm further out, not of one 4 mm out.
    assert.deepEqual(findingsOf(RULE, text(8), thick), []);
    assert.equal(findingsOf(RULE, text(3), thick).length, 1);
  });

  describe('leaves alone', () => {
    it('what runs out of the body', () => {
      const open = block([80, 60, 50], pocket('bay', { at: 'x: 0, y: center', size: [200, 30], radius: 2, depth: 30 }));
      assert.deepEqual(findingsOf(RULE, open, TWO), []);
    });

    it('corners that lie in another cavity', () => {
      const text = block(
        [100, 60, 50],
        pocket('arm', { at: 'x: 50, y: center', size: [60, 20], radius: 1, depth: 10 }) +
          pocket('left', { at: 'x: 20, y: center', size: [24, 40], radius: 5, depth: 10 }) +
          pocket('right', { at: 'x: 80, y: center', size: [24, 40], radius: 5, depth: 10 }),
      );
      assert.deepEqual(findingsOf(RULE, text, TWO), []);
    });

    it('round pockets and slot ends: the gap is the matter there', () => {
      const text = block(
        [80, 60, 50],
        '  round: { kind: pocket, face: top, at: { x: 20, y: 20 }, diameter: 9, depth: 30 }\n' +
          '  long: { kind: slot, face: top, ends: [{ x: 40, y: 20 }, { x: 70, y: 20 }], width: 9, depth: 30 }\n',
      );
      assert.deepEqual(findingsOf(RULE, text, TWO), []);
    });

    it('outside corners of a boss, not the inside ones', () => {
      const path = (round: number) =>
        `[{ x: 20, y: 10 }, { x: 60, y: 10 }, { x: 60, y: 25 }, { x: 40, y: 25, round: ${round} }, { x: 40, y: 50 }, { x: 20, y: 50 }]`;
      const boss = (round: number) =>
        block([80, 60, 50], `  boss: { kind: contour, face: top, path: ${path(round)}, depth: 25 }\n`);
      assert.deepEqual(findingsOf(RULE, boss(5), TWO), []);
      const finding = onlyFinding(RULE, boss(4), TWO);
      assert.equal(finding.facts.corners, 1);
      assert.match(mended(RULE, boss(4), undefined, TWO), /x: 40, y: 25, round: 5\.5/);
    });
  });

  it('points at the radius, on the line it is written', () => {
    checkMarked(
      `part: p
body: { x: 80, y: 60, z: 50 }
features:
  well:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 50, y: 30 }
    corner-radius: 4 # ! corner/inside-radius
    depth: 28
`,
      { shop: TWO, topics: ['corner'] },
    );
  });

  it('works on other faces and in inches', () => {
    const side = `part: p\nunits: in\nbody: { x: 3, y: 2.5, z: 2 }\nfeatures:\n  well: { kind: pocket, face: left, at: { y: center, z: center }, size: { y: 2, z: 1.2 }, corner-radius: 0.16, depth: 1.2 }\n`;
    const finding = onlyFinding(RULE, side, TWO);
    assert.equal(finding.facts.radius_mm, 4.064);
    assert.equal(finding.facts.depth_mm, 30.48);
    assert.match(finding.message, /radius of 0\.16 in .*is 1\.2 in deep/);
    assert.match(mended(RULE, side, /corner radius/, TWO), /corner-radius: 0\.22/);
  });

  it('speaks of a pattern once, of one member by name', () => {
    const text = block(
      [120, 60, 50],
      '  cell: { kind: pocket, face: top, at: { x: 60, y: 30 }, size: { x: 30, y: 30 }, corner-radius: 4, depth: 28, pattern: { line: { x: 40, count: 2 } } }\n',
    );
    const finding = onlyFinding(RULE, text, TWO);
    assert.deepEqual(finding.of, ['cell']);
    assert.equal(finding.facts.corners, 8);
    // The first is lowered by a step all about: only the second is too deep then.
    const lowered = `${text}  low: { kind: step, face: top, along: left, width: 59, depth: 10 }\n`;
    assert.deepEqual(onlyFinding(RULE, lowered, TWO).of, ['cell[2]']);
  });

  it('is only a warning where just the built-in shop is known, until practice too says no', () => {
    assert.equal(onlyFinding(RULE, well(1.5, 22)).severity, 'warning'); // ratio 7.3
    assert.equal(onlyFinding(RULE, well(1.2, 22)).severity, 'error'); // ratio 9.2
  });

  it('judges the side that the set-ups turn up', () => {
    const text = (ups: string) =>
      `${block([80, 60, 30], pocket('window', { at: 'x: center, y: center', size: [50, 30], radius: 4, depth: 'through' }))}setups:\n${ups}`;
    const once = checkPart(text('  a: { up: top, cuts: [window] }\n'), TWO).findings.find((f) => f.rule === RULE)!;
    assert.equal(once.severity, 'error');
    const twice = checkPart(text('  a: { up: top, cuts: [window] }\n  b: { up: bottom, cuts: [window] }\n'), TWO);
    // Half from each side em-6 is within reach: nothing is left to tell.
    assert.deepEqual(
      twice.findings.filter((f) => f.rule === RULE || f.rule === 'access/reach'),
      [],
    );
  });
});
