/** Two cuts that touch exactly leave a web of nothing: told, and near misses beside it that are none. */
import assert from 'node:assert/strict';
import { block, hole, pocket } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'wall/thin';
const of = (text: string) => findingsOf(RULE, text).map((f) => `${f.of.join('+')} ${f.facts.thickness_mm}`);
const BODY = [60, 40, 20] as const;
const one = pocket('one', { at: 'x: 20, y: center', size: [20, 20], depth: 8 });

describe('cuts that touch exactly', () => {
  it('side by side, as rectangles, as circles, and one of each', () => {
    const beside = (x: number) =>
      block(BODY, one + pocket('two', { at: `x: ${x}, y: center`, size: [20, 16], depth: 6 }));
    const found = onlyFinding(RULE, beside(40));
    assert.equal(found.facts.thickness_mm, 0);
    assert.equal(found.severity, 'warning');
    assert.match(found.message, /touch exactly, side to side/);
    assert.deepEqual(of(beside(40.02)), ['one+two 0.02']);
    assert.deepEqual(of(beside(39.9)), []);
    const holes = (x: number) =>
      block(BODY, hole('a', 'x: 20, y: center', 10, 'through') + hole('b', `x: ${x}, y: center`, 8, 'through'));
    assert.deepEqual(of(holes(29)), ['a+b 0']);
    assert.deepEqual(of(holes(28.9)), []);
    assert.deepEqual(of(block(BODY, one + hole('b', 'x: 33, y: center', 6, 'through'))), ['b+one 0']);
  });

  it('floor to floor, and floor on the side of a cross hole', () => {
    const under = (depth: number) =>
      block(BODY, one + pocket('two', { at: 'x: 22, y: center', size: [20, 20], depth, face: 'bottom' }));
    assert.match(onlyFinding(RULE, under(12)).message, /floor to floor/);
    assert.deepEqual(of(under(12.5)), []);
    // Its floor 8 down, the hole of 4 about 10 down.
    const duct = (z: number) =>
      block(
        BODY,
        `${one}  duct: { kind: hole, face: left, at: { y: center, z: ${z} }, diameter: 4, depth: through }\\n`,
      );
    assert.deepEqual(of(duct(10)), ['duct+one 0']);
    assert.deepEqual(of(duct(10.2)), []);
  });

  it('is nothing where one opens into the other, or a third has taken the place', () => {
    const on = `  seat:\\n    kind: hole\\n    from: one\\n    at: { x: 20, y: center }\\n    diameter: 6\\n    depth: 5\\n`;
    assert.deepEqual(of(block(BODY, one + on)), []);
    // Whichever is listed first, and from the wall of one.
    const seat = pocket('seat', { at: 'x: center, y: center', size: [20, 20], depth: 8 });
    assert.deepEqual(of(block(BODY, hole('a', 'x: center, y: center', 6, 'through', 'from: seat') + seat)), []);
    const side = `  bolt: { kind: hole, face: left, at: { y: center, z: 16 }, diameter: 4, depth: 10 }\n`; // its point comes through
    assert.deepEqual(of(block(BODY, side + one)), []);
    const leg = `part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 40 }\nstock: { form: angle, wall: 4, open: [back, top] }\nfeatures:\n  bolt: { kind: hole, face: bottom, at: { x: 20, y: 25 }, diameter: 5.5, depth: 4 }\n`;
    assert.deepEqual(of(leg), []);
    const third = pocket('over', { at: 'x: 30, y: center', size: [12, 24], depth: 9 });
    assert.deepEqual(
      of(block(BODY, `${one}${pocket('two', { at: 'x: 40, y: center', size: [20, 16], depth: 6 })}${third}`)),
      [],
    );
  });

  it('offers what parts them', () => {
    const text = block(BODY, one + hole('b', 'x: 33, y: center', 6, 'through'));
    assert.deepEqual(findingsOf(RULE, mended(RULE, text)), []);
  });
});
