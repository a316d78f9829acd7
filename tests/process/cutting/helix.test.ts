/**
 * Forces of helical cutters against a sum over small pieces that shares no code with ours, against closed forms, and
 * against what a straight tooth takes.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { meanChip } from '../../../server/src/process/cutting/chip';
import { pushOf, wallPush } from '../../../server/src/process/cutting/helix';
import { KIENZLE_ROWS } from '../../../server/src/tables/cutting.data';
import { summed } from './summed';

const near = (actual: number, expected: number, share: number, what = '') =>
  assert.ok(
    Math.abs(actual - expected) <= share * Math.abs(expected) + 1e-9,
    `${what} ${actual}, expected ${expected}`,
  );

const cuts = fc.record({
  diameterMm: fc.double({ min: 2, max: 25, noNaN: true }),
  teeth: fc.integer({ min: 1, max: 6 }),
  width: fc.double({ min: 0.01, max: 1, noNaN: true }),
  depth: fc.double({ min: 0.05, max: 3, noNaN: true }),
  helixDeg: fc.double({ min: 5, max: 60, noNaN: true }),
  mc: fc.double({ min: 0.1, max: 0.4, noNaN: true }),
});

describe('forces along a helix', () => {
  it('equal a sum over small pieces, for drawn cuts', () => {
    fc.assert(
      fc.property(cuts, ({ diameterMm, teeth, width, depth, helixDeg, mc }) => {
        const cut = { diameterMm, teeth, helixDeg, aeMm: width * diameterMm, apMm: depth * diameterMm };
        const [ours, theirs] = [pushOf(cut, mc, 0.5), summed(cut, mc, 0.5)];
        near(ours.resultant, theirs.resultant, 0.005, 'resultant');
        near(ours.tangential, theirs.tangential, 0.005, 'tangential');
        near(ours.normal, theirs.normal, 0.005, 'normal');
        near(ours.axial, theirs.tangential * Math.tan((helixDeg / 180) * Math.PI), 0.005, 'axial');
      }),
      { numRuns: 15, seed: 1957 },
    );
  });

  it('of aluminium by kc1.1 700 and mc 0.25 at 35° are the worked figures: 70, 89 and 584 N where a straight tooth gives 269, 1089 and 675', () => {
    const force = (feed: number, aeMm: number, apMm: number, helixDeg: number) =>
      700 * feed ** 0.75 * pushOf({ diameterMm: 10, teeth: 3, aeMm, apMm, helixDeg }, 0.25, 0.5).resultant;
    near(force(0.116, 0.2, 4.5, 35), 70, 0.01);
    near(force(0.15, 0.2, 15, 35), 89, 0.02);
    near(force(0.098, 4, 5, 35), 584, 0.01);
    near(force(0.116, 0.2, 4.5, 0), 269, 0.01);
    near(force(0.15, 0.2, 15, 0), 1089, 0.01);
    near(force(0.098, 4, 5, 0), 675, 0.01);
  });

  it('of a straight tooth are those of its thickest chip; a slight helix comes to the same', () => {
    for (const width of [0.05, 0.3, 0.5, 1]) {
      const cut = { diameterMm: 12, teeth: 1, aeMm: 12 * width, apMm: 6, helixDeg: 0 };
      const thick = width >= 0.5 ? 1 : Math.sin(Math.acos(1 - 2 * width));
      near(pushOf(cut, 0.25, 0.5).tangential, 6 * thick ** 0.75, 1e-6);
      near(pushOf(cut, 0.25, 0.5).resultant, 6 * thick ** 0.75 * Math.hypot(1, 0.5), 1e-6);
      near(pushOf({ ...cut, helixDeg: 0.01 }, 0.25, 0.5).resultant, pushOf(cut, 0.25, 0.5).resultant, 0.005);
    }
  });

  it('are steady where the axial pitch divides the depth: all of a turn is in the cut at once', () => {
    // Depth = a whole number of axial pitches π D / (z tan β): the sum does not change as the cutter turns.
    const [diameterMm, teeth, helixDeg] = [10, 4, 45];
    const apMm = (Math.PI * diameterMm) / teeth;
    const cut = { diameterMm, teeth, helixDeg, aeMm: 1, apMm };
    const exit = Math.acos(1 - 0.2);
    let mean = 0;
    for (let i = 0; i < 20000; i++) mean += (Math.sin((exit * (i + 0.5)) / 20000) ** 0.8 * exit) / 20000;
    near(pushOf(cut, 0.2, 0.5).tangential, (mean * diameterMm) / 2, 1e-3);
  });

  it('power from the mean chip is never less than the sum along the edges, and at most a twentieth more', () => {
    for (const { mc } of Object.values(KIENZLE_ROWS))
      for (const width of [0.005, 0.05, 0.3, 0.5, 0.8, 1]) {
        const exit = Math.acos(1 - 2 * width);
        let sum = 0;
        for (let i = 0; i < 20_000; i++) sum += (Math.sin((exit * (i + 0.5)) / 20_000) ** (1 - mc) * exit) / 20_000;
        const ratio = (exit * meanChip(1, width, 1) ** (1 - mc)) / sum;
        assert.ok(ratio > 1 - 1e-6 && ratio < 1.05, `${ratio} at mc ${mc}, ${width} of the diameter`);
      }
  });

  it('a wall feels at its top no more than the force square to it, all of it where the edge is short, and less of what passes further down', () => {
    const cut = { diameterMm: 10, teeth: 3, aeMm: 0.2, apMm: 18, helixDeg: 35 };
    // One tooth, so that nothing else is in the cut meanwhile: its edge is 2 mm high there.
    const { normal } = pushOf({ ...cut, teeth: 1 }, 0.25, 0.5);
    const top = wallPush(cut, 18, 0.25, 0.5);
    assert.ok(top < normal && top > 0.9 * normal, `${top} of ${normal}`);
    // A pass of a millimetre at the top of the wall pushes there.
    const short = { ...cut, apMm: 1 };
    near(wallPush(short, 18, 0.25, 0.5), 0.958 * pushOf(short, 0.25, 0.5).normal, 0.02); // (17.5 / 18)² (3 − 17.5 / 18) / 2
    // Straight teeth push all along: 3/8 of it counts at the end, as of an even load on a cantilever.
    const straight = { ...cut, helixDeg: 0 };
    near(wallPush(straight, 18, 0.25, 0.5), pushOf(straight, 0.25, 0.5).normal * (3 / 8), 0.03);
  });
});
