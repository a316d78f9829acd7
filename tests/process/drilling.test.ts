/** A hole as its drill meets it: lengths in material, entries, open sides, crossings. */
import assert from 'node:assert/strict';
import { boreSize } from '../../server/src/process/bore-size';
import { crossedBores, entryOf, sideOpenings } from '../../server/src/process/drill-path';
import { boresOf } from '../../server/src/process/drilling';
import { make } from './parts';

const BODY = '{ x: 60, y: 40, z: 30 }';
const bores = (features: string, name = 'h', body = BODY, tail = '') => {
  const made = make(body, features, tail);
  return { ...made, bores: boresOf(made.feature(name, 'hole'), made.part, made.solid) };
};
const close = (a: number, b: number, tolerance = 1e-6) => assert.ok(Math.abs(a - b) <= tolerance, `${a} is not ${b}`);

describe('bores', () => {
  it('a blind hole: from its face to its depth, and its point', () => {
    const [b] = bores('  h: { kind: hole, face: front, at: { x: 30, z: 15 }, diameter: 6, depth: 12 }\n').bores;
    assert.equal(b!.face, 'front');
    close(b!.drilledMm, 12);
    close(b!.spanMm, 12);
    close(b!.endMm, 12);
    close(b!.pointMm, 3 / Math.tan((59 * Math.PI) / 180));
  });

  it('a through hole in a fork: less in material than it spans', () => {
    const [b] = bores(
      '  gap: { kind: slot, face: top, ends: [{ x: 30, y: -9 }, { x: 30, y: 49 }], width: 20, depth: 24 }\n  h: { kind: hole, face: left, at: { y: 20, z: 20 }, diameter: 6, depth: through }\n',
    ).bores;
    close(b!.drilledMm, 40);
    close(b!.spanMm, 60);
    assert.deepEqual(b!.faces, ['left', 'right']);
    assert.equal(b!.pointMm, 0);
  });

  it('one for each member, seen from the face that its set-up turns up', () => {
    const made = bores(
      '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: through, pattern: { line: { x: 20, count: 3 } } }\n',
      'h',
      BODY,
      'setups:\n  a: { up: bottom, cuts: [h] }\n',
    );
    assert.equal(made.bores.length, 3);
    assert.deepEqual(
      made.bores.map((b) => b.face),
      ['bottom', 'bottom', 'bottom'],
    );
    assert.deepEqual(
      made.bores.map((b) => b.of.member),
      [1, 2, 3],
    );
  });

  it('a leaning hole has none: no face looks along it', () => {
    assert.deepEqual(
      bores(
        '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 9, tilt: { about: x, angle: 9 } }\n',
      ).bores,
      [],
    );
  });
});

describe('entries', () => {
  it('a flat one falls by nothing, one on a slope by its tangent', () => {
    const { bores: found, solid } = bores(
      '  ramp: { kind: slope, face: top, along: right, angle: 12, width: 30 }\n  h: { kind: hole, face: top, at: { x: 45, y: 20 }, diameter: 6, depth: 20 }\n  flat: { kind: hole, face: top, at: { x: 12, y: 20 }, diameter: 6, depth: 20 }\n',
    );
    const entry = entryOf(found[0]!, solid);
    close(entry.slopeDeg, 12, 1e-3);
    assert.equal(entry.inAir, 0);
    const flat = boresOf(
      make(BODY, '  h: { kind: hole, face: top, at: { x: 12, y: 20 }, diameter: 6, depth: 20 }\n').feature('h', 'hole'),
      ...flatPart(),
    );
    assert.equal(entryOf(flat[0]!, flatPart()[1]).fallMm, 0);
  });

  it('from the far side, as it is there', () => {
    const { bores: found, solid } = bores(
      '  ledge: { kind: step, face: bottom, along: right, width: 20, depth: 5 }\n  h: { kind: hole, face: top, at: { x: 40, y: 20 }, diameter: 6, depth: through }\n',
    );
    assert.equal(entryOf(found[0]!, solid).fallMm, 0);
    close(entryOf(found[0]!, solid, 'bottom').fallMm, 5);
  });
});

function flatPart() {
  const made = make(BODY, '  h: { kind: hole, face: top, at: { x: 12, y: 20 }, diameter: 6, depth: 20 }\n');
  return [made.part, made.solid] as const;
}

describe('open sides', () => {
  it('through a face: how far and how long', () => {
    const { bores: found } = bores('  h: { kind: hole, face: top, at: { x: 30, y: 2 }, diameter: 6, depth: 20 }\n');
    const [o] = sideOpenings(found[0]!);
    assert.equal(o!.to, undefined);
    close(o!.lengthMm, 20);
    close(o!.beyondMm, 1, 0.01);
  });

  it('none where the hole only touches, nor at a slanting entry', () => {
    const touch = bores('  h: { kind: hole, face: top, at: { x: 30, y: 3 }, diameter: 6, depth: 20 }\n');
    assert.deepEqual(sideOpenings(touch.bores[0]!), []);
    const slope = bores(
      '  ramp: { kind: slope, face: top, along: right, angle: 12, width: 30 }\n  h: { kind: hole, face: top, at: { x: 45, y: 20 }, diameter: 6, depth: 20 }\n',
    );
    assert.deepEqual(sideOpenings(slope.bores[0]!), []);
  });

  it('into a pocket beside it, by name', () => {
    const made = bores(
      '  well: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 12 }\n  h: { kind: hole, face: top, at: { x: 31, y: 20 }, diameter: 6, depth: 20 }\n',
    );
    const [o] = sideOpenings(made.bores[0]!);
    assert.equal(o!.to?.feature, 'well');
    close(o!.lengthMm, 12);
  });

  it('bores that cross are told apart, also when their axes meet', () => {
    for (const y of [20, 22, 24.5]) {
      const made = bores(
        `  gallery: { kind: hole, face: left, at: { y: 20, z: 15 }, diameter: 8, depth: 50 }\n  h: { kind: hole, face: top, at: { x: 30, y: ${y} }, diameter: 6, depth: 25 }\n`,
      );
      assert.deepEqual(
        crossedBores(made.bores[0]!).map((v) => v.feature),
        ['gallery'],
        `${y}`,
      );
      assert.deepEqual(sideOpenings(made.bores[0]!), [], `${y}`);
    }
    const apart = bores(
      '  gallery: { kind: hole, face: left, at: { y: 20, z: 15 }, diameter: 8, depth: 50 }\n  h: { kind: hole, face: top, at: { x: 30, y: 28 }, diameter: 6, depth: 25 }\n',
    );
    assert.deepEqual(crossedBores(apart.bores[0]!), []);
  });
});

describe('good diameters', () => {
  const size = (diameter: string, tail = '') => {
    const { part, feature } = make(
      BODY,
      `  h: { kind: hole, face: top, at: { x: 30, y: 20 }, ${diameter}, depth: 9 }\n`,
      tail,
    );
    return boreSize(feature('h', 'hole'), part, 0.1);
  };

  it('by the tolerance of the hole', () => {
    assert.deepEqual(size('diameter: 6 ±0.03'), { nominalMm: 6, fromMm: 5.97, toMm: 6.03 });
    const h7 = size('diameter: 6 H7'); // ISO 286: 0 to + 12 µm
    close(h7.fromMm, 6);
    close(h7.toMm, 6.012);
  });

  it('by the part’s general tolerance, else by what is handed in', () => {
    // ISO 2768-1: m ± 0.1 for 3 to 6, ± 0.2 for 6 to 30; f ± 0.05 and ± 0.1.
    close(size('diameter: 5', 'tolerance: ISO 2768-m\n').toMm, 5.1);
    close(size('diameter: 8', 'tolerance: ISO 2768-m\n').toMm, 8.2);
    close(size('diameter: 8', 'tolerance: ISO 2768-f\n').toMm, 8.1);
    close(size('diameter: 8').toMm, 8.1);
  });

  it('by what a thread bears: 55 to 85 % of its height', () => {
    const m5 = size('thread: M5');
    close(m5.fromMm, 5 - 0.85 * 1.299038 * 0.8);
    close(m5.toMm, 5 - 0.55 * 1.299038 * 0.8);
  });
});
