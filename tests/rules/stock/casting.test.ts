/** A casting as stock: rough all round, as closely as its grade (ISO 8062-3, from memory), not sawn and not from a bar. */
import assert from 'node:assert/strict';
import { stockVolumeMm3 } from '../../../server/src/geometry/stock-volume';
import { barOf } from '../../../server/src/model/bar';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { handWork } from '../../../server/src/planning/hand-work';
import { itemsOf } from '../../../server/src/planning/items';
import { readyStock } from '../../../server/src/planning/ready';
import { checkPart } from '../../../server/src/rules/check';
import { castingDeviation } from '../../../server/src/tables/castings';

const SHOP = builtinShop();
const made = (stock: string, body = '{ x: 60, y: 40, z: 20 }', more = '') =>
  checkPart(
    `part: cap\nmaterial: aluminium-6061-t6\nquantity: 2\nbody: ${body}\nstock: { form: casting, ${stock} }\nfeatures:\n  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 12, depth: through }\n${more}`,
    SHOP,
  );
const said = (...of: Parameters<typeof made>) =>
  made(...of)
    .findings.filter((f) => f.severity !== 'hint')
    .map((f) => `${f.rule}: ${f.message}`);

describe('a casting', () => {
  it('has its allowance on every face that `extra` does not name', () => {
    const { part, solid, shop } = made('allowance: 3, extra: { top: 4, left: 0 }');
    assert.deepEqual(part.problems, []);
    assert.equal(stockVolumeMm3(part), 63 * 46 * 27);
    assert.equal(barOf(part), undefined);
    const faces = itemsOf({ part, solid, shop }).flatMap((i) => i.face ?? []);
    assert.deepEqual(faces.sort(), ['back', 'bottom', 'front', 'right', 'top']);
  });

  it('is ordered by the piece', () => {
    const checked = made('allowance: 3');
    assert.deepEqual(readyStock([{ checked, quantity: 2 }]), [{ form: 'casting', pieces: 2, parts: ['cap'] }]);
    assert.equal(handWork(checked).sawCuts, 0);
  });

  it('says where a face stays as cast that must be closer, and nothing where it is milled or may be as cast', () => {
    // 46 mm of grade 11: 4 mm wide (ISO 8062-3, from memory).
    const cast = 'allowance: 3, extra: { left: 0 }';
    const close = '{ x: 60 ±0.1, y: 40, z: 20 }';
    assert.match(
      said(cast, close).join(),
      /stock\/as-supplied: x is 60 mm ±0\.1, and left stays as cast\. The casting has ±2 /,
    );
    assert.deepEqual(said('allowance: 3', close), []);
    assert.deepEqual(said(cast, '{ x: 60 ±2.5, y: 40, z: 20 }'), []);
    assert.match(said(`${cast}, grade: 6`, '{ x: 60 ±0.3, y: 40, z: 20 }').join(), /±0\.35/);
    assert.deepEqual(said(`${cast}, grade: 5`, '{ x: 60 ±0.3, y: 40, z: 20 }'), []);
  });

  it('says where it may have nothing to clean up', () => {
    // 61 mm of grade 11: 4 mm wide, so a face may be short by 1 mm where both are milled, and by 2 mm where one is.
    assert.deepEqual(said('allowance: 1.5'), []);
    assert.match(
      said('allowance: 0.5').join(),
      /stock\/extra: The left face of the casting has 0\.5 mm to clean up\. By .* 1 mm short/,
    );
    assert.match(said('allowance: 1.5, extra: { left: 0 }').join(), /The right face of the casting .* 2 mm short/);
  });

  it('refuses what it is not', () => {
    assert.match(said('allowance: 3', '{ diameter: 40, length: 30 }').join(), /Write a round one as `form: blank`/);
    assert.match(said('allowance: 3, sawn: [left]').join(), /A casting is not sawn/);
    assert.match(said('allowance: 3, grade: 17').join(), /at most 16/);
    assert.match(said('allowance: 3, diameter: 17').join(), /`diameter` belongs to/);
  });

  it('is off by half the width of its grade', () => {
    assert.equal(castingDeviation(10, 8)?.upperMm, 0.5);
    assert.equal(castingDeviation(10.1, 8)?.upperMm, 0.55);
    assert.equal(castingDeviation(10, 13), undefined);
    assert.equal(castingDeviation(1000, 8), undefined);
  });
});
