/** What bars are off as they are bought, against every published row there is a bar for. Sources: `data/README.md`. */
import assert from 'node:assert/strict';
import { type BarSort, barDeviation } from '../../server/src/reference/bar-tolerances';
import { num, type Row, rowsOf } from './csv';
import { near } from './near';

/** The bar a row is of; undefined for hot wrought flats, which no document can name, and for rows of practice. */
function barOf({ standard, product = '', dimension }: Row): readonly ['aluminium' | 'steel', BarSort] | undefined {
  switch (standard) {
    case 'EN 755-5':
      return ['aluminium', { side: 'width' }];
    case 'ASTM B221 / ANSI H35.2':
      return ['aluminium', { inch: true }];
    case 'EN 10278':
      return ['steel', { side: dimension as 'width' | 'thickness', carbon: product.includes('C<=0.20') ? 0.2 : 0.45 }];
    case 'ASTM A108-03':
      return [
        'steel',
        { inch: true, square: product.startsWith('square'), carbon: product.includes('C<=0.28') ? 0.18 : 0.45 },
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
    assert.equal(barDeviation(9, 'aluminium'), undefined);
    assert.equal(barDeviation(400, 'aluminium'), undefined);
    assert.equal(barDeviation(2, 'steel', { side: 'thickness' }), undefined);
    assert.equal(barDeviation(0, 'steel'), undefined);
    assert.equal(barDeviation(40, 'titanium'), undefined);
    assert.equal(barDeviation(5 * 25.4, 'steel', { inch: true, square: true }), undefined);
  });

  // ISO 286-1: h11 at 40 mm is 0 / −0.160: EN 10278 takes its grade from there.
  it('EN 10278 is h11 for soft steel, h12 for others', () => {
    near(barDeviation(40, 'steel', { side: 'thickness' })!.lowerMm, -0.16, 1e-9);
    assert.ok(barDeviation(40, 'steel', { carbon: 0.45 })!.lowerMm < -0.25 * 1.2);
  });
});
