/** Every table against its second source, row by row; tables and rows without one may only become fewer. */
import assert from 'node:assert/strict';
import { tablesJson } from '../../server/src/report/tables';
import { tablesBeside } from '../../server/src/report/tables-beside';
import { deltas, grades, shafts } from './second/iso-286';
import { general, inchFits } from './second/limits';
import type { Row, Second } from './second/row';
import { bearings, clearances, heads, hexagons, threads, washers } from './second/screws';

const SECONDS: Readonly<Record<string, Second>> = {
  threads,
  'clearance-holes': clearances,
  'screw-heads': heads,
  hexagons,
  washers,
  bearings,
  'iso-286-grades': grades,
  'iso-286-shafts': shafts,
  'iso-286-delta': deltas,
  'inch-fits': inchFits,
  'general-tolerances': general,
};

/** May only fall; a new table may add its own. */
const TABLES_WITHOUT = 20;
const ROWS_WITHOUT = 2199;

interface Table {
  readonly name: string;
  readonly rows: readonly Row[];
  readonly second: { readonly source: string; readonly rows: number } | 'none found';
}

describe('tables: second sources', () => {
  const tables: readonly Table[] = JSON.parse(tablesJson('1', tablesBeside())).tables;

  for (const { name, rows, second } of tables) {
    const says = SECONDS[name];
    it(`${name}: ${second === 'none found' ? second : `${second.rows} of ${rows.length} rows`}`, () => {
      assert.equal(
        says === undefined,
        second === 'none found',
        'a second source is named and compared with, or neither',
      );
      if (second === 'none found' || !says) return;
      assert.equal(
        rows.filter((row) => says(row)).length,
        second.rows,
        'rows that agree: write the number in report/tables/second.ts',
      );
    });
  }

  it('fewer tables and rows without', () => {
    const without = (t: Table) => t.rows.length - (t.second === 'none found' ? 0 : t.second.rows);
    assert.equal(
      tables.filter((t) => t.second === 'none found').length,
      TABLES_WITHOUT,
      'fewer: write the new number here',
    );
    assert.equal(
      tables.reduce((sum, t) => sum + without(t), 0),
      ROWS_WITHOUT,
      'fewer: write the new number here',
    );
  });

  it('a row that is wrong in a digit is found', () => {
    const row = (table: string, found: (r: Row) => boolean) => tables.find((t) => t.name === table)!.rows.find(found)!;
    const wrong: readonly (readonly [Second, Row])[] = [
      [grades, { ...row('iso-286-grades', (r) => r.up_to_mm === 30 && r.grade === 7), um: 23 }],
      [shafts, { ...row('iso-286-shafts', (r) => r.up_to_mm === 30 && r.shaft === 'u'), um: 84 }],
      [threads, { ...row('threads', (r) => r.designation === 'M8'), tap_drill_mm: 6.5 }],
      [inchFits, { ...row('inch-fits', (r) => r.class === 'LC9' && r.up_to_in === 0.4), shaft_thou: [-5.2, -3.2] }],
      [hexagons, { ...row('hexagons', (r) => r.screw === 'M10'), flats: 17 }],
    ];
    for (const [says, changed] of wrong) assert.throws(() => says(changed), /the second source has/);
  });
});
