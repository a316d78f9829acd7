/** Clearance holes, heads, counterbores, countersinks against published rows. Sources: `data/README.md`. */
import assert from 'node:assert/strict';
import { clearanceHole } from '../../server/src/tables/clearance';
import { drillsBetween } from '../../server/src/tables/drills';
import { counterboreFor, countersinkFor, din74CountersinkMm, headFor } from '../../server/src/tables/heads';
import { num, rowsOf } from './csv';
import { near } from './near';

describe('oracle: screws', () => {
  it('ISO 273:1979: fine, medium and coarse, M1.6 to M24', () => {
    for (const row of rowsOf('clearance-holes-metric-iso273.csv')) {
      const size = row.thread!;
      assert.equal(clearanceHole(size, 'fine')?.diameterMm, num(row, 'fine_H12'), size);
      assert.equal(clearanceHole(size)?.diameterMm, num(row, 'medium_H13'), size);
      assert.equal(clearanceHole(size, 'coarse')?.diameterMm, num(row, 'coarse_H14'), size);
    }
  });

  // Older shop tables have 14, 16 and 18 for the medium holes of M12, M14 and M16; ISO 273 and DIN 74-1 do not.
  it('ISO 273: where old tables disagree', () => {
    assert.deepEqual(
      ['M12', 'M14', 'M16'].map((s) => clearanceHole(s)?.diameterMm),
      [13.5, 15.5, 17.5],
    );
  });

  it('ASME B18.2.8: close, normal and loose, by drill name and diameter', () => {
    for (const row of rowsOf('clearance-holes-inch-b18-2-8.csv')) {
      for (const [fit, column] of [
        ['fine', 'close'],
        ['medium', 'normal'],
        ['coarse', 'loose'],
      ] as const) {
        const hole = clearanceHole(row.size!, fit);
        near(hole!.diameterMm, num(row, `${column}_in`) * 25.4, 1e-4, `${row.size} ${column}`);
        assert.equal(hole!.drill, row[`${column}_drill`]);
        // The drill of that name has that diameter (B18.2.8 rounds 3/32 and the like to thousandths).
        const [drill] = drillsBetween(0, 100, 'inch').filter((d) => d.name === hole!.drill);
        near(drill!.diameterMm, hole!.diameterMm, 0.02, `${row.size} ${column}`);
      }
    }
  });

  it('ISO 4762 heads, DIN 974-1 counterbores', () => {
    for (const row of rowsOf('counterbores-countersinks.csv')) {
      const size = row.thread!;
      if (!row.iso4762_dk_max) {
        assert.equal(counterboreFor(size), undefined, size);
        continue;
      }
      const head = headFor(size, 'cap')!;
      const bore = counterboreFor(size)!;
      assert.equal(head.diameterMm, num(row, 'iso4762_dk_max'), size);
      assert.equal(head.heightMm, num(row, 'iso4762_k_max'), size);
      assert.equal(bore.diameterMm, num(row, 'din974_1_series1_cbore_H13'), size);
      assert.equal(bore.depthMm, num(row, 'din974_1_t(k+Z)'), size);
      assert.ok(bore.diameterMm > head.diameterMm && bore.depthMm > head.heightMm, `${size}: the head sinks in`);
      assert.ok(bore.diameterMm > clearanceHole(size)!.diameterMm, `${size}: wider than its clearance hole`);
    }
  });

  it('ISO 10642 and ISO 15065 countersinks, and the older DIN 74-1', () => {
    for (const row of rowsOf('counterbores-countersinks.csv')) {
      const size = row.thread!;
      const sink = countersinkFor(size);
      const large = row.iso10642_dk_theoretical_max;
      const small = row['iso15065_Dc_min(ISO7721 heads)'];
      assert.equal(sink?.diameterMm, large ? Number(large) : small ? Number(small) : undefined, size);
      if (large) assert.equal(headFor(size, 'flat')!.heightMm, num(row, 'iso10642_k_max'), size);
      const din = row['din74_1_formB_csk_d2_H13(DIN7991 head)'];
      assert.equal(din74CountersinkMm(size), din ? Number(din) : undefined, size);
    }
  });

  // Geometry: a 90° cone is half as high as the difference of its diameters. ISO 10642's k is that to 0.01 up to M14;
  // M16 and M20 (from memory) are the standard's own, smaller values.
  it('ISO 10642: head height follows from the angle', () => {
    for (const size of ['M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12', 'M14']) {
      const head = headFor(size, 'flat')!;
      near(head.heightMm, (head.diameterMm - Number(size.slice(1))) / 2, 0.011, size);
    }
  });

  // DIN 974-1 has 6.5 for M3, the older DIN 74 form K has 6: the head (ISO 4762, 5.5) goes into both.
  it('counterbore of M3: the newer of two readings', () => {
    assert.equal(counterboreFor('M3')!.diameterMm, 6.5);
    for (const mm of [6, 6.5]) assert.ok(mm > headFor('M3', 'cap')!.diameterMm);
  });

  // DIN 74-1 B is up to 2.4 mm smaller than the sharp head of ISO 10642, for its heads are not sharp: both are told.
  it('the two countersinks differ by what their heads differ by', () => {
    for (const row of rowsOf('counterbores-countersinks.csv')) {
      const older = din74CountersinkMm(row.thread!);
      const sharp = row.iso10642_dk_theoretical_max && countersinkFor(row.thread!)!.diameterMm;
      if (older === undefined || !sharp) continue;
      assert.ok(older < sharp + 0.05 && older > 0.92 * sharp, `${row.thread}: ${older} against ${sharp}`);
    }
  });

  it('the clearance column of the head table is ISO 273 medium', () => {
    for (const row of rowsOf('counterbores-countersinks.csv'))
      assert.equal(clearanceHole(row.thread!)!.diameterMm, num(row, 'clearance_medium_H13'), row.thread);
  });
});
