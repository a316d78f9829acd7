/** Screws, washers, nuts, pins and bearings as bought, against published rows; and the fastener formulae. */
import assert from 'node:assert/strict';
import { findBearing, ringLimits, widthLimits } from '../../server/src/tables/bearings';
import { headOf, lengthsOf, nutHeightMm, readScrew, screwText, washerOf } from '../../server/src/tables/fasteners';
import { readPin } from '../../server/src/tables/pins';
import { fixedSumMm, fixedZoneMm, floatingZoneMm } from '../../server/src/tables/position';

const screw = (text: string) => {
  const read = readScrew(text);
  assert.ok(read.ok, text);
  return read.screw;
};
const near = (a: number | undefined, b: number, by = 1e-6) =>
  assert.ok(a !== undefined && Math.abs(a - b) <= by, `${a}, not ${b}`);

describe('screws as bought', () => {
  it('are read with or without standard, length, pitch and class', () => {
    assert.deepEqual([screw('M5').size, screw('M5').lengthMm, screw('M5').tensileMPa], ['M5', undefined, 800]);
    assert.deepEqual(
      [screw('M5x16').lengthMm, screw('M5x0.8').lengthMm, screw('M8x1x20').lengthMm],
      [16, undefined, 20],
    );
    assert.equal(screw('M8x1x20').thread.pitchMm, 1);
    assert.equal(screw('ISO 4762 – M5 × 16').standard, 'ISO 4762');
    assert.equal(screw('ISO 10642 M5x16 10.9').tensileMPa, 1040);
    assert.equal(screw('ISO 4762 M5x16-A2-70').tensileMPa, 700);
    assert.equal(screw('DIN 912 M4x10').standard, 'DIN 912');
    assert.equal(screw('ISO 7380 M4x10').standard, 'ISO 7380-1');
  });

  it('are read in inches', () => {
    near(screw('10-24 x 1/2').lengthMm, 12.7);
    near(screw('1/4-20 x 1 1/4').lengthMm, 31.75);
    assert.equal(screw('1/4').thread.designation, '1/4-20 UNC');
    assert.equal(screw('#10').thread.designation, '10-24 UNC');
    near(screw('1/4-20 x 20 mm').lengthMm, 20);
  });

  it('what is none is said so', () => {
    for (const text of ['M5x', 'M5xx16', 'screw', '', 'M99', 'M5x-3', 'M5x0'])
      assert.equal(readScrew(text).ok, false, text);
    const read = readScrew('ISO 9999 M5x16');
    assert.ok(!read.ok && read.wrong === 'standard');
  });

  it('come in the lengths of their standard', () => {
    const lengths = lengthsOf(screw('M5'), 'cap');
    assert.ok(lengths.includes(16) && lengths.includes(20) && !lengths.includes(18) && lengths.at(-1) === 50);
    assert.equal(lengthsOf(screw('ISO 10642 M3'), 'cap')[0], 8);
    assert.equal(screwText(screw('M5'), 'flat', 20), 'ISO 10642 M5 × 20');
    assert.equal(screwText(screw('1/4-20 x 3/4'), 'cap', 19.05), 'ASME B18.3 cap 1/4-20 UNC × 0.75 in');
  });

  it('have heads: ISO 4762 M5 8.5 × 5, ISO 10642 M5 11.2, ISO 4017 M5 8 across flats', () => {
    assert.deepEqual([headOf(screw('M5'), 'cap')?.diameterMm, headOf(screw('M5'), 'cap')?.heightMm], [8.5, 5]);
    assert.equal(headOf(screw('ISO 10642 M5'), 'cap')?.diameterMm, 11.2);
    near(headOf(screw('ISO 4017 M5'), 'cap')?.diameterMm, 9.238, 1e-3);
  });
});

describe('washers and nuts', () => {
  // Outside and thickness of ISO 7089 as a public table of that standard has them, engineeringhardware.com, "ISO 7089".
  const PUBLISHED: readonly (readonly [string, number, number])[] = [
    ['M3', 7, 0.5],
    ['M4', 9, 0.8],
    ['M5', 10, 1],
    ['M6', 12, 1.6],
    ['M8', 16, 1.6],
    ['M10', 20, 2],
    ['M12', 24, 2.5],
    ['M14', 28, 2.5],
    ['M16', 30, 3],
    ['M18', 34, 3],
    ['M20', 37, 3],
    ['M24', 44, 4],
  ];
  it('have the sizes of ISO 7089', () => {
    for (const [size, outsideMm, thicknessMm] of PUBLISHED)
      assert.deepEqual(washerOf('ISO 7089', size), { outsideMm, thicknessMm });
    assert.equal(washerOf('ISO 7093-1', 'M24'), undefined);
  });
  it('a locking nut is higher than a plain one', () => {
    for (const size of ['M3', 'M5', 'M8', 'M16'])
      assert.ok(nutHeightMm('ISO 7040', size)! > nutHeightMm('ISO 4032', size)!);
  });
});

describe('pins and bearings', () => {
  it('pins are read with class and length', () => {
    const read = readPin('ISO 2338 4 h8 x 16');
    assert.ok(read.ok && read.pin.letter === 'h' && read.pin.grade === 8 && read.pin.lengthMm === 16);
    const plain = readPin('4x16');
    assert.ok(plain.ok && plain.pin.standard === 'ISO 8734' && plain.pin.lengthMm === 16);
    for (const text of ['ISO 8734 4 h8 x 16', '4.2x16', 'DIN 1 4x16', 'pin'])
      assert.equal(readPin(text).ok, false, text);
  });
  it('bearings have the sizes of ISO 15, whatever stands behind the number', () => {
    assert.deepEqual(findBearing('608-2RS'), { designation: '608', boreMm: 8, outsideMm: 22, widthMm: 7 });
    assert.deepEqual(findBearing('6205 ZZ'), { designation: '6205', boreMm: 25, outsideMm: 52, widthMm: 15 });
    assert.equal(findBearing('9999'), undefined);
  });
  it('rings have the limits of ISO 492, normal class (as the table of rajkot.com, "Bearing tolerances")', () => {
    for (const [mm, um] of [
      [12, -8],
      [25, -10],
      [40, -12],
      [60, -15],
      [100, -20],
    ] as const)
      assert.equal(ringLimits('bore', mm)?.lowerMm, um / 1000);
    for (const [mm, um] of [
      [22, -9],
      [47, -11],
      [72, -13],
      [100, -15],
      [140, -18],
      [170, -25],
    ] as const)
      assert.equal(ringLimits('outside', mm)?.lowerMm, um / 1000);
    assert.equal(widthLimits(25).lowerMm, -0.12);
  });
});

describe('the fastener formulae', () => {
  // ASME Y14.5M-1994, appendix B, from memory. B3: a 6 mm fastener, tolerance 0.44: hole 6.44. B4: 0.44 / 2 each of both parts.
  it('floating: H = F + T', () => near(floatingZoneMm(6.44, 6), 0.44));
  it('fixed: H = F + 2 T', () => near(fixedZoneMm(6.44, 6), 0.22));
  it('fixed with unlike zones: T₁ + T₂ takes up H − F, 0.18 and 0.26 of 6.44', () =>
    near(fixedSumMm(0.18, 0.26), 6.44 - 6));
  // B5, provision for out-of-squareness where the zone is not projected: T₁ + T₂ (1 + 2 P / D).
  it('not projected: a plate as thick as the thread is deep makes the thread’s zone count three times', () =>
    near(fixedSumMm(0.1, 0.1, { aboveMm: 10, depthMm: 10 }), 0.4));
  it('projected as far as the plate is thick: nothing more; by half of it: three times', () => {
    near(fixedSumMm(0.1, 0.1, { aboveMm: 10, depthMm: 10, projectedMm: 12 }), 0.2);
    near(fixedSumMm(0.1, 0.1, { aboveMm: 10, depthMm: 10, projectedMm: 5 }), 0.4);
  });
  // Goodheart-Willcox, GD&T: Application and Interpretation, p. 308: T = (H − F) / 2 for all holes.
  it('half each where both are alike', () => near(2 * fixedZoneMm(10.5, 10), fixedSumMm(0.25, 0.25)));
});
