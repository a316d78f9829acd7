/** Cuts that go only so far down in their set-up, and faces cut over the finished body: volumes worked out by hand. */
import assert from 'node:assert/strict';
import { solidOf, solidOfVolumes } from '../../../server/src/geometry/part-solid';
import { resolvePart } from '../../../server/src/model/part';
import { boxLeft, timelineOf, type Workpiece } from '../../../server/src/process/stock';
import { readText } from '../../../server/src/text/read';
import { make } from '../parts';

const volume = (w: Workpiece) => solidOfVolumes(w).measures.volumeMm3;
const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-6 * Math.max(1, Math.abs(b)), `${a} is not ${b}`);
const taken = (setups: ReturnType<typeof timelineOf>['setups']) =>
  setups.map((s) => volume(s.before) - volume(s.after));

const BODY = '{ x: 60, y: 40, z: 30 }';
const BORE = '  bore: { kind: pocket, face: top, at: { x: 30, y: 20 }, diameter: 12, depth: through }\n';
const AREA = Math.PI * 36;
const setups = (...each: readonly (readonly [up: string, cuts: string])[]) =>
  `setups:\n${each.map(([up, cuts], i) => `  s${i}: { up: ${up}, cuts: [${cuts}] }\n`).join('')}`;

describe('a cut that goes only so far down', () => {
  it('named alone with opposite faces up: each takes half and 1 mm beyond, together all of it', () => {
    const { part, solid } = make(BODY, BORE, setups(['top', 'bore'], ['bottom', 'bore']));
    const [first, second] = taken(timelineOf(part, solid).setups);
    near(first!, AREA * 16);
    near(second!, AREA * 14);
  });

  it('named alone once it is all of it, as it always was', () => {
    const { part, solid } = make(BODY, BORE, setups(['top', 'bore']));
    near(taken(timelineOf(part, solid).setups)[0]!, AREA * 30);
  });

  it('so many mm from the side that is up; what is named alone later is the rest', () => {
    const { part, solid } = make(BODY, BORE, setups(['bottom', '{ cut: bore, depth: 11 }'], ['top', 'bore']));
    const { setups: all, unassigned } = timelineOf(part, solid);
    const [first, second] = taken(all);
    near(first!, AREA * 11);
    near(second!, AREA * 19);
    assert.deepEqual(unassigned, []);
  });

  it('what no set-up takes the rest of is told as not cut', () => {
    const { part, solid } = make(BODY, BORE, setups(['top', '{ cut: bore, depth: 29 }']));
    assert.deepEqual(
      timelineOf(part, solid).unassigned.map((u) => (typeof u === 'string' ? u : u.name)),
      ['bore'],
    );
  });

  it('stock outside the mouth comes off with it and counts for nothing', () => {
    const stock = 'stock: { form: block, extra: { top: 2 } }\n';
    const { part, solid } = make(BODY, BORE, stock + setups(['top', '{ cut: bore, depth: half }']));
    near(taken(timelineOf(part, solid).setups)[0]!, AREA * 18);
  });

  it('a tapering mouth is cut off at its own width', () => {
    const hole =
      '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: through, countersink: { diameter: 14, angle: 90 } }\n';
    const { part, solid } = make(BODY, hole, setups(['top', '{ cut: h, depth: 2 }']));
    // A frustum of 14 and 10 mm, 2 mm high.
    near(taken(timelineOf(part, solid).setups)[0]!, (Math.PI * 2 * (49 + 35 + 25)) / 3);
  });

  it('milled along its line: the outline is cut off', () => {
    const slot =
      '  way: { kind: slot, face: top, ends: [{ x: -5, y: 20 }, { x: 65, y: 20 }], width: 8, depth: 6, floor-radius: 0 }\n';
    const step = '  ledge: { kind: step, face: top, along: front, width: 10, depth: 12 }\n';
    const { part, solid } = make(BODY, slot + step, setups(['front', '{ cut: ledge, depth: 4 }']));
    near(taken(timelineOf(part, solid).setups)[0]!, 60 * 12 * 4);
  });
});

describe('a face cut with the side of a mill', () => {
  const stock =
    'stock: { form: block, sawn: [left, right, bottom], extra: { left: 2, right: 3, top: 1, bottom: 8 } }\n';

  it('is cut over the finished body: what is below holds the work, and goes with the face below', () => {
    const { part, solid } = make(BODY, BORE, stock + setups(['top', 'left, right'], ['bottom', 'bottom']));
    const { setups: all } = timelineOf(part, solid);
    near(taken(all)[0]!, 5 * 40 * 31);
    near(taken(all)[1]!, 65 * 40 * 8);
    assert.deepEqual(boxLeft(all[0]!.after), { min: [-2, 0, -8], max: [63, 40, 31] });
    assert.deepEqual(boxLeft(all[1]!.after), { min: [0, 0, 0], max: [60, 40, 31] });
  });

  it('from above it is cut across all of the stock', () => {
    const { part, solid } = make(BODY, BORE, stock + setups(['left', 'left']));
    near(taken(timelineOf(part, solid).setups)[0]!, 2 * 40 * 39);
  });

  it('named alone with opposite faces up it is cut half and half', () => {
    const { part, solid } = make(BODY, BORE, stock + setups(['top', 'left'], ['bottom', 'left, bottom']));
    const { setups: all } = timelineOf(part, solid);
    near(taken(all)[0]!, 2 * 40 * (1 + 16));
    assert.deepEqual(boxLeft(all[1]!.after), { min: [0, 0, 0], max: [63, 40, 31] });
  });
});

describe('an entry of `cuts` that says how far down', () => {
  const read = (cuts: string) =>
    resolvePart(readText(`part: block\nbody: ${BODY}\nfeatures:\n${BORE}setups:\n  one: { up: top, cuts: ${cuts} }\n`));

  it('is read beside names', () => {
    const { setups: all, problems } = read('[top, { cut: bore, depth: 12.5 }, { depth: half, cut: bore }]');
    assert.deepEqual(problems, []);
    assert.deepEqual(
      all![0]!.cuts.map(({ name, depth }) => [name, depth === undefined || depth === 'half' ? depth : depth.mm]),
      [
        ['top', undefined],
        ['bore', 12.5],
        ['bore', 'half'],
      ],
    );
  });

  it('is told what is wrong with it, where it stands', () => {
    for (const [cuts, says] of [
      ['[{ cut: bore }]', /needs `depth`/],
      ['[{ cut: boer, depth: half }]', /boer/],
      ['[{ cut: bore, depth: halve }]', /halve/],
      ['[{ cut: bore, depth: 0 }]', /more than 0/],
      ['[{ cut: bore, deep: 3 }]', /deep/],
    ] as const) {
      const { problems } = read(cuts);
      assert.ok(
        problems.length > 0 && problems.some((p) => says.test(p.message)),
        `${cuts}: ${problems.map((p) => p.message)}`,
      );
    }
  });

  it('a depth that cannot be read leaves the rest of the set-up as it is', () => {
    const part = read('[top, { cut: bore, depth: 1 kg }]');
    assert.deepEqual(
      part.setups![0]!.cuts.map((c) => c.name),
      ['top', 'bore'],
    );
    assert.ok(solidOf(part).voids.length > 0);
  });
});
