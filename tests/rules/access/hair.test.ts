/** Depths that are within a hair of a tool's reach, and a drill that must go down past a wall. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { drill, endMill, shopWith } from '../shops';
import { findingsOf, onlyFinding } from '../tester';

describe("a drill's holder beside a wall", () => {
  /** A bore 20 wide and 30 deep, and a hole of 3 in its floor. */
  const stepped = (deep: number) => `part: stepped
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 60 }
features:
  well: { kind: pocket, face: top, at: { x: 30, y: 30 }, diameter: 20, depth: 30 }
  hole: { kind: hole, face: top, from: well, at: { x: 30, y: 30 }, diameter: 3, depth: ${deep} }
setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 18 }, cuts: [well, hole] }
`;
  const shop = shopWith(endMill('em-16', 16, 45) + drill(3, 33, 'holder: chuck, stickout: 40'));

  it('meets it where the tip with its point goes deeper than it stands out', () => {
    // Its point is 1.5 / tan 59° = 0.901 long.
    assert.deepEqual(findingsOf('access/holder', stepped(9), shop), []);
    const { severity, facts } = onlyFinding('access/holder', stepped(10), shop);
    assert.equal(severity, 'error');
    assert.deepEqual([facts.needed_mm, facts.out_mm, facts.tool], [40.901, 40, 'dr-3']);
  });
});

describe('a depth within a hair of a reach', () => {
  const deep = (inches: string) => `part: flat
units: in
material: aluminium-6061-t6
body: { x: 2, y: 2, z: 1 }
features:
  hole: { kind: hole, face: top, at: { x: 1, y: 1 }, diameter: 5 mm, depth: ${inches}, bottom: flat }
`;
  const shop = shopWith(drill(5, 52) + endMill('em-3', 3, 9));

  it('is in reach: 0.354331 in is 9.0000074 mm; nothing is told whose two figures are equal', () => {
    assert.deepEqual(findingsOf('hole/flat-bottom', deep('0.354331'), shop), []);
    // 9.0043 mm, the next thousandth of an inch that is written as another figure.
    const { facts, message } = onlyFinding('hole/flat-bottom', deep('0.3545'), shop);
    assert.equal(facts.depth_mm, 9.004);
    const figures = message.match(/0\.\d+ in/g) ?? [];
    assert.ok(new Set(figures).size > 1, message);
    for (const f of checkPart(deep('0.354331'), shop).findings) assert.notEqual(f.severity, 'error', f.message);
  });
});
