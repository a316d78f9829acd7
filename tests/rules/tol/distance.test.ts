/** A toleranced distance is judged along the axis that it says, or that can only be meant; what nothing could check is told. */
import assert from 'node:assert/strict';
import { block, hole } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'tol/distance';
const part = (distance: string) =>
  block(
    [100, 50, 12],
    hole('a', 'x: 20, y: 15', '8 H7', 'through') +
      hole('b', 'x: 80, y: 15', '8 H7', 'through') +
      hole('c', 'x: 80, y: 35', '8 H7', 'through') +
      hole('row', 'x: 50, y: 40', '4', 'through', 'pattern: { line: { x: 30, count: 3 } }'),
    undefined,
    `tolerances:\n  - ${distance}\n`,
  );
const told = (distance: string) => findingsOf(RULE, part(distance)).map((f) => f.message);

describe(RULE, () => {
  it('the axis is clear where the ends are apart along one, or a face says it, or the length fits one', () => {
    for (const clear of [
      '{ distance: 60 ±0.02, of: [a, b] }',
      '{ distance: 20 ±0.02, of: [left, a] }',
      '{ distance: 12 ±0.02, of: [bottom, top] }',
      '{ distance: 60 ±0.02, of: [a, c] }',
      '{ distance: 20 ±0.02, of: [a, c] }',
      '{ distance: 30 ±0.02, of: ["row[1]", "row[2]"] }',
      '{ distance: 30 ±0.02, of: [a, row] }',
    ])
      assert.deepEqual(told(clear), [], clear);
  });

  it('and then it is followed as if it were written', () => {
    const links = (distance: string) =>
      onlyFinding('tol/chain', part(distance).replace('units: mm', 'units: mm\ntolerance: ISO 2768-m')).facts;
    assert.deepEqual(links('{ distance: 60 ±0.02, of: [a, b] }'), links('{ distance: 60 ±0.02, of: [a, b], axis: x }'));
    assert.deepEqual(links('{ distance: 20 ±0.02, of: [a, c] }'), links('{ distance: 20 ±0.02, of: [a, c], axis: y }'));
  });

  it('where it is not, the axes are named, and a fix writes one with its length', () => {
    const text = part('{ distance: 63.25 ±0.02, of: [a, c] }');
    assert.match(
      onlyFinding(RULE, text).message,
      /apart along x and y, so it is not checked\. Write axis: x or axis: y\./,
    );
    assert.match(mended(RULE, text, /axis y/), /\{ distance: 20 ±0\.02, of: \[a, c\], axis: y \}/);
  });

  it('a length that the part does not have', () => {
    const text = part('{ distance: 62 +0.1/-0, of: [a, b] }');
    const found = onlyFinding(RULE, text);
    assert.match(found.message, /written as 62 mm\. Along x they are 60 mm apart/);
    assert.equal(found.facts.apart_mm, 60);
    assert.match(mended(RULE, text), /distance: 60 \+0\.1\/-0,/);
    assert.match(told('{ distance: 25 ±0.1, of: ["row[1]", "row[2]"] }')[0]!, /they are 30 mm apart/);
  });
});
