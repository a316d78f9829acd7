/** wall/knife-edge against angles in closed form. */
import assert from 'node:assert/strict';
import { block, hole } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const deg = (radians: number) => Math.round(((radians * 180) / Math.PI) * 10) / 10;
const contour = (corners: string) =>
  block([60, 40, 8], `  outline:\n    kind: contour\n    face: top\n    path:\n${corners}    depth: through\n`);

describe('wall/knife-edge', () => {
  it('at a corner of an outline is the corner’s own angle: 2 atan(5 / 50)', () => {
    const finding = onlyFinding(
      'wall/knife-edge',
      contour('      - { x: 5, y: 15 }\n      - { x: 55, y: 20 }\n      - { x: 5, y: 25 }\n'),
    );
    assert.equal(finding.facts.angle_deg, deg(2 * Math.atan(5 / 50)));
    assert.deepEqual(finding.at?.[0]?.slice(0, 2), [55, 20]);
  });

  it('is quiet about blunt corners and rounded ones', () => {
    assert.deepEqual(
      findingsOf(
        'wall/knife-edge',
        contour('      - { x: 5, y: 5 }\n      - { x: 55, y: 20 }\n      - { x: 5, y: 35 }\n'),
      ),
      [],
    );
    assert.deepEqual(
      findingsOf(
        'wall/knife-edge',
        contour('      - { x: 5, y: 15 }\n      - { x: 55, y: 20, round: 1 }\n      - { x: 5, y: 25 }\n'),
      ),
      [],
    );
  });

  it('rounds the corner it means', () => {
    const after = mended(
      'wall/knife-edge',
      contour('      - { x: 5, y: 15 }\n      - { x: 55, y: 20 }\n      - { x: 5, y: 25 }\n'),
    );
    assert.match(after, /- \{ x: 55, y: 20, round: 1 \}/);
  });

  it('where a hole breaks a side is acos(d / r)', () => {
    const finding = onlyFinding(
      'wall/knife-edge',
      block([60, 40, 8], hole('relief', 'x: 4.8, y: center', 10, 'through')),
    );
    assert.equal(finding.facts.angle_deg, deg(Math.acos(4.8 / 5)));
    assert.match(finding.message, /breaks through the left face/);
  });

  it('is quiet about a hole that breaks a side squarely', () => {
    for (const x of [0, 2.5, 4.3, 8]) {
      // acos(4.3 / 5) = 30.7°
      assert.deepEqual(
        findingsOf('wall/knife-edge', block([60, 40, 8], hole('relief', `x: ${x}, y: center`, 10, 'through'))),
        [],
        `${x}`,
      );
    }
  });

  it('moves the hole clear of the side', () => {
    const after = mended(
      'wall/knife-edge',
      block([60, 40, 8], hole('relief', 'x: 4.8, y: center', 10, 'through')),
      /^Move/,
    );
    assert.match(after, /at: \{ x: 6\.5, y: center \}/);
  });

  it('where two holes meet is twice acos(half their distance / r)', () => {
    const text = block(
      [60, 40, 8],
      hole('a', 'x: 20, y: 20', 10, 'through') + hole('b', 'x: 29.8, y: 20', 10, 'through'),
    );
    const finding = onlyFinding('wall/knife-edge', text);
    assert.equal(finding.facts.angle_deg, deg(2 * Math.acos(4.9 / 5)));
    assert.deepEqual([...finding.of].sort(), ['a', 'b']);
  });

  it('where an incline reaches the far face is the incline’s angle', () => {
    const ramp = (angle: number, depth: number) =>
      block(
        [60, 40, 8],
        `  ramp:\n    kind: slope\n    face: top\n    along: left\n    angle: ${angle}\n    depth: ${depth}\n`,
      );
    assert.equal(onlyFinding('wall/knife-edge', ramp(20, 8)).facts.angle_deg, 20);
    assert.deepEqual(findingsOf('wall/knife-edge', ramp(20, 7)), []);
    assert.deepEqual(findingsOf('wall/knife-edge', ramp(45, 8)), []);
    assert.match(mended('wall/knife-edge', ramp(20, 8)), /depth: 7\.5\n/);
  });

  it('where a tilted hole enters is 90° less its lean', () => {
    const leaning = (angle: number) =>
      block([60, 40, 20], hole('oil', 'x: 30, y: 20', 4, 20, `tilt: { about: y, angle: ${angle} }\n    face: top`));
    assert.equal(onlyFinding('wall/knife-edge', leaning(70)).facts.angle_deg, 20);
    assert.deepEqual(findingsOf('wall/knife-edge', leaning(45)), []);
  });

  it('is quiet about what touches a side along its length', () => {
    const flush = contour(
      '      - { x: 0, y: 0 }\n      - { x: 60, y: 0 }\n      - { x: 60, y: 20, arc: { x: 30, y: 40 } }\n      - { x: 0, y: 20 }\n',
    );
    assert.deepEqual(findingsOf('wall/knife-edge', flush), []);
    const ledge = block(
      [60, 40, 8],
      '  ledge:\n    kind: step\n    face: top\n    along: left\n    width: 8\n    depth: 4\n',
    );
    assert.deepEqual(findingsOf('wall/knife-edge', ledge), []);
  });
});
