/** hole/sloped-start and hole/crosses where no set-ups say: in the order in which a workshop drills (common practice, no source). */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { block } from '../parts';
import { findingsOf } from '../tester';

const BRASS = 'part: valve-block\nmaterial: brass-cw614n\n';
const valve = (gallery: number, port: number, inlet = 9, tail = '') =>
  block(
    [60, 30, 30],
    `  gallery: { kind: hole, face: left, at: { y: center, z: center }, diameter: ${gallery}, depth: 52 }
  port: { kind: hole, face: top, at: { x: 14, y: center }, diameter: ${port}, depth: 15 }
  inlet: { kind: hole, face: left, at: { y: center, z: center }, diameter: ${inlet}, depth: 12 }
`,
    BRASS,
    tail,
  );
const SETUPS = (first: string, second: string) => `setups:
  ends: { up: left, hold: { vise: mill-vise-100, jaws: [back, front], grip: 14, stop: top }, zero: { z: top, y: back, x: parallels }, cuts: [${first}] }
  over: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 14, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [${second}] }
`;

describe('holes that run into each other', () => {
  it('on one axis centre themselves, and what crosses them is drilled later', () => {
    assert.deepEqual(findingsOf('hole/sloped-start', valve(8, 5)), []);
    // The drill of 5 follows that of 9 down one axis in one go, before the table moves to the port of 8.
    assert.deepEqual(findingsOf('hole/sloped-start', valve(5, 8)), []);
    assert.deepEqual(
      findingsOf('hole/crosses', valve(5, 8)).map((f) => f.of),
      [
        ['port', 'gallery'],
        ['port', 'inlet'],
      ],
    );
  });

  it('are judged by the order of the set-ups where there are any', () => {
    assert.deepEqual(findingsOf('hole/sloped-start', valve(8, 5, 9, SETUPS('inlet, gallery', 'port'))), []);
    const wrong = valve(8, 5, 9, SETUPS('inlet, gallery', 'port').replace(/( {2}ends.*\n)( {2}over.*\n)/, '$2$1'));
    assert.deepEqual(
      findingsOf('hole/sloped-start', wrong).map((f) => f.of),
      [['gallery']],
    );
  });

  it('still walk where they start on the slope of a larger one that is there first', () => {
    // Beside the axis: the flank of the cone of 20 leans by 31° (half of 180° − 118°).
    const text = block(
      [60, 30, 30],
      `  well: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 20, depth: 8 }
  weep: { kind: hole, face: top, at: { x: 36, y: center }, diameter: 4, depth: 18 }
`,
    );
    const [found] = findingsOf('hole/sloped-start', text);
    assert.ok(Math.abs(Number(found?.facts.slope_deg) - 31) <= 1, `${found?.facts.slope_deg}`);
  });

  const hub = (set: string, shaft = 'diameter: 8 H7', at = 'center') =>
    block(
      [30, 30, 14],
      `  shaft: { kind: hole, face: top, at: { x: center, y: ${at} }, ${shaft}, depth: through }
  set: { kind: hole, face: left, at: { y: center, z: center }, ${set}, depth: 15 }
`,
    );

  it('says of a set screw that it meets the bore it is for, once and as a hint', () => {
    const all = checkPart(hub('thread: M4, thread-depth: 11'), builtinShop()).findings;
    assert.deepEqual(
      all.map((f) => `${f.severity} ${f.rule}`),
      ['hint hole/crosses'],
    );
    assert.match(
      all[0]!.message,
      /A screw in it presses on what is in shaft\. Drill and tap it first, and finish shaft last/,
    );
    // A thicker screw in a thinner bore is told of on the screw all the same.
    assert.deepEqual(findingsOf('hole/crosses', hub('thread: M8, thread-depth: 10', 'diameter: 4'))[0]?.of, [
      'set',
      'shaft',
    ]);
  });

  it('and that its thread must get there: the bore begins 11 mm in', () => {
    for (const thread of ['thread: M4, thread-depth: 8.5', 'thread: M4'])
      assert.match(
        findingsOf('hole/crosses', hub(thread).replace('depth: 15 }', 'depth: 11.5 }'))[0]!.message,
        /Its thread ends (2\.5|2\.3) mm before shaft: no screw in it gets there\. Make the thread 11 mm deep\.$/,
      );
    // 11 mm are 2.75 diameters of an M4: as long as this screw needs, and no longer.
    const told = (deep: number) => findingsOf('thread/too-long', hub(`thread: M4, thread-depth: ${deep}`));
    assert.deepEqual(told(11), []);
    assert.equal(told(12)[0]!.facts.enough_mm, 11);
  });

  it('and of what is no set screw that it is none', () => {
    assert.doesNotMatch(findingsOf('hole/crosses', hub('diameter: 3.3'))[0]!.message, /set screw/);
    assert.doesNotMatch(
      findingsOf('hole/crosses', hub('thread: M4, thread-depth: 10', 'thread: M8'))[0]!.message,
      /set screw/,
    );
    // Beside the middle the drill is drawn aside, for a screw or not.
    assert.equal(
      findingsOf('hole/crosses', hub('thread: M4, thread-depth: 10', 'diameter: 8 H7', '18'))[0]!.severity,
      'warning',
    );
  });
});
