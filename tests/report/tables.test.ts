/** Every row of every table says where it is from; how many are from memory may only fall. */
import assert from 'node:assert/strict';
import { tableNames, tablesJson, tablesText } from '../../server/src/report/tables';
import { basisOf, checkedOf, countsOf } from '../../server/src/report/tables/source';
import { tablesBeside } from '../../server/src/report/tables-beside';

/** Rows from memory, by table: a page that is read takes its rows off. The numbers may only fall; a new table may add its own. */
const FROM_MEMORY: Readonly<Record<string, number>> = {
  threads: 441,
  drills: 255,
  'clearance-holes': 54,
  'screw-heads': 88,
  'screw-lengths': 46,
  hexagons: 14,
  'button-heads': 8,
  washers: 35,
  pins: 13,
  'keys-inch': 1,
  bearings: 58,
  'inch-fits': 87,
  bars: 77,
  sections: 2,
  rods: 2,
  materials: 40,
  'cutting-forces': 20,
  milling: 11,
  drilling: 4,
  'tapping-forces': 1,
  flutes: 51,
  processes: 11,
  'jaw-friction': 2,
  limits: 21,
};

describe('tables: sources', () => {
  const said = JSON.parse(tablesJson('1.2.3', tablesBeside()));
  const all: readonly { readonly name: string; readonly rows: readonly { readonly source: string }[] }[] = said.tables;

  for (const { name, rows } of all) {
    const { published, memory, practice } = countsOf(rows);
    it(`${name}: ${published} published, ${memory} from memory, ${practice} practice`, () => {
      assert.ok(rows.length > 0);
      for (const row of rows) {
        assert.ok(row.source.length > 5, JSON.stringify(row));
        for (const value of Object.values(row))
          if (typeof value === 'number') assert.ok(Number.isFinite(value), JSON.stringify(row));
      }
      assert.equal(memory, FROM_MEMORY[name] ?? 0, 'fewer: write the new number here; more: read a page');
    });
  }
  const sum = countsOf(all.flatMap((t) => t.rows));
  it(`all: ${sum.published} published, ${sum.memory} from memory, ${sum.practice} practice`, () => {
    assert.equal(
      sum.memory,
      Object.values(FROM_MEMORY).reduce((a, b) => a + b, 0),
    );
  });

  it('a row that is from memory in part is from memory, and only what was read has a date', () => {
    assert.equal(basisOf('tap drill: a handbook p. 299; pitch: from memory'), 'memory');
    assert.equal(basisOf('common practice, no source'), 'practice');
    assert.equal(basisOf('ISO 286-1, from public tables'), 'published');
    assert.match(checkedOf('ISO 286-1, from public tables') ?? '', /^\d{4}-\d{2}$/);
    assert.equal(checkedOf('a page (read in 2027-03)'), '2027-03');
    assert.equal(checkedOf('from memory'), undefined);
  });

  it('JSON holds every row with its basis, or those of one table', () => {
    assert.equal(said.version, '1.2.3');
    assert.deepEqual(said.counts, sum);
    assert.deepEqual(
      all.map((t) => t.name),
      tableNames(tablesBeside()),
    );
    const threads = JSON.parse(tablesJson('1', [], 'threads'));
    assert.equal(threads.tables.length, 1);
    const m5 = threads.tables[0].rows.find((r: { designation: string }) => r.designation === 'M5');
    assert.equal(m5.tap_drill_mm, 4.2);
    assert.deepEqual(m5.minor_mm, [4.134, 4.334]);
    assert.ok(JSON.parse(tablesJson('1', tablesBeside(), 'limits')).tables[0].rows.length > 100);
  });

  it('text has a line for each table, and of a named one for each row', () => {
    assert.equal(tablesText([]).length, tableNames([]).length + 1);
    assert.ok(
      tablesText([], 'materials').some((l) => l.includes('aluminium-6061-t6') && l.includes('(Aluminum Association')),
    );
  });
});
