/** Screws in slots and in leaning holes: a slot takes up what lies along it, a leaning hole is measured along its axis. */
import assert from 'node:assert/strict';
import { hole, judged, plate, says } from './job';

const slot = (name: string, x: number, y: number, half: number, fields: string, along = 'x') => {
  const [dx, dy] = along === 'x' ? [half, 0] : [0, half];
  return `  ${name}: { kind: slot, face: top, ends: [{ x: ${x - dx}, y: ${y - dy} }, { x: ${x + dx}, y: ${y + dy} }], ${fields} }\n`;
};
const TUB = (places: readonly (readonly [number, number])[]) =>
  plate(hole('screws', places, 'thread: M5, depth: 25, thread-depth: 18'), { size: '{ x: 100, y: 60, z: 30 }' });
const JOINT = '  j: { screw: M5x20, through: [lid.round, lid.long], into: tub.screws }';
const round = hole('round', [[10, 30]], 'clearance: M5, depth: through');
const lid = (long: string) => plate(round + long);
const SLOT = 'width: 5.5, depth: through';

describe('a slot that a screw goes through', () => {
  it('takes up what lies along it, as far as it reaches', () => {
    const parts = (x: number, y = 30) => ({
      lid: lid(slot('long', 80, 30, 3, SLOT)),
      tub: TUB([
        [10, 30],
        [x, y],
      ]),
    });
    for (const x of [77, 80, 82, 83]) assert.deepEqual(judged(parts(x), JOINT), [], `${x}`);
    assert.deepEqual(says(judged(parts(84), JOINT)), ['error joint/pattern']);
    // Two holes can always be turned into one line: across the slot nothing is off.
    assert.deepEqual(judged(parts(80, 33), JOINT), []);
  });

  it('takes up nothing across', () => {
    const three = (y: number) => ({
      lid: plate(round + hole('other', [[10, 50]], 'clearance: M5, depth: through') + slot('long', 80, 30, 3, SLOT)),
      tub: TUB([
        [10, 30],
        [10, 50],
        [82, y],
      ]),
    });
    const joint = JOINT.replace('[lid.round,', '[lid.round, lid.other,');
    assert.deepEqual(judged(three(30), joint), []);
    const [found] = judged(three(31), joint);
    // Turned about the first hole until the slot meets its screw: the hole 20 mm from it is off by 20 / 72, as little as may be.
    assert.deepEqual([found?.rule, found?.facts.off_mm], ['joint/pattern', 0.278]);
  });

  it('is as wide as the screw needs, comes out, and is no thread', () => {
    const parts = (fields: string) => ({
      lid: lid(slot('long', 80, 30, 3, fields)),
      tub: TUB([
        [10, 30],
        [80, 30],
      ]),
    });
    assert.match(judged(parts('width: 4.8, depth: through'), JOINT)[0]!.message, /does not go through.*5\.5 mm wide/);
    assert.match(judged(parts('width: 5.5, depth: 6'), JOINT)[0]!.message, /does not come out/);
    assert.match(judged(parts('width: 8, depth: through'), JOINT)[0]!.message, /widest clearance hole.*5\.5 mm wide/);
    const tee = parts('width: 5.5, depth: 8, tee: { width: 10, height: 3 }');
    assert.match(judged(tee, JOINT)[0]!.message, /needs a hole or a straight slot/);
    const turned = '  j: { screw: M5x20, through: tub.screws, into: lid.long }';
    assert.match(judged(parts(SLOT), turned)[0]!.message, /needs a hole\./);
  });

  it('grips as much as it is deep, less what lies above', () => {
    const parts = {
      lid: lid(slot('long', 80, 30, 3, SLOT)),
      tub: TUB([
        [10, 30],
        [80, 30],
      ]),
    };
    const [found] = judged(parts, JOINT.replace('x20', 'x30'));
    assert.deepEqual([found?.facts.grip_mm, found?.facts.past_mm], [10, 2]);
  });
});

describe('a leaning hole', () => {
  const leaning = (fields: string, places: readonly (readonly [number, number])[], deg = 30) =>
    hole('screws', places, `${fields}, tilt: { about: y, angle: ${deg} }`);
  const TWO = [
    [40, 15],
    [40, 45],
  ] as const;
  const parts = (deg = 30, more = '', places: readonly (readonly [number, number])[] = TWO) => ({
    lid: plate(leaning(`clearance: M5, depth: through${more}`, TWO, deg)),
    tub: plate(leaning('thread: M5, depth: 25, thread-depth: 18', places, deg), { size: '{ x: 100, y: 60, z: 40 }' }),
  });
  const screw = (text: string) => `  j: { screw: ${text}, through: lid.screws, into: tub.screws }`;

  it('is gripped along its axis: 10 mm of plate at 30° are 11.547', () => {
    const [found] = judged(parts(), screw('M5x35')).filter((f) => f.rule === 'joint/length');
    assert.equal(found?.facts.grip_mm, Number((10 / Math.cos(Math.PI / 6)).toFixed(3)));
    assert.equal(found?.severity, 'error');
    assert.deepEqual(says(judged(parts(), screw('M5x25'))), ['warning joint/head']);
  });

  it('its pattern is seen along the axis: across the lean holes are nearer by its cosine', () => {
    const far = (x: number) =>
      [
        [40, 30],
        [x, 30],
      ] as const;
    const of = (a: number, b: number, deg: readonly [number, number]) => ({
      lid: plate(leaning('clearance: M5, depth: through, counterbore: { diameter: 10, depth: 2 }', far(a), deg[0])),
      tub: plate(leaning('thread: M5, depth: 25, thread-depth: 18', far(b), deg[1]), {
        size: '{ x: 100, y: 60, z: 40 }',
      }),
    });
    const patterns = (p: Readonly<Record<string, string>>) =>
      judged(p, screw('M5x25')).filter((f) => f.rule === 'joint/pattern');
    assert.deepEqual(patterns(of(70, 70, [30, 30])), []);
    const [off] = patterns(of(70, 72, [30, 30]));
    assert.equal(off?.facts.off_mm, Number((2 * Math.cos(Math.PI / 6)).toFixed(3)));
    // An upright pattern of 30 · cos 30° meets a leaning one of 30.
    assert.deepEqual(patterns(of(70, 40 + 30 * Math.cos(Math.PI / 6), [30, 0])), []);
  });

  it('the head needs a flat or a counterbore', () => {
    const [found] = judged(parts(), screw('M5x25'));
    assert.deepEqual([found?.rule, found?.facts.lean_deg], ['joint/head', 30]);
    const sunk = parts(30, ', counterbore: { diameter: 10, depth: 8 }');
    assert.deepEqual(
      judged(sunk, screw('M5x20')).filter((f) => f.rule === 'joint/head' && f.severity !== 'hint'),
      [],
    );
  });

  it('holes of one joint lean alike', () => {
    const mixed = {
      ...parts(),
      lid: plate(
        hole('upright', [[40, 15]], 'clearance: M5, depth: through') +
          leaning('clearance: M5, depth: through', [[40, 45]]),
      ),
    };
    const two = screw('M5x25').replace('lid.screws', '[lid.upright, lid.screws]');
    assert.match(judged(mixed, two)[0]!.message, /tilted 30° about y, the others of lid along z\. Make two joints/);
  });
});

describe('a nut that is let in', () => {
  const FOUR = [
    [20, 20],
    [80, 20],
  ] as const;
  /** A plate of 16 mm; the nut's pocket, 6 deep, is on its bottom, about each hole. */
  const block = (size: string, corner: number, at: readonly (readonly [number, number])[] = FOUR) =>
    plate(
      hole('screws', FOUR, 'clearance: M5, depth: through') +
        at
          .map(
            ([x, y], i) =>
              `  nest-${i}: { kind: pocket, face: bottom, at: { x: ${x}, y: ${y} }, size: ${size}, corner-radius: ${corner}, depth: 6 }\n`,
          )
          .join(''),
      { size: '{ x: 100, y: 60, z: 16 }' },
    );
  const lid = plate(hole('screws', FOUR, 'clearance: M5, depth: through'));
  const joint = (screw: string, inn: string, n = '') =>
    `  j: { screw: ${screw}, through: [lid.screws${n}, block.screws${n}], nut: ISO 4032, nut-in: ${inn} }`;
  const one = (screw: string, inn = 'block.nest-0') =>
    joint(screw, inn).replace('lid.screws', '"lid.screws[1]"').replace('block.screws', '"block.screws[1]"');
  // ISO 4032 M5: 8 mm across flats, 9.238 across corners at most; 8.79 across corners at least; from memory.
  it('goes in where its flats do, and is held there', () => {
    assert.deepEqual(judged({ lid, block: block('{ x: 8.2, y: 12 }', 1.5) }, one('M5x30')), []);
    const [tight] = judged({ lid, block: block('{ x: 7.6, y: 12 }', 1.5) }, one('M5x30'));
    assert.deepEqual([tight?.rule, tight?.severity, tight?.facts.inside_mm], ['joint/nut', 'error', -0.2]);
    const [loose] = judged({ lid, block: block('{ x: 9, y: 12 }', 1.5) }, one('M5x30'));
    assert.deepEqual([loose?.rule, loose?.severity], ['joint/nut', 'warning']);
    const [round] = judged({ lid, block: block('{ x: 9.2, y: 9.2 }', 4.5) }, one('M5x30'));
    assert.equal(round?.rule, 'joint/nut');
  });

  it('sits on the floor of its pocket: 10 mm of lid and 10 of block are gripped', () => {
    const parts = { lid, block: block('{ x: 8.2, y: 12 }', 1.5) };
    const [short] = judged(parts, one('M5x20')).filter((f) => f.rule === 'joint/length');
    assert.equal(short?.facts.grip_mm, 20);
    assert.match(short!.message, /Use ISO 4762 M5 × 30/);
  });

  it('is about its screw, in the last part', () => {
    const parts = { lid, block: block('{ x: 8.2, y: 12 }', 1.5, [[50, 40]]) };
    assert.match(judged(parts, one('M5x30'))[0]!.message, /not about the screw/);
    const turned =
      '  j: { screw: M5x30, through: ["block.screws[1]", "lid.screws[1]"], nut: ISO 4032, nut-in: block.nest-0 }';
    assert.match(judged({ lid, block: block('{ x: 8.2, y: 12 }', 1.5) }, turned)[0]!.message, /Name one of lid/);
    const none = '  j: { screw: M5x20, through: lid.screws, into: block.screws, nut-in: block.nest-0 }';
    assert.match(judged({ lid, block: block('{ x: 8.2, y: 12 }', 1.5) }, none)[0]!.message, /there is none/);
    assert.match(judged(parts, one('M5x30', 'block.screws'))[0]!.message, /needs a pocket or slot/);
  });

  /** A slot from the left side, across the screw at x 20: as wide as `wide`, as high as `high`, so deep. */
  const sided = (wide: number, high: number, depth: number) =>
    plate(
      hole('screws', FOUR, 'clearance: M5, depth: through') +
        `  trap: { kind: pocket, face: left, at: { y: 20, z: 8 }, size: { y: ${wide}, z: ${high} }, corner-radius: 1, depth: ${depth} }\n`,
      { size: '{ x: 100, y: 60, z: 16 }' },
    );
  // ISO 4032 M5: 4.7 mm high at most, from memory; half its corners, 4.62 mm, lie behind the screw.
  it('is pushed in from the side: wide, high and deep enough, and not to be turned', () => {
    const only = (wide: number, high: number, depth: number) =>
      judged({ lid, block: sided(wide, high, depth) }, one('M5x30', 'block.trap')).filter(
        (f) => f.rule === 'joint/nut',
      );
    // Corners of 1 mm take nothing off where it is a millimetre higher.
    assert.deepEqual(only(8.2, 7, 25), []);
    assert.match(
      only(7.5, 7, 25)[0]!.message,
      /flats of 8 mm and is 4\.7 mm high, and block\.trap is 0\.5 mm too narrow/,
    );
    assert.match(only(8.2, 4.5, 25)[0]!.message, /too narrow/);
    assert.deepEqual(only(8.2, 7, 24.7), []);
    assert.match(only(8.2, 7, 24)[0]!.message, /ends 4 mm behind the screw, and half the nut of M5 is 4\.62 mm/);
    assert.deepEqual(says(only(9.5, 7, 25)), ['warning joint/nut']);
  });
});
