/** Islands and the pockets that they stand in. Areas by hand. */
import assert from 'node:assert/strict';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const part = (island: string, pocket = 'size: { x: 40, y: 34 }, corner-radius: 5') =>
  `${ALUMINIUM}body: { x: 80, y: 50, z: 12 }
features:
  well:
    kind: pocket
    face: top
    at: { x: 50, y: center }
    ${pocket.replaceAll(', corner', '\n    corner')}
    depth: 6
    islands:
      post: ${island}
`;

describe('form/island-outside', () => {
  it('tells an island that does not meet its pocket, and where it stands', () => {
    const f = onlyFinding('form/island-outside', part('{ diameter: 8, at: { x: 0, y: 0 } }'));
    assert.deepEqual([f.severity, f.facts.u_mm, f.facts.v_mm], ['warning', 0, 0]);
    // From 30 to 70: a post of 8 at 26 touches the wall from outside, at 26.1 some of it stands in the pocket.
    assert.equal(onlyFinding('form/island-outside', part('{ diameter: 8, at: { x: 26, y: center } }')).of[0], 'well');
    assert.deepEqual(findingsOf('form/island-outside', part('{ diameter: 8, at: { x: 26.1, y: center } }')), []);
    assert.deepEqual(findingsOf('form/island-outside', part('{ diameter: 8, at: { right: 30, y: center } }')), []);
  });

  it('what lies between the post and a round corner is no touch', () => {
    // The corner of the pocket at (30, 8) is rounded by 5: (30.5, 8.5) lies 6.364 − 5 outside the arc.
    const corner = (d: number) => part(`{ diameter: ${d}, at: { x: 30.5, y: 8.5 } }`);
    assert.equal(findingsOf('form/island-outside', corner(2.7)).length, 1);
    assert.deepEqual(findingsOf('form/island-outside', corner(2.8)), []);
  });

  it('mends it: counted from the pocket’s place, in its middle, or deleted', () => {
    const text = part('{ diameter: 8, at: { x: 4, y: -3 } } # the post');
    assert.match(mended('form/island-outside', text, /by the pocket’s place/), /at: \{ x: 54, y: 22 \} \} # the post/);
    assert.match(mended('form/island-outside', text, /middle/), /at: \{ x: 50, y: 25 \}/);
    const without = mended('form/island-outside', text, /Delete post/);
    assert.doesNotMatch(without, /islands/);
    assert.match(without, /# the post/);
    // Far out either way, its words are no place in the pocket.
    const far = part('{ diameter: 8, at: { x: 70, y: 70 } }');
    assert.throws(() => mended('form/island-outside', far, /by the pocket’s place/), /no such fix/);
    assert.match(mended('form/island-outside', far, /middle/), /at: \{ x: 50, y: 25 \}/);
  });

  it('a path that is an island stands where its corners do', () => {
    const path = (x: number) =>
      part(`{ path: [{ x: ${x}, y: 20 }, { x: ${x + 8}, y: 20 }, { x: ${x + 8}, y: 28 }, { x: ${x}, y: 28 }] }`);
    assert.deepEqual(findingsOf('form/island-outside', path(45)), []);
    assert.equal(findingsOf('form/island-outside', path(10)).length, 1);
    assert.match(mended('form/island-outside', path(10), /middle/), /at: \{ x: 36, y: 1 \}/);
  });
});
