/** Two features that share volume are told once, by the pair of members that share most, whichever comes first in the text. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';

const found = (features: readonly string[]) =>
  checkPart(
    `part: block\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 90, y: 40, z: 16 }\nfeatures:\n${features.join('\n')}\n`,
    builtinShop(),
  ).findings.filter((f) => f.rule === 'form/overlap');

describe('form/overlap, order', () => {
  it('tells the pair that shares most', () => {
    const row =
      '  row: { kind: pocket, face: top, at: { x: 30, y: 20 }, pattern: { line: { x: 30, count: 2 } }, size: { x: 20, y: 10 }, corner-radius: 3, depth: 5 }';
    // reaches 1 mm into the first of the row and 4 mm into the second
    const bar =
      '  bar: { kind: pocket, face: top, at: { x: 31.5, y: 20 }, size: { x: 15, y: 20 }, corner-radius: 3, depth: 5 }';
    for (const features of [
      [row, bar],
      [bar, row],
    ]) {
      const [one, ...more] = found(features);
      assert.equal(more.length, 0);
      // 4 mm × 10 mm × 5 mm less what the two rounded corners leave: 2 (1 − π/4) 3² × 5
      assert.ok(Math.abs(Number(one!.facts.shared_mm3) - (200 - 2 * (1 - Math.PI / 4) * 9 * 5)) < 0.1);
    }
  });
});
