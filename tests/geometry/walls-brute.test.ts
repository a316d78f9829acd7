/**
 * Walls against brute force: cuts generated into the faces of a block, their surfaces sampled densely, the nearest
 * samples compared with the wall found. And what must not matter: the order of the cuts, work done before, the limit.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { pointApart, solidsApart } from '../../server/src/geometry/distance/solids';
import type { Profile, Region, Vec3, Void, Wall } from '../../server/src/geometry/types';
import { distance } from '../../server/src/geometry/vector';
import { wallsOf } from '../../server/src/geometry/walls';
import { FACE_AXIS, FACE_PLANE, FACES } from '../../server/src/model/model';
import { block, circle, cut, faceFrame, materialOf, polygon, rectangle, region, reversed } from './distance/make';
import { bruteForce, STEP, samples } from './distance/samples';

const size: Vec3 = [36, 30, 20];
const body = block(...size);
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const shape = fc.oneof(
  number(1, 4).map((r): Region => region(circle(0, 0, r))),
  fc.tuple(number(4, 9), number(4, 9), number(0.2, 1.9)).map(([w, h, r]): Region => region(rectangle(0, 0, w, h, r))),
  number(1, 3).map((k): Region => region(polygon([0, 0], [8, 0], [8, k], [k, k], [k, 9], [0, 9]))),
  number(0.5, 2).map((k): Region => region(rectangle(0, 0, 10, 9, 2), reversed(rectangle(1, 0, 2 + k, 3, 0.5)))),
);
const profile = fc.constantFrom<Profile>({ type: 'straight' }, { type: 'straight' }, { type: 'floor', radius: 0.9 });

/** A cut into some face, its outline wholly within it. */
const cutInto = fc
  .record({
    face: fc.constantFrom(...FACES),
    shape,
    profile,
    at: fc.tuple(number(0.2, 0.8), number(0.2, 0.8)),
    deep: number(2, 11),
  })
  .map(({ face, shape: r, profile: p, at, deep }): Void => {
    const frame = faceFrame(face, size);
    const extent = (axis: string) => size['xyz'.indexOf(axis) as 0];
    const [u, v] = FACE_PLANE[face];
    const off = { u: at[0] * extent(u), v: at[1] * extent(v) };
    const to = Math.min(deep, extent(FACE_AXIS[face].axis) - 0.3);
    const origin = frame.origin.map((x, i) => x + off.u * frame.u[i as 0] + off.v * frame.v[i as 0]) as unknown as Vec3;
    return cut({ frame: { ...frame, origin }, region: r, to, profile: p });
  });

const between = (walls: readonly Wall[]) => walls.filter((w) => typeof w.b !== 'string' && w.a !== w.b);
const plain = (walls: readonly Wall[]) =>
  walls.map((w) => [
    w.a.feature,
    typeof w.b === 'string' ? w.b : w.b.feature,
    w.thicknessMm,
    w.heightMm,
    w.lengthMm,
    w.type,
  ]);

describe('walls against brute force', () => {
  it('between two cuts: as thin as the nearest samples of their surfaces', () => {
    let compared = 0;
    fc.assert(
      fc.property(cutInto, cutInto, (a, b) => {
        const brute = bruteForce(a, b, 6);
        const [wall] = between(wallsOf(body, [a, b], 5, materialOf(body, [a, b])).walls);
        if (!wall) {
          // Farther than the limit, or they meet, or the nearest line leaves the block.
          const mm = solidsApart(a, b, 5)?.mm;
          if (brute < 5 - 2 * STEP) assert.ok(mm === 0 || leavesBlock(a, b), `no wall at ${brute}`);
          return;
        }
        compared++;
        assert.ok(wall.thicknessMm <= brute + 1e-6 || leavesBlock(a, b), `${wall.thicknessMm} > ${brute}`);
        assert.ok(wall.thicknessMm >= brute - 2 * STEP * Math.SQRT1_2, `${wall.thicknessMm} < ${brute}`);
        assert.ok(Math.abs(distance(...wall.at) - wall.thicknessMm) < 1e-6);
      }),
      { seed: 42, numRuns: 70, endOnFailure: true },
    );
    assert.ok(compared > 5, `only ${compared} compared`);
  });

  it('to the faces: as thin as the nearest sample', () => {
    fc.assert(
      fc.property(cutInto, (v) => {
        const cloud = samples(v);
        for (const w of wallsOf(body, [v], 5, materialOf(body, [v])).walls) {
          if (typeof w.b !== 'string') continue;
          const { axis, sign } = FACE_AXIS[w.b];
          const k = 'xyz'.indexOf(axis) as 0 | 1 | 2;
          const brute = Math.min(...cloud.map((p) => (sign > 0 ? size[k] - p[k] : p[k])));
          // Open at this face: what it leaves to it elsewhere is another matter.
          if (brute < 1e-6) continue;
          assert.ok(Math.abs(w.thicknessMm - brute) < STEP, `${w.thicknessMm} ${brute}`);
          assert.ok(w.thicknessMm <= brute + 1e-6);
        }
      }),
      { seed: 43, numRuns: 60, endOnFailure: true },
    );
  });

  it('a wall’s line is material all along, its ends are on the surfaces', () => {
    fc.assert(
      fc.property(fc.array(cutInto, { minLength: 3, maxLength: 6 }), (voids) => {
        const isMaterial = materialOf(body, voids);
        for (const w of wallsOf(body, voids, 4, isMaterial).walls) {
          const at = (t: number) => w.at[0].map((x, i) => x + (w.at[1][i as 0] - x) * t) as unknown as Vec3;
          for (const t of [0.03, 0.1, 0.33, 0.5, 0.77, 0.97]) {
            // a cut that only grazes the line takes nothing away
            const grazed = isMaterial(at(t - 0.029)) && isMaterial(at(t + 0.029));
            assert.ok(isMaterial(at(t)) || grazed, `${t} of ${JSON.stringify(w.at)}`);
          }
          const off = pointApart(w.at[0], w.a, 1)?.mm ?? 1;
          // to the coarser of the two tolerances of solidsApart
          assert.ok(off < 1e-3, `starts ${off} beside the surface`);
        }
      }),
      { seed: 44, numRuns: 60, endOnFailure: true },
    );
  });

  it('order, work done before, and a larger limit first change nothing', () => {
    fc.assert(
      fc.property(fc.array(cutInto, { minLength: 2, maxLength: 6 }), number(0.5, 4), (voids, below) => {
        const copy = () => voids.map((v) => ({ ...v }));
        const of = (list: readonly Void[], limit: number) =>
          plain(wallsOf(body, list, limit, materialOf(body, list)).walls);
        const first = copy();
        const expected = of(first, below);
        assert.deepEqual(of(first, below), expected);
        assert.deepEqual(of([...copy()].reverse(), below), expected);
        const wide = copy();
        of(wide, below + 2);
        assert.deepEqual(thicknesses(of(wide, below)), thicknesses(expected));
        // one cut away and back again
        of(first.slice(1), below);
        assert.deepEqual(of(first, below), expected);
        // one changed: as if all were new
        const changed = [{ ...first[0]!, to: first[0]!.to * 0.7 }, ...first.slice(1)];
        const moved = changed.map((v) => ({ ...v }));
        assert.deepEqual(of(changed, below), of(moved, below));
      }),
      { seed: 45, numRuns: 60, endOnFailure: true },
    );
  });
});

const thicknesses = (rows: ReturnType<typeof plain>) =>
  rows.map((r) => [r[0], r[1], Number((r[2] as number).toFixed(6)), r[5]]);

/** Where the nearest line of two cuts runs outside the block, or through one of them, the wall is elsewhere. */
function leavesBlock(a: Void, b: Void): boolean {
  const nearest = solidsApart(a, b, 6);
  if (!nearest || nearest.mm === 0) return true;
  const isMaterial = materialOf(body, [a, b]);
  return [0.02, 0.5, 0.98].some((t) => {
    return !isMaterial(nearest.p.map((x, i) => x + (nearest.q[i as 0] - x) * t) as unknown as Vec3);
  });
}
