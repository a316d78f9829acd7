/** tol/geometric and what facts and hover say of ISO 2768-2. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { faceLines, partGenerals } from '../../../server/src/report/tolerances';
import { checkPart } from '../../../server/src/rules/check';
import { block, hole, pocket } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'tol/geometric';
const text = (tolerance: string, stock = 'form: flat-bar, sawn: [left, right]', more = '', tail = '') =>
  block(
    [60, 40, 20],
    hole('tie', 'x: center, y: center', 6, 'through') + more,
    `part: ballast\nmaterial: aluminium-6061-t6\ntolerance: ${tolerance}\nstock: { ${stock} }\n`,
    tail,
  );

describe('tol/geometric', () => {
  it('tells faces that stay as sawn: ISO 2768-2 K, 40 mm flat to 0.2, square by 40 to 0.4; a saw holds 1', () => {
    const found = onlyFinding(RULE, text('ISO 2768-mK'));
    assert.deepEqual(found.of, ['left', 'right']);
    assert.deepEqual([found.facts.flat_mm, found.facts.square_mm, found.facts.sawn_mm], [0.2, 0.4, 1]);
    assert.match(found.message, /withdrawn 2021/);
    assert.match(mended(RULE, text('ISO 2768-mK')), /tolerance: ISO 2768-m\n/);
  });

  it('is quiet without a class for faces, and where the face is cut, by a set-up, its stock or an outline', () => {
    assert.deepEqual(findingsOf(RULE, text('ISO 2768-m')), []);
    assert.deepEqual(findingsOf(RULE, text('ISO 2768-mK', 'form: flat-bar')), []);
    assert.deepEqual(
      findingsOf(RULE, text('ISO 2768-mK', 'form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 }')),
      [],
    );
    const ends =
      pocket('a', { at: 'x: 0, y: center', size: [10, 60], depth: 'through' }) +
      pocket('b', { at: 'x: 60, y: center', size: [10, 60], depth: 'through' });
    assert.deepEqual(findingsOf(RULE, text('ISO 2768-mK', undefined, ends)), []);
  });

  it('facts and hover give straightness, flatness, perpendicularity, symmetry and run-out, and say that they are withdrawn', () => {
    const { part } = checkPart(text('ISO 2768-mK'), builtinShop());
    const lines = faceLines(part);
    for (const what of ['straightness and flatness', 'perpendicularity', 'symmetry', 'run-out'])
      assert.ok(
        lines.some((l) => l.startsWith(what) && /ISO 2768-2:1989 \(withdrawn 2021, ISO 22081/.test(l)),
        what,
      );
    // K, 60 mm: flat to 0.2; 20 and 40: square to 0.4; symmetry 0.6; run-out 0.2.
    const values = partGenerals(part)
      .filter((g) => /2768-2/.test(g.source))
      .map((g) => g.value);
    assert.deepEqual(values, [0.2, 0.2, 0.2, 0.4, 0.4, 0.4, 0.6, 0.2]);
  });
});
