import assert from 'node:assert/strict';
import { type QuantityKind, readQuantity } from '../../server/src/model/quantity';

/** Each in two ways that must come to the same, or a published conversion. */
const SAME: readonly (readonly [QuantityKind, string, number])[] = [
  ['power', '1.1 kW', 1100],
  ['power', '1100W', 1100],
  // NIST SP 811, B.8: 1 hp (550 ft·lbf/s) = 745.6999 W; 1 metric horsepower = 735.4988 W.
  ['power', '1 hp', 745.6999],
  ['power', '1 HP', 745.6999],
  ['power', '1 PS', 735.4988],
  ['power', '1 1/2 hp', 1118.5498],
  ['power', '3/4 hp', 559.2749],
  ['torque', '14 N·m', 14],
  ['torque', '14 Nm', 14],
  ['torque', '14 N m', 14],
  ['torque', '14 N.m', 14],
  // NIST SP 811, B.8: 1 lbf·ft = 1.355818 N·m; 1 lbf·in = 0.1129848 N·m.
  ['torque', '10 ft-lb', 13.55818],
  ['torque', '10 ft·lbf', 13.55818],
  ['torque', '100 in-lbs', 11.29848],
  ['force', '15 kN', 15_000],
  ['force', '15000 N', 15_000],
  // NIST SP 811, B.8: 1 lbf = 4.448222 N; 1 kgf = 9.80665 N.
  ['force', '3000 lbf', 13_344.666],
  ['force', '100 kgf', 980.665],
  ['feed', '3000 mm/min', 3000],
  ['feed', '3 m/min', 3000],
  ['feed', '100 in/min', 2540],
  ['feed', '100 ipm', 2540],
  ['feed', '50 mm/s', 3000],
  ['mass', '900 g', 900],
  ['mass', '0.9 kg', 900],
  // NIST SP 811, B.8: 1 lb = 453.59237 g exactly.
  ['mass', '2 lb', 907.18474],
  ['mass', '32 oz', 907.18474],
  ['time', '90 s', 90],
  ['time', '1.5 min', 90],
  ['time', '12 h', 43_200],
];

describe('spec: quantities with units of their own', () => {
  for (const [kind, text, value] of SAME) {
    it(`${text} as a ${kind}`, () => {
      const read = readQuantity(text, kind);
      assert.ok(read.ok, read.ok ? '' : read.message);
      assert.ok(Math.abs(read.value - value) <= value * 1e-6, `${read.value} is not ${value}`);
    });
  }

  it('a bare number needs its unit, and gets one offered', () => {
    const read = readQuantity('1.1', 'power');
    assert.ok(!read.ok && read.unit);
    assert.equal(read.instead, '1.1 kW');
    assert.deepEqual(readQuantity('3000', 'feed', 'mm/min'), { ok: true, value: 3000 });
    assert.deepEqual(readQuantity('100', 'feed', 'in/min'), { ok: true, value: 2540 });
  });

  it('says what is wrong', () => {
    const wrong: readonly (readonly [QuantityKind, string, RegExp])[] = [
      ['power', '1,1 kW', /with a point/],
      ['power', 'strong', /a number and a unit/],
      ['power', '-1 kW', /is negative/],
      ['power', '1 0 kW', /a number and a unit/],
      ['power', '1/0 kW', /a number and a unit/],
      ['power', '5 N·m', /not a unit of power/],
      ['mass', '', /a number and a unit/],
    ];
    for (const [kind, text, message] of wrong) {
      const read = readQuantity(text, kind);
      assert.ok(!read.ok, text);
      assert.match(read.message, message, text);
    }
    const comma = readQuantity('1,1 kW', 'power');
    assert.equal(comma.ok ? '' : comma.instead, '1.1 kW');
  });
});
