/** Where form cutters stand, and which of them cut a square ring. Sizes are worked by hand; no source is needed. */
import assert from 'node:assert/strict';
import { endMill, shopWith } from '../shops';
import { findingsOf, onlyFinding } from '../tester';

const RING = (width: string) => `part: sonde-hub
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 30 }
features:
  bore: { kind: hole, face: top, at: { x: 30, y: 30 }, diameter: 20, depth: through }
  ring: { kind: groove, in: bore, diameter: 22, width: ${width}, below: 5 }
`;

describe('access/undercut: a ring in a hole', () => {
  const ball = 'bu-6: { kind: ball-undercutter, diameter: 6, neck: 3, reach: 20 }\n';
  const wheel = 'tc-12: { kind: tee-cutter, diameter: 12, thickness: 3, neck: 6, reach: 20 }\n';

  it('no ball cuts a square ring, and the message says why; a wheel does', () => {
    const found = onlyFinding('access/undercut', RING('6'), shopWith(ball));
    assert.match(found.message, /has bu-6, whose ball leaves a round groove/);
    assert.deepEqual(findingsOf('access/undercut', RING('6'), shopWith(ball + wheel)), []);
    // Too narrow for either: no ball is named.
    assert.match(onlyFinding('access/undercut', RING('1.6'), shopWith(ball + wheel)).message, /shop has none/);
  });
});

describe('access/holder: a rim broken down in a well', () => {
  /** The rim of a pocket on the floor of a well; the holder is 40 mm thick and the mill reaches out 30 mm. */
  const part = (well: number, deep: number) => `part: sonde-well
units: mm
material: aluminium-6061-t6
body: { x: 120, y: 120, z: 60 }
features:
  well: { kind: pocket, face: top, at: { x: 60, y: 60 }, size: { x: ${well}, y: ${well} }, corner-radius: 6, depth: ${deep} }
  seat: { kind: pocket, face: top, from: well, at: { x: 60, y: 60 }, size: { x: 24, y: 24 }, corner-radius: 6, depth: 4 }
  soft: { kind: chamfer, edges: { rim: seat }, size: 0.5 }
setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10 }, zero: { x: left, y: back, z: top }, cuts: [well, seat, soft] }
`;
  const shop = shopWith(
    `${endMill('em-10', 10, 60)}cm-6: { kind: chamfer-mill, diameter: 6, angle: 90, reach: 30, stickout: 30, holder: chuck }\n`,
  );
  const about = (text: string) => findingsOf('access/holder', text, shop).filter((f) => f.of.includes('soft'));

  it('meets the wall of a narrow well', () => {
    assert.equal(about(part(34, 40)).length, 1);
  });

  it('is clear in a wide one, and in a shallow one', () => {
    assert.deepEqual(about(part(80, 40)), []);
    assert.deepEqual(about(part(34, 20)), []);
  });
});
