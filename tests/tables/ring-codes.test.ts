/** Size codes of O-rings against inside diameters as published lists of the series have them, mm; from memory. */
import assert from 'node:assert/strict';
import { ringOfCode } from '../../server/src/tables/ring-codes';

/** Every place where the step of the series changes, and some between. */
const LISTED: readonly (readonly [code: string, inside: number, section: number])[] = [
  ['004', 1.78, 1.78],
  ['007', 3.68, 1.78],
  ['008', 4.47, 1.78],
  ['009', 5.28, 1.78],
  ['010', 6.07, 1.78],
  ['012', 9.25, 1.78],
  ['013', 10.82, 1.78],
  ['016', 15.6, 1.78],
  ['028', 34.65, 1.78],
  ['029', 37.82, 1.78],
  ['041', 75.92, 1.78],
  ['050', 133.07, 1.78],
  ['104', 2.84, 2.62],
  ['106', 4.42, 2.62],
  ['110', 9.19, 2.62],
  ['112', 12.37, 2.62],
  ['116', 18.72, 2.62],
  ['149', 71.09, 2.62],
  ['152', 82.22, 2.62],
  ['178', 247.32, 2.62],
  ['201', 4.34, 3.53],
  ['210', 18.64, 3.53],
  ['214', 24.99, 3.53],
  ['222', 37.69, 3.53],
  ['223', 40.87, 3.53],
  ['258', 151.99, 3.53],
  ['274', 253.59, 3.53],
  ['309', 10.46, 5.33],
  ['325', 37.47, 5.33],
  ['349', 113.67, 5.33],
  ['425', 113.67, 6.99],
  ['437', 151.77, 6.99],
  ['445', 202.57, 6.99],
];

describe('size codes of O-rings', () => {
  it('are those of the series', () => {
    for (const [code, insideMm, sectionMm] of LISTED) assert.deepEqual(ringOfCode(code), { insideMm, sectionMm }, code);
  });

  it('are read however they are written, and nothing else is', () => {
    for (const text of ['-214', 'ISO 3601-1-214A', 'iso 3601-1 214', '214B']) assert.ok(ringOfCode(text), text);
    for (const text of ['14', '2140', '051', '300', '999', '24x2', '']) assert.equal(ringOfCode(text), undefined, text);
  });
});
