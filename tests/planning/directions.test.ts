/** The bound on setups, against every subset tried by brute force. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { DIRECTIONS, facesOf, fewestDirections, maskOf, sizeOf } from '../../server/src/planning/directions';

/** The other way round: grow families of faces until one meets every need. */
function bruteCount(needs: readonly number[]): number {
  const real = needs.filter((n) => n !== 0);
  for (let size = 0; size <= 6; size++)
    if (choose(size, 0, []).some((set) => real.every((n) => set.some((i) => n & (1 << i))))) return size;
  return 6;
}
function choose(size: number, from: number, had: readonly number[]): readonly (readonly number[])[] {
  if (had.length === size) return [had];
  const all: (readonly number[])[] = [];
  for (let i = from; i < 6; i++) all.push(...choose(size, i + 1, [...had, i]));
  return all;
}

describe('the fewest directions', () => {
  it('equals brute force over all sets, and every set it names does', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 63 }), { maxLength: 12 }), (needs) => {
        const { count, sets } = fewestDirections(needs);
        assert.equal(count, bruteCount(needs));
        for (const set of sets) {
          assert.equal(sizeOf(set), count);
          assert.ok(needs.every((n) => n === 0 || (n & set) !== 0));
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('a block with holes in all six faces needs six, a part open to two of them one', () => {
    assert.equal(fewestDirections(DIRECTIONS.map((f) => maskOf([f]))).count, 6);
    assert.deepEqual(fewestDirections([maskOf(['top', 'bottom']), maskOf(['top', 'left'])]).sets.map(facesOf), [
      ['top'],
    ]);
    assert.equal(fewestDirections([]).count, 0);
  });
});
