/** Patterns turned, moved and mirrored agree; one hole moved is told with how far. */
import assert from 'node:assert/strict';
import { matchOf, type Spot, timesIn } from '../../../server/src/process/joints/pattern';
import { random } from '../../fuzz/runs';

const HOW = { mayMirror: false, withinMm: 0.02 };

/** Drawn so that no two distances are alike, and nothing is its own mirror image. */
function drawn(next: () => number, count: number): Spot[] {
  const spots: Spot[] = [];
  while (spots.length < count) {
    const spot = { u: next() * 100, v: next() * 60 };
    if (spots.every((s) => Math.hypot(s.u - spot.u, s.v - spot.v) > 8)) spots.push(spot);
  }
  return spots;
}

function laid(spots: readonly Spot[], next: () => number, isMirrored: boolean): Spot[] {
  const turn = next() * 2 * Math.PI;
  const [du, dv] = [next() * 200 - 100, next() * 200 - 100];
  return spots
    .map(({ u, v }) => ({ u, v: isMirrored ? -v : v }))
    .map(({ u, v }) => ({
      u: du + u * Math.cos(turn) - v * Math.sin(turn),
      v: dv + u * Math.sin(turn) + v * Math.cos(turn),
    }))
    .map((spot) => ({ spot, by: next() }))
    .sort((a, b) => a.by - b.by)
    .map(({ spot }) => spot);
}

describe('patterns of holes', () => {
  const { next } = random(16);
  it('agree wherever they lie, however they are turned and in whatever order', () => {
    for (let run = 0; run < 60; run++) {
      const spots = drawn(next, 1 + Math.floor(next() * 8));
      const match = matchOf(spots, laid(spots, next, false), HOW);
      assert.equal(match?.offMm, 0);
      assert.equal(new Set(match?.pairs).size, spots.length);
    }
  });

  it('agree in a mirror only where that is allowed', () => {
    for (let run = 0; run < 40; run++) {
      const spots = drawn(next, 4 + Math.floor(next() * 5));
      const mirrored = laid(spots, next, true);
      assert.equal(matchOf(spots, mirrored, { ...HOW, mayMirror: true })?.offMm, 0);
      assert.ok(matchOf(spots, mirrored, HOW)!.offMm > 0.02);
    }
  });

  it('one hole moved by d is told with d, and which', () => {
    for (let run = 0; run < 60; run++) {
      const spots = drawn(next, 3 + Math.floor(next() * 6));
      const moved = Math.floor(next() * spots.length);
      const [d, way] = [0.05 + next() * 3, next() * 2 * Math.PI];
      const other = spots.map((s, i) => (i === moved ? { u: s.u + d * Math.cos(way), v: s.v + d * Math.sin(way) } : s));
      const match = matchOf(spots, laid(other, next, false), HOW)!;
      if (spots.length === 3) assert.ok(match.offMm <= d + 0.03 && match.offMm > 0);
      else {
        assert.deepEqual(match.odd, [moved]);
        assert.ok(Math.abs(match.offMm - d) < 0.02, `${match.offMm} of ${d}`);
      }
    }
  });

  it('two holes are compared by their distance', () => {
    const match = matchOf(
      [
        { u: 0, v: 0 },
        { u: 14, v: 0 },
      ],
      [
        { u: 3, v: 0 },
        { u: 3, v: 44 },
      ],
      HOW,
    );
    assert.deepEqual(match?.between, { a: 0, b: 1, hasMm: 14, needsMm: 44 });
    assert.equal(match?.offMm, 30);
  });

  it('a bolt circle of another diameter differs by the difference of the diameters', () => {
    const circle = (d: number) =>
      Array.from({ length: 6 }, (_, i) => ({
        u: (d / 2) * Math.cos((i * Math.PI) / 3),
        v: (d / 2) * Math.sin((i * Math.PI) / 3),
      }));
    const match = matchOf(circle(40), circle(42), HOW)!;
    assert.ok(match.between && Math.abs(match.offMm - 2) < 1e-9);
    assert.equal(matchOf(circle(40), circle(40), HOW)?.offMm, 0);
  });

  it('marked spots meet only their own', () => {
    const a: Spot[] = [
      { u: 0, v: 0, mark: 'own' },
      { u: 10, v: 0, mark: 'own' },
      { u: 3, v: 5, mark: 'with' },
    ];
    assert.equal(matchOf(a, a, HOW)?.offMm, 0);
    const b = a.map((s) => (s.mark === 'with' ? { ...s, u: 4 } : s));
    assert.ok(Math.abs(matchOf(a, b, HOW)!.offMm - 1) < 0.02);
    assert.equal(matchOf(a, a.slice(0, 2), HOW), undefined);
  });

  it('a small pattern is found as often as it is in a large one', () => {
    const small = [
      { u: 0, v: 0 },
      { u: 12, v: 5 },
    ];
    const large = [0, 40, 80].flatMap((u) => small.map((s) => ({ u: s.u + u, v: s.v })));
    assert.equal(timesIn(small, large, 3, HOW)?.flat().length, 6);
    const off = large.map((s, i) => (i === 5 ? { ...s, v: s.v + 1 } : s));
    assert.equal(timesIn(small, off, 3, HOW), undefined);
  });
});
