/** What bars are off as they are bought, against every published row there is a bar for. Sources: `data/README.md`. */
import assert from 'node:assert/strict';
import { alloyGroup, type BarSort, barDeviation } from '../../server/src/tables/bar-tolerances';
import type { MaterialFamily } from '../../server/src/tables/materials.data';
import { num, type Row, rowsOf } from './csv';
import { near } from './near';

/** The bar a row is of; undefined for hot wrought flats, which no document can name, and for rows of practice. */
function barOf({ standard, product = '', dimension }: Row): readonly [MaterialFamily, BarSort] | undefined {
  const alloy = product.includes('group II') ? '7075' : '6061';
  switch (standard) {
    case 'EN 755-5':
      return ['aluminium', { side: dimension as 'width' | 'thickness', alloy }];
    case 'EN 755-3':
      return ['aluminium', { form: 'round', alloy }];
    case 'EN 755-4':
      return ['aluminium', { form: 'square', alloy }];
    case 'EN 754-3':
      return ['aluminium', { form: 'round' }];
    case 'EN 485-3':
      return ['aluminium', { form: 'plate' }];
    case 'ISO 286-2':
      return ['steel', { form: 'round' }];
    case 'ASTM B221 / ANSI H35.2':
      return ['aluminium', { inch: true }];
    case 'EN 10278':
      return ['steel', { side: dimension as 'width' | 'thickness', carbon: product.includes('C<=0.20') ? 0.2 : 0.45 }];
    case 'ASTM A108-03':
      return [
        'steel',
        {
          inch: true,
          form: product.startsWith('square') ? 'square' : product.startsWith('round') ? 'round' : 'flat',
          carbon: product.includes('C<=0.28') ? 0.18 : 0.45,
        },
      ];
    default:
      return undefined;
  }
}

describe('oracle: bars as they are bought', () => {
  const rows = rowsOf('stock-tolerances.csv');

  it('has every row of the tables at the end of its range, in its middle and just above its start', () => {
    let seen = 0;
    for (const row of rows) {
      const bar = barOf(row);
      if (!bar) continue;
      seen++;
      const scale = row.unit === 'in' ? 25.4 : 1;
      const over = num(row, 'over');
      const most = row.incl ? num(row, 'incl') : 2 * over;
      // ANSI H35.2 begins a range where the row says; the others just above it.
      for (const size of [most, (over + most) / 2, over + 0.001]) {
        const found = barDeviation(size * scale, ...bar);
        const what = `${row.standard} ${row.product} ${row.dimension} ${size}`;
        assert.ok(found, what);
        near(found.upperMm / scale, num(row, 'upper'), 1e-9, what);
        near(found.lowerMm / scale, num(row, 'lower'), 1e-9, what);
      }
    }
    assert.equal(seen, rows.filter((r) => r.standard !== 'ASTM A29' && r.standard !== 'practice').length);
    assert.ok(seen > 60);
  });

  it('says nothing of sizes and materials without a row', () => {
    assert.equal(barDeviation(1.9, 'aluminium'), undefined);
    assert.equal(barDeviation(400, 'aluminium'), undefined);
    assert.equal(barDeviation(2, 'steel', { side: 'thickness' }), undefined);
    assert.equal(barDeviation(0, 'steel'), undefined);
    assert.equal(barDeviation(40, 'titanium'), undefined);
    assert.equal(barDeviation(5 * 25.4, 'steel', { inch: true, form: 'square' }), undefined);
  });

  // A bar dealer's public list of both groups.
  it('parts aluminium alloys as EN 755 does', () => {
    const one = '1050 3103 5005 5251 6005 6060 6061 6082';
    const two = '2007 2011 2017 2024 5049 5052 5083 5086 5754 7020 7022 7075';
    for (const alloy of one.split(' ')) assert.equal(alloyGroup(alloy), 'I', alloy);
    for (const alloy of two.split(' ')) assert.equal(alloyGroup(alloy), 'II', alloy);
    assert.equal(alloyGroup(undefined), 'I');
  });

  // From memory: EN 12167 and 12164 have no public page here; drawn brass is held closer than extruded aluminium.
  it('other metals', () => {
    near(barDeviation(20, 'copper', { form: 'round' })!.lowerMm, -0.13, 1e-9);
    near(barDeviation(20, 'copper')!.upperMm, 0.15, 1e-9);
    near(barDeviation(20, 'stainless')!.lowerMm, -0.26, 1e-9);
    assert.equal(barDeviation(20, 'copper', { form: 'plate' }), undefined);
    assert.equal(barDeviation(20, 'plastic', { form: 'round' }), undefined);
  });

  // ISO 286-1: h11 at 40 mm is 0 / −0.160: EN 10278 takes its grade from there.
  it('EN 10278 is h11 for soft steel, h12 for others', () => {
    near(barDeviation(40, 'steel', { side: 'thickness' })!.lowerMm, -0.16, 1e-9);
    assert.ok(barDeviation(40, 'steel', { carbon: 0.45 })!.lowerMm < -0.25 * 1.2);
  });
});
