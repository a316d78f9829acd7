/** What the rules make of relief cut into square corners: cutters, walls, and no blame for overlapping its own pocket. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { block, pocket } from '../parts';
import { endMill, shopWith } from '../shops';
import { describeFindings, findingsOf, mended, onlyFinding, tryFixesOn } from '../tester';

const CUTTERS = shopWith(endMill('em-3', 3, 12) + endMill('em-6', 6, 20) + endMill('em-10', 10, 40));
const nest = (depth: number, diameter: number, more = '') =>
  block(
    [60, 40, 24],
    pocket('nest', {
      at: 'x: center, y: center',
      size: [30, 20],
      radius: 0,
      depth,
      more: `relief: corner\n    relief-diameter: ${diameter}${more}`,
    }),
  );

describe('relief in square corners', () => {
  it('leaves nothing to say where a cutter of its size reaches', () => {
    for (const text of [nest(6, 6), nest(18, 6), nest(12, 3), nest(6, 4)]) {
      const { findings } = checkPart(text, CUTTERS);
      assert.deepEqual(findings, [], describeFindings(findings));
    }
  });

  it('is an inside radius: too small for the depth, and mended by its own diameter', () => {
    const finding = onlyFinding('corner/inside-radius', nest(18, 4), CUTTERS);
    assert.deepEqual(
      [finding.facts.radius_mm, finding.facts.depth_mm, finding.facts.corners, finding.facts.needed_radius_mm],
      [2, 18, 4, 3.3],
    );
    const cured = mended('corner/inside-radius', nest(18, 4), undefined, CUTTERS);
    assert.match(cured, /relief-diameter: 6\.6\n/);
    assert.doesNotMatch(cured, /corner-radius/);
    assert.deepEqual(findingsOf('corner/inside-radius', cured, CUTTERS), []);
  });

  it('writes the diameter where it was left out', () => {
    const text = nest(18, 4)
      .replace(/ *relief-diameter.*\n/, '')
      .replace('y: 20', 'y: 16');
    // a quarter of 16
    assert.equal(onlyFinding('corner/inside-radius', text, CUTTERS).facts.radius_mm, 2);
    assert.match(mended('corner/inside-radius', text, undefined, CUTTERS), /relief-diameter: 6\.6/);
  });

  it('every fix keeps the part sound and the comments', () => {
    assert.ok(tryFixesOn({ name: 'corner/inside-radius' }, nest(18, 4, ' # for the mate'), CUTTERS) > 0);
  });

  it('round corners of the same outline keep their own radius', () => {
    const text = block(
      [60, 40, 24],
      '  nest:\n    kind: pocket\n    face: top\n    path: [{ x: 10, y: 10 }, { x: 50, y: 10, round: 2 }, { x: 50, y: 30 }, { x: 10, y: 30 }]\n    depth: 18\n    relief: corner\n    relief-diameter: 4\n',
    );
    assert.equal(onlyFinding('corner/inside-radius', text, CUTTERS).facts.corners, 4);
    const cured = mended('corner/inside-radius', text, undefined, CUTTERS);
    assert.match(cured, /round: 3\.3/);
    assert.match(cured, /relief-diameter: 6\.6/);
  });

  it('cures the square corners that it is offered for', () => {
    const square = nest(6, 6).replace(/ *relief.*\n/g, '');
    const checked = checkPart(square, CUTTERS);
    assert.ok(checked.findings.some((f) => f.rule === 'corner/square'));
    const cured = mended('corner/square', square, /relief/, CUTTERS);
    const { findings } = checkPart(cured, CUTTERS);
    assert.deepEqual(
      findings.filter((f) => f.severity === 'error' && f.rule !== 'corner/inside-radius'),
      [],
      describeFindings(findings),
    );
  });

  it('bites into the wall beside it', () => {
    // 1 mm between the two pockets; a circle of 4 stands 2 − √2 = 0.586 out of each wall.
    const two = (more: string) =>
      block(
        [80, 40, 12],
        pocket('a', { at: 'x: 19.5, y: 20', size: [30, 20], depth: 4, radius: 0, more }) +
          pocket('b', { at: 'x: 55.5, y: 20', size: [40, 30], depth: 4 }),
      );
    assert.deepEqual(findingsOf('wall/thin', two(''), CUTTERS), []);
    const finding = onlyFinding('wall/thin', two('relief: corner\n    relief-diameter: 4'), CUTTERS);
    assert.equal(finding.facts.thickness_mm, 0.414);
    assert.deepEqual([...finding.of].sort(), ['a', 'b']);
  });

  it('does not overlap, nor remove nothing beside, its own pocket', () => {
    const patterned = block(
      [80, 40, 12],
      pocket('a', {
        at: 'x: center, y: center',
        size: [16, 20],
        depth: 4,
        radius: 0,
        more: 'relief: corner\n    pattern: { line: { x: 30, count: 2 } }',
      }),
    );
    // One that grows out of another's floor, relief over relief.
    const stacked = nest(6, 4).concat(
      pocket('well', {
        at: 'x: center, y: center',
        size: [30, 20],
        depth: 4,
        radius: 0,
        more: 'from: nest\n    relief: corner\n    relief-diameter: 4',
      }).replace('    face: top\n', ''),
    );
    for (const text of [patterned, stacked]) {
      const found = checkPart(text, CUTTERS).findings.filter((f) => f.rule.startsWith('form/'));
      assert.deepEqual(found, [], describeFindings(found));
    }
  });
});
