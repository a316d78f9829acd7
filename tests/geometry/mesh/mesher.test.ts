/** Pieces and meshes over many edits: the same as of a part that was never seen before, and no memory left behind. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { shown } from '../../../server/src/geometry/mesh/display';
import { Mesher } from '../../../server/src/geometry/mesh/mesher';
import { Pieces } from '../../../server/src/geometry/mesh/pieces';
import { together } from '../../../server/src/geometry/mesh/together';
import { solidOf } from '../../../server/src/geometry/part-solid';
import type { Feature } from '../../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  contour,
  corner,
  deep,
  hole,
  part,
  pocket,
  rectangle,
  slot,
  THROUGH,
  withFeatures,
} from '../parts';
import { assertClosed, kernel, volumeOf } from './proof';

const WIDE = 120;
const HIGH = 80;

/** A hole, pocket or slot somewhere on a plate; neighbours often overlap. */
const anyFeature: fc.Arbitrary<Feature> = fc
  .record({
    kind: fc.integer({ min: 0, max: 5 }),
    u: fc.integer({ min: 5, max: WIDE - 5 }),
    v: fc.integer({ min: 5, max: HIGH - 5 }),
    size: fc.integer({ min: 3, max: 14 }),
    depth: fc.integer({ min: 1, max: 12 }),
  })
  .map(({ kind, u, v, size, depth }): Feature => {
    const places = [at(u, v)];
    switch (kind) {
      case 0:
        return hole({ places, diameter: size, depth: THROUGH });
      case 1:
        return hole({ places, diameter: size, depth: deep(depth), bottom: 'cone', countersink: [size + 3, 90] });
      case 2:
        return pocket({ places, shape: rectangle(2 * size, size, 1), depth: deep(depth) });
      case 3:
        return pocket({ places, shape: circle(size), depth: deep(depth), floorRadius: 1 });
      case 4:
        return slot({ places, line: [corner(0, 0), corner(size, size)], width: 4, depth: deep(depth) });
      default:
        return hole({ face: 'front', places: [at(u, 7)], diameter: 4, depth: deep(3 * depth) });
    }
  });

describe('the mesher', () => {
  it('after any edits is what it would be from nothing', async () => {
    const k = await kernel();
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyFeature, { minLength: 3, maxLength: 20 }),
        fc.array(fc.record({ which: fc.nat(), by: anyFeature, drop: fc.boolean() }), { minLength: 1, maxLength: 6 }),
        fc.boolean(),
        async (first, edits, cutRound) => {
          const frame: Feature[] = cutRound
            ? [
                contour({
                  places: [at(WIDE / 2, HIGH / 2)],
                  shapes: [rectangle(WIDE - 8, HIGH - 8, 6)],
                  depth: deep(9),
                }),
                chamfer({ edges: ['top'], size: 0.5 }),
              ]
            : [];
          let p = part(box(WIDE, HIGH, 16), ...frame, ...first);
          const shape = solidOf(p).body;
          const kept = { pieces: new Pieces(k, { chordMm: 0.1 }), mesher: new Mesher(k, { chordMm: 0.1 }) };
          let features = [...first];
          for (let i = -1; i < edits.length; i++) {
            const edit = edits[i];
            if (edit) {
              const n = edit.which % (features.length + 1);
              features = features.flatMap((f, j) => (j === n ? (edit.drop ? [] : [edit.by]) : [f]));
              if (n === features.length && !edit.drop) features.push(edit.by);
              p = withFeatures(p, [...frame, ...features]);
            }
            const { voids } = solidOf(p);
            const fresh = new Pieces(k, { chordMm: 0.1 });
            const [pieces, again] = [kept.pieces.build(shape, voids), fresh.build(shape, voids)];
            assert.ok(pieces?.isPieced && again);
            const all = together(pieces.pieces);
            assert.deepEqual(all, together(again.pieces), 'number for number');
            assertClosed(all);
            const built = kept.mesher.build(shape, voids);
            assert.ok(built);
            assert.equal(built.handle.status(), 'NoError');
            if (i === edits.length - 1) assertClosed(shown(built));
            const [a, b] = [volumeOf(all), built.handle.volume()];
            assert.ok(Math.abs(a - b) < 1e-5 * b, `${a} in pieces, ${b} as a whole`);
            fresh.dispose();
          }
          kept.pieces.dispose();
          kept.mesher.dispose();
        },
      ),
      { numRuns: 8, seed: 20 },
    );
  });

  it('leaves no memory behind over 500 edits', async () => {
    const k = await kernel();
    const features = Array.from({ length: 30 }, (_, i) =>
      pocket({
        places: [at(10 + (i % 10) * 11, 12 + Math.floor(i / 10) * 26)],
        shape: rectangle(8, 18, 2),
        depth: deep(5),
      }),
    );
    let p = part(box(WIDE, HIGH, 16), ...features);
    const { body } = solidOf(p);
    const pieces = new Pieces(k, { chordMm: 0.1 });
    const edit = (i: number) => {
      const changed = pocket({ places: [at(43, 38)], shape: rectangle(8, 18, 2), depth: deep(4 + (i % 9) / 4) });
      p = withFeatures(p, [...features.slice(0, 13), changed, ...features.slice(14)]);
      assert.ok(pieces.build(body, solidOf(p).voids));
    };
    for (let i = 0; i < 100; i++) edit(i);
    const before = k.memoryBytes();
    assert.ok(before > 1e6);
    for (let i = 0; i < 400; i++) edit(i);
    assert.equal(k.memoryBytes(), before);
    pieces.dispose();
  });
});
