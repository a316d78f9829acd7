/** Measures between faces, against numbers worked out by hand from the text of the part. */
import assert from 'node:assert/strict';
import { measureBetween } from '../../../server/src/service/view/measure';
import type { Measured } from '../../../server/src/service/view/protocol';
import { pictureOfText, type Taken } from './support';

const PART = `part: a
units: mm
body: { x: 60, y: 40, z: 20 }
features:
  cell: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 22, y: 20 }, corner-radius: 3, depth: 8 }
  bore: { kind: hole, face: top, at: { x: 48, y: 20 }, diameter: 8, depth: through, counterbore: { diameter: 14, depth: 5 } }
  pin: { kind: hole, face: top, at: { x: 48, y: 34 }, diameter: 4, depth: 10 }
  cross: { kind: hole, face: front, at: { x: 10, z: 4 }, diameter: 5, depth: 12 }
  ramp: { kind: slope, face: top, along: left, angle: 30, width: 5 }
`;

describe('measures', () => {
  let taken: Taken;
  before(async () => {
    taken = (await pictureOfText(PART))!;
  });

  /** Of several faces of one name the one that faces along `normal`. */
  const measure = (a: string, b: string, atA: [number, number, number] = [0, 0, 0], atB = atA): Measured => {
    const find = (name: string) => {
      const [plain, way] = name.split(' @ ');
      const index = taken.picture.surfaces.findIndex(
        (s) =>
          s.name === plain &&
          (way === undefined ||
            (s.shape.type === 'plane' && s.shape.normal['xyz'.indexOf(way[1]!) as 0] === Number(`${way[0]}1`))),
      );
      assert.ok(index >= 0, name);
      return index;
    };
    const found = taken.pictures.measure('/p/a.part.yaml', { version: 1, a: find(a), atA, b: find(b), atB });
    assert.ok(found);
    return found;
  };

  it('parallel planes: how far apart', () => {
    const m = measure('top', 'floor of cell', [1, 2, 20], [15, 15, 12]);
    assert.equal(m.text, '8 mm between parallel planes');
    assert.equal(m.distanceMm, 8);
    assert.deepEqual(m.at, [
      [1, 2, 20],
      [1, 2, 12],
    ]);
    assert.equal(
      measure('wall of cell @ +x', 'wall of cell @ -x', [9, 20, 15], [31, 20, 15]).text,
      '22 mm between parallel planes',
    );
    assert.equal(measure('left', 'wall of cell @ -x', [0, 20, 5], [31, 20, 15]).distanceMm, 31);
  });

  it('one plane, planes at an angle', () => {
    assert.equal(measure('top', 'top', [1, 1, 20], [50, 3, 20]).text, 'in one plane');
    const m = measure('top', 'slope of ramp', [20, 2, 20], [2, 20, 18]);
    assert.equal(m.text, 'planes at 30°');
    assert.ok(Math.abs(m.angleDeg! - 30) < 1e-9);
    assert.equal(measure('top', 'front').text, 'planes at 90°');
  });

  it('axes: apart, the same, crossing past each other', () => {
    const apart = measure('wall of bore', 'wall of pin', [52, 20, 8], [48, 36, 15]);
    assert.equal(apart.text, 'axes 14 mm apart, 8 mm between the walls');
    assert.deepEqual(apart.at, [
      [48, 20, 8],
      [48, 34, 8],
    ]);
    assert.equal(
      measure('wall of bore', 'counterbore of bore', [52, 20, 8], [55, 20, 18]).text,
      'on one axis, 3 mm between the walls',
    );
    assert.equal(
      measure('wall of pin', 'wall of pin', [50, 34, 15], [48, 36, 12]).text,
      'on one axis, both of diameter 4 mm',
    );
    const skew = measure('wall of bore', 'wall of cross', [52, 20, 8], [10, 6, 6.5]);
    assert.equal(skew.text, 'axes 38 mm apart, at 90°');
    assert.ok(Math.abs(skew.distanceMm! - 38) < 1e-9);
  });

  it('a plane and an axis', () => {
    const m = measure('right', 'wall of bore', [60, 5, 5], [52, 20, 8]);
    assert.equal(m.text, 'axis 12 mm from the plane, its wall 8 mm');
    assert.deepEqual(m.at, [
      [60, 20, 8],
      [48, 20, 8],
    ]);
    const turned = measure('wall of bore', 'right', [52, 20, 8], [60, 5, 5]);
    assert.deepEqual(turned.at, [
      [48, 20, 8],
      [60, 20, 8],
    ]);
    assert.equal(
      measure('top', 'wall of bore', [0, 0, 20], [52, 20, 8]).text,
      'axis square to the plane, diameter 8 mm',
    );
  });

  it('the touched point is brought onto the face before it is measured', () => {
    // a point on a facet inside the true circle
    const m = measure('wall of cell @ +x', 'floor of cell', [9.02, 20, 15], [20, 20, 12.01]);
    assert.equal(m.text, 'planes at 90°');
  });

  it('a fillet round a corner is measured by its axis', () => {
    const fillet = { type: 'ring', axis: [0, 0, 1], centre: [3, 0, 0], majorMm: 2, minorMm: 1, sense: -1 } as const;
    const plane = { type: 'plane', normal: [1, 0, 0], offsetMm: 20 } as const;
    const m = measureBetween(fillet, [5.8, 0, 0.6], plane, [20, 0, 1], 'mm');
    assert.equal(m.text, 'axis 17 mm from the plane');
    assert.deepEqual(m.at, [
      [3, 0, 0.6],
      [20, 0, 0.6],
    ]);
  });

  it('inches for a text in inches', () => {
    const a = { type: 'plane', normal: [0, 0, 1], offsetMm: 25.4 } as const;
    const b = { type: 'plane', normal: [0, 0, -1], offsetMm: 0 } as const;
    assert.equal(measureBetween(a, [0, 0, 25.4], b, [0, 0, 0], 'in').text, '1 in between parallel planes');
  });

  it('is null for a version that is no longer known', () => {
    assert.equal(
      taken.pictures.measure('/p/a.part.yaml', { version: 7, a: 0, atA: [0, 0, 0], b: 1, atB: [0, 0, 0] }),
      null,
    );
  });
});
