/** hold/into-table: what comes out below goes into what is there. Common practice, no source. */
import assert from 'node:assert/strict';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const part = (hold: string, depth: string) => `${ALUMINIUM}body: { x: 120, y: 80, z: 10 }
features:
  window: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 30 }, corner-radius: 6, depth: ${depth} }
setups:
  first: { up: top, hold: ${hold}, cuts: [window] }
`;
const clamped = (on: string) => `{ clamps: [{ x: 8, y: 40 }, { x: 112, y: 40 }]${on} }`;

describe('hold/into-table', () => {
  it('tells a through cut on the table, which clamps stand on where nothing is said; none on a plate, none of a blind one', () => {
    for (const on of ['', ', on: table'])
      assert.equal(onlyFinding('hold/into-table', part(clamped(on), 'through')).facts.meets, 'table');
    assert.deepEqual(findingsOf('hold/into-table', part(clamped(', on: plate'), 'through')), []);
    assert.deepEqual(findingsOf('hold/into-table', part(clamped(''), '9')), []);
    assert.match(mended('hold/into-table', part(clamped(''), 'through')), /on: plate/);
  });

  it('and beside an angle plate, unless it hangs there', () => {
    const against = (out: string) =>
      `{ angle-plate: angle-plate-100, against: back, clamps: [{ x: 20, z: 5 }, { x: 100, z: 5 }]${out} }`;
    assert.equal(findingsOf('hold/into-table', part(against(''), 'through')).length, 1);
    assert.deepEqual(findingsOf('hold/into-table', part(against(', out: 5'), 'through')), []);
  });
});
