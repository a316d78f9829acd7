/** A bar's own wall that is milled: spans worked by hand. That both edges held allow four times the width: beam tables (Roark). */
import assert from 'node:assert/strict';
import { findingsOf, onlyFinding } from '../tester';

const RULE = 'wall/slender';
const part = (stock: string, feature: string, body = '{ x: 90, y: 80, z: 40 }') => `part: sonde-frame
units: mm
material: aluminium-6061-t6
body: ${body}
stock: { ${stock}, axis: x, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  f: ${feature}
`;
const window = (face: string, x = 45, y = 40) =>
  `{ kind: pocket, face: ${face}, at: { x: ${x}, ${face === 'front' ? 'z' : 'y'}: ${y} }, size: { x: 20, ${face === 'front' ? 'z' : 'y'}: 14 }, corner-radius: 4, depth: 4 }`;

describe('wall/slender: the bar’s own wall', () => {
  it('a tube’s wall of 2 mm is 76 mm wide between its sides: 38 times', () => {
    const { severity, facts, message } = onlyFinding(RULE, part('form: tube, wall: 2', window('top')));
    assert.deepEqual(
      [severity, facts.width_mm, facts.thickness_mm, facts.ratio, facts.limit],
      ['warning', 76, 2, 38, 32],
    );
    assert.match(message, /milled into the top wall of the tube/);
  });

  it('of 2.5 mm it is 30 times, and on the narrow side 18: quiet; a drilled hole too', () => {
    assert.deepEqual(findingsOf(RULE, part('form: tube, wall: 2.5', window('top'))), []);
    assert.deepEqual(findingsOf(RULE, part('form: tube, wall: 2', window('front', 45, 20))), []);
    const hole = '{ kind: hole, face: top, at: { x: 45, y: 40 }, diameter: 5, depth: 4 }';
    assert.deepEqual(findingsOf(RULE, part('form: tube, wall: 2', hole)), []);
  });

  it('an angle’s leg is free along one edge: 38 mm of 2 mm is 19 times; 35 of 5 is 7', () => {
    const body = '{ x: 90, y: 40, z: 40 }';
    const angle = (wall: number) =>
      part(
        `form: angle, wall: ${wall}, open: [back, top]`,
        window('front', 45, 25).replace('depth: 4', 'depth: 6'),
        body,
      );
    const { facts } = onlyFinding(RULE, angle(2));
    assert.deepEqual([facts.width_mm, facts.ratio, facts.limit], [38, 19, 8]);
    assert.deepEqual(findingsOf(RULE, angle(5)), []);
  });

  it('a channel’s web is held along both edges, its flange along one', () => {
    const body = '{ x: 90, y: 80, z: 40 }';
    const channel = (wall: number, face: string, y: number) =>
      part(`form: channel, wall: ${wall}, open: [bottom]`, window(face, 45, y).replace('depth: 4', 'depth: 6'), body);
    // The web is 80 − 2 · 3 wide: 24.7 times; the flange 37 of 3: 12.3 times.
    assert.deepEqual(findingsOf(RULE, channel(3, 'top', 40)), []);
    assert.equal(onlyFinding(RULE, channel(3, 'front', 20)).facts.limit, 8);
    assert.equal(onlyFinding(RULE, channel(2, 'top', 40)).facts.limit, 32);
  });
});
