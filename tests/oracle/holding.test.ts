/** What is published or remembered of holding work (`data/workholding.csv`), row by row against our tables, limits and formula. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { clampFor, frictionN } from '../../server/src/process/workholding/forces';
import { ruleByName } from '../../server/src/rules/registry';
import { FRICTION_SHARE, HOLD_SAFETY, JAW_FRICTION } from '../../server/src/tables/holding.data';
import { type Row, rowsOf } from './csv';

const numbers = (row: Row) => (row.value ?? '').match(/\d+(\.\d+)?/g)?.map(Number) ?? [];
const limit = (rule: string, name: string) => {
  const found = ruleByName(rule)?.limits.find((l) => l.name === name);
  assert.ok(found, `${rule} ${name}`);
  return found.value;
};
const within = (value: number, low: number, high: number) =>
  assert.ok(value >= low - 1e-9 && value <= high + 1e-9, `${value} is not from ${low} to ${high}`);

/** By how the row begins; undefined: nothing of ours goes by it, and why. */
const CHECKS: Readonly<Record<string, ((row: Row) => void) | string>> = {
  'mu jaw smooth: workpiece ground': (row) => assert.ok(JAW_FRICTION.smooth.mu >= numbers(row)[0]!),
  'mu jaw smooth: rough to medium': (row) => assert.equal(JAW_FRICTION.smooth.mu, numbers(row)[0]),
  'mu jaw smooth: unmachined': (row) => assert.ok(JAW_FRICTION.smooth.mu <= numbers(row)[0]!),
  'mu diamond serration': 'shops say smooth or serrated',
  'mu serrated': (row) => assert.equal(JAW_FRICTION.serrated.mu, numbers(row)[1]),
  'correction for workpiece material': (row) =>
    assert.deepEqual([FRICTION_SHARE.aluminium, FRICTION_SHARE.copper, FRICTION_SHARE['cast-iron']], numbers(row)),
  // Dry metal on metal holds several times as well: never counted on.
  'dry Al on steel': (row) => assert.ok(JAW_FRICTION.smooth.mu < Math.min(...numbers(row))),
  'recommended design mu': (row) => within(JAW_FRICTION.smooth.mu, numbers(row)[0]!, numbers(row)[1]!),
  'safety factor milling': (row) => within(HOLD_SAFETY.value, numbers(row)[0]!, numbers(row)[1]!),
  formula: () => {
    // F_clamp = SF · F_cut / (2 μ), and both jaws rub.
    assert.ok(Math.abs(clampFor(800, 0.1, 2) - (2 * 800) / (2 * 0.1)) < 1e-9);
    assert.ok(Math.abs(frictionN(clampFor(800, 0.1, 2), 0.1) - 2 * 800) < 1e-9);
  },
  'minimum grip depth': (row) => {
    const [serrated, low, high] = numbers(row);
    assert.equal(limit('hold/grip', 'serrated'), serrated);
    within(limit('hold/grip', 'smooth'), low!, high!);
    within(limit('hold/overhang', 'grip'), 2, 3);
  },
  overhang: (row) => within(limit('hold/overhang', 'width'), numbers(row)[0]!, numbers(row)[1]!),
  'jaw opening parallelism': (row) => {
    // 0.01 to 0.02 in 100: the seat that an orientation across two set-ups is judged by lies in it.
    within(limit('setup/tilts', 'seat'), numbers(row)[0]!, numbers(row)[1]!);
  },
  'typical 150 mm vise force': (row) =>
    // By the jaws' width, as the smaller vises of the built-in shop are.
    assert.ok(builtinShop().vises.every((v) => v.forceN / 1000 <= numbers(row)[1]!)),
  'thin wall squeeze': 'walls between jaws are judged as plates, ledges and rings: tests/process/workholding',
};

describe('holding work, against what is published', () => {
  const rows = rowsOf('workholding.csv').map((row) => ({
    row,
    key: Object.keys(CHECKS).find((k) => row.item!.startsWith(k)),
  }));
  for (const { row, key } of rows) {
    const check = key === undefined ? undefined : CHECKS[key];
    if (typeof check === 'function') it(`${row.item} (${row.status})`, () => check(row));
  }

  it('leaves no row out but those that nothing of ours goes by', () => {
    const left = rows.filter(({ key }) => key === undefined || typeof CHECKS[key] === 'string').map(({ key }) => key);
    assert.deepEqual(left, ['mu diamond serration', 'thin wall squeeze']);
  });
});
