/** Inch drills against two public tables that agree (`data/drills-inch.csv`), and what of a series needs no table. */
import assert from 'node:assert/strict';
import { tablesJson } from '../../server/src/report/tables';
import { drillByName } from '../../server/src/tables/drills';
import { num, rowsOf } from './csv';
import { near } from './near';

interface Listed {
  readonly drill: string;
  readonly series: string;
  readonly diameter_mm: number;
}

describe('oracle: drills', () => {
  const listed: readonly Listed[] = JSON.parse(tablesJson('1', [], 'drills')).tables[0].rows;
  const of = (series: string) => listed.filter((d) => d.series === series);

  it('every number and letter of the published table, and no other', () => {
    const rows = rowsOf('drills-inch.csv');
    assert.equal(rows.length, 80 + 26);
    for (const row of rows) near(drillByName(row.drill!)!.diameterMm, num(row, 'inch') * 25.4, 1e-4, row.drill!);
    const ours = [...of('number'), ...of('letter')].map((d) => d.drill);
    assert.deepEqual(ours.sort(), rows.map((row) => row.drill!).sort());
  });

  // Definition: a 64th is 25.4 / 64 mm.
  it('fractions are 64ths of an inch, each by its lowest terms', () => {
    assert.equal(of('fraction').length, 64);
    for (const { drill, diameter_mm } of of('fraction')) {
      const [over, under = 1] = drill.split('/').map(Number) as [number, number?];
      near(diameter_mm, (over / under) * 25.4, 1e-4, drill);
      assert.ok(under === 1 || over % 2 === 1, drill);
    }
  });
});
