/** The workpiece cut by cut, on parts worked out by hand. */
import assert from 'node:assert/strict';
import { regionMoments } from '../../../server/src/geometry/2d/moments';
import { solidOf, solidOfVolumes } from '../../../server/src/geometry/part-solid';
import { resolvePart } from '../../../server/src/model/part';
import { boxLeft, crossOf, isMaterial, timelineOf } from '../../../server/src/process/stock';
import { readText } from '../../../server/src/text/read';
import { make } from '../parts';

const STOCK =
  'stock: { form: block, sawn: [left, right], extra: { left: 2, right: 3, top: 1.5, bottom: 1, front: 0.5, back: 0.5 } }\n';
const volume = (w: Parameters<typeof solidOfVolumes>[0]) => solidOfVolumes(w).measures.volumeMm3;
const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-6 * Math.max(1, Math.abs(b)), `${a} is not ${b}`);

describe('the workpiece in time', () => {
  it('begins as the body grown by what is left on each face', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 16 }',
      '  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: 5 }\n',
      STOCK,
    );
    const { stock } = timelineOf(part, solid);
    assert.deepEqual(stock.body.box, { min: [-2, -0.5, -1], max: [63, 40.5, 17.5] });
    near(volume(stock), 65 * 41 * 18.5);
  });

  it('a hole from an unfaced top starts at the surface of the stock, and facing takes the slab', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 16 }',
      '  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: 5, bottom: flat }\n',
      `${STOCK}setups:\n  one: { up: top, cuts: [a, top] }\n  two: { up: bottom, cuts: [bottom, left] }\n`,
    );
    const { setups, unassigned } = timelineOf(part, solid);
    const [a, top] = setups[0]!.cuts;
    near(volume(a!.before) - volume(a!.after), Math.PI * 4 * 6.5);
    near(volume(top!.before) - volume(top!.after), (65 * 41 - Math.PI * 4) * 1.5);
    assert.equal(setups[1]!.before, setups[0]!.after);
    assert.deepEqual(boxLeft(setups[1]!.after), { min: [0, -0.5, 0], max: [63, 40.5, 16] });
    assert.deepEqual(unassigned, ['right', 'front', 'back']);
  });

  it('a contour takes the excess beside it, but not what holds it below', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 16 }',
      '  rim: { kind: contour, face: top, path: [{ x: 5, y: 5 }, { x: 55, y: 5 }, { x: 55, y: 35 }, { x: 5, y: 35 }], depth: through }\n',
      `${STOCK}setups:\n  one: { up: top, cuts: [top, rim] }\n  two: { up: bottom, cuts: [bottom] }\n`,
    );
    const { setups, unassigned } = timelineOf(part, solid);
    near(volume(setups[0]!.after), 50 * 30 * 16 + 65 * 41 * 1);
    near(volume(setups[1]!.after), 50 * 30 * 16);
    assert.deepEqual(unassigned, []);
    assert.deepEqual(boxLeft(setups[1]!.after), { min: [5, 5, 0], max: [55, 35, 16] });
  });

  it('a rounded contour along the body’s own sides takes all that stands beside it, however wide', () => {
    for (const wide of [2, 10, 14, 25]) {
      const { part, solid } = make(
        '{ x: 60, y: 40, z: 16 }',
        '  rim: { kind: contour, face: top, path: [{ x: 0, y: 0, round: 6 }, { x: 60, y: 0, round: 6 }, { x: 60, y: 40, round: 6 }, { x: 0, y: 40, round: 6 }], depth: through }\n',
        `stock: { form: plate, extra: { left: ${wide}, right: ${wide}, front: ${wide}, back: ${wide} } }\nsetups:\n  one: { up: top, cuts: [rim] }\n`,
      );
      const { setups, unassigned } = timelineOf(part, solid);
      near(volume(setups[0]!.after), (60 * 40 - (4 - Math.PI) * 36) * 16);
      assert.deepEqual(unassigned, []);
      assert.deepEqual(boxLeft(setups[0]!.after), { min: [0, 0, 0], max: [60, 40, 16] });
    }
  });

  it('a step, an open slot and an open pocket run out through the excess, corners included', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 16 }',
      `  ledge: { kind: step, face: top, along: [left, front], widths: [10, 8], depth: 4 }
  way: { kind: slot, face: top, ends: [{ x: 0, y: 30 }, { x: 60, y: 30 }], width: 6, depth: 5 }
  bay: { kind: pocket, face: top, at: { x: 55, y: 15 }, size: { x: 20, y: 10 }, corner-radius: 2, depth: 3 }
`.replace('along: [left, front], widths: [10, 8]', 'along: [left, front], width: 10'),
      `${STOCK}setups:\n  one: { up: top, cuts: [top, ledge, way, bay] }\n`,
    );
    const { setups } = timelineOf(part, solid);
    const { after } = setups[0]!;
    // The corner step: 12 × 10.5 of the stock's own corner.
    assert.equal(isMaterial(after, [-1.9, -0.4, 15.9]), false);
    assert.equal(isMaterial(after, [-1.9, 20, 15.9]), true);
    assert.equal(isMaterial(after, [-1.9, 30, 11.5]), false);
    assert.equal(isMaterial(after, [62.9, 30, 11.5]), false);
    assert.equal(isMaterial(after, [62.9, 32.9, 11.5]), false);
    assert.equal(isMaterial(after, [62.9, 33.1, 11.5]), true);
    assert.equal(isMaterial(after, [62.9, 15, 13.5]), false);
    assert.equal(isMaterial(after, [62.9, 15, 12.5]), true);
  });

  it('a through hole drilled from below starts at the stock below and ends at the body above', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 16 }',
      '  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: through }\n',
      `${STOCK}setups:\n  one: { up: bottom, cuts: [a] }\n`,
    );
    const { after } = timelineOf(part, solid).setups[0]!;
    assert.equal(isMaterial(after, [10, 10, -0.9]), false);
    assert.equal(isMaterial(after, [10, 10, 15.9]), false);
    assert.equal(isMaterial(after, [10, 10, 16.1]), true);
  });

  it('a round bar lies round the middle of the body', () => {
    const { part, solid } = make(
      '{ x: 30, y: 30, z: 20 }',
      '  a: { kind: hole, face: top, at: { x: center, y: center }, diameter: 10, depth: through }\n',
      'stock: { form: round-bar, diameter: 45, axis: z, sawn: [bottom, top], extra: { bottom: 3, top: 3 } }\nsetups:\n  one: { up: top, cuts: [top, left, right, front, back, a] }\n  two: { up: bottom, cuts: [bottom] }\n',
    );
    const { stock, setups, unassigned } = timelineOf(part, solid);
    near(volume(stock), Math.PI * 22.5 ** 2 * 26);
    assert.deepEqual(unassigned, []);
    near(volume(setups[1]!.after), solid.measures.volumeMm3);
    const cross = crossOf(stock, 2, 10);
    near(
      cross.regions!.reduce((sum, r) => sum + regionMoments(r).area, 0),
      Math.PI * 22.5 ** 2,
    );
  });

  it('keeps every set-up before the edited one', () => {
    const text = (depth: number) => `part: p
body: { x: 60, y: 40, z: 16 }
features:
  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: 5 }
  b: { kind: hole, face: bottom, at: { x: 30, y: 10 }, diameter: 4, depth: ${depth} }
setups:
  one: { up: top, cuts: [a] }
  two: { up: bottom, cuts: [b] }
`;
    const treeA = readText(text(5));
    const partA = resolvePart(treeA);
    const solidA = solidOf(partA);
    const partB = resolvePart(readText(text(6), treeA), partA);
    const solidB = solidOf(partB, solidA);
    const before = timelineOf(partA, solidA);
    const after = timelineOf(partB, solidB);
    assert.notEqual(solidA, solidB);
    assert.equal(after.setups[0], before.setups[0]);
    assert.notEqual(after.setups[1], before.setups[1]);
  });
});
