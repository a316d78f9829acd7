/** Lengths as text, read and written. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseDimension } from '../../server/src/text/dimension';
import { evaluate, toLength } from '../../server/src/text/expression';
import { formatLength, mmPer, writeLength } from '../../server/src/text/format';

describe('a length for people', () => {
  it('has the unit, and no more digits than it needs', () => {
    assert.equal(formatLength(0.4, 'mm'), '0.4 mm');
    assert.equal(formatLength(0.4, 'in'), '0.016 in');
    assert.equal(formatLength(25.4, 'in'), '1 in');
    assert.equal(formatLength(100, 'mm'), '100 mm');
    assert.equal(formatLength(12.3456, 'mm'), '12.346 mm');
    assert.equal(formatLength(-0, 'mm'), '0 mm');
    assert.equal(formatLength(-1.5, 'mm'), '-1.5 mm');
    assert.equal(formatLength(0.1 + 0.2, 'mm'), '0.3 mm');
  });
  it('does not show a little as nothing', () => {
    assert.equal(formatLength(0.0004, 'mm'), '0.0004 mm');
    assert.equal(formatLength(0.00123, 'in'), '0.00005 in');
  });
  it('shows a difference that is there', () => {
    assert.equal(formatLength(0.39996, 'mm', 0.4), '0.39996 mm');
    assert.equal(formatLength(0.4, 'mm', 0.4), '0.4 mm');
    assert.equal(formatLength(0.4 - 1e-13, 'mm', 0.4), '0.4 mm');
  });
});

describe('a length for an edit', () => {
  const read = (text: string, units: 'mm' | 'in') => {
    const parsed = parseDimension(text);
    assert.ok(parsed.ok, text);
    const value = evaluate(parsed.dimension.expression, { unitMm: mmPer(units), lookup: () => 'unknown' });
    assert.ok(value.ok);
    const length = toLength(value.value, mmPer(units));
    assert.ok(length.ok);
    return length.value;
  };
  it('is short', () => {
    assert.equal(writeLength(3, 'mm'), '3');
    assert.equal(writeLength(3.5, 'mm'), '3.5');
    assert.equal(writeLength(10 / 3, 'mm'), '3.333');
    assert.equal(writeLength(6.35, 'in'), '0.25');
    assert.equal(writeLength(10, 'in'), '0.3937');
    assert.equal(writeLength(0.1 + 0.2, 'mm'), '0.3');
  });
  it('rounds to the safe side when told', () => {
    assert.equal(writeLength(10 / 3, 'mm', 'up'), '3.334');
    assert.equal(writeLength(20 / 3, 'mm', 'down'), '6.666');
    assert.equal(writeLength(0.8, 'mm', 'up'), '0.8');
    assert.equal(writeLength(0.8 + 1e-12, 'mm', 'up'), '0.8');
  });
  it('reads back to the same, on its grid', () => {
    const lengths = fc.double({ min: -9000, max: 9000, noNaN: true }).filter((mm) => mm === 0 || Math.abs(mm) > 1e-4);
    fc.assert(
      fc.property(lengths, fc.constantFrom('mm' as const, 'in' as const), (mm, units) => {
        const grid = units === 'mm' ? 0.001 : 0.00254;
        const back = read(writeLength(mm, units), units);
        assert.ok(Math.abs(back - mm) <= grid * 0.5000001 + Math.abs(mm) * 1e-9, `${mm} → ${back}`);
        assert.ok(read(writeLength(mm, units, 'up'), units) >= mm - Math.abs(mm) * 1e-8);
        assert.ok(read(writeLength(mm, units, 'down'), units) <= mm + Math.abs(mm) * 1e-8);
        assert.equal(writeLength(back, units), writeLength(mm, units), 'writing twice changes nothing');
      }),
      { seed: 3, numRuns: 1000 },
    );
  });
});
