/** Times, cost and savings of parts drawn at random: finite, ordered, additive; every fix saves what it says and cures. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { costOf } from '../../server/src/planning/cost';
import { pieceTime, spentOn } from '../../server/src/planning/piece-time';
import { costFindings } from '../../server/src/planning/savings';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { factsText } from '../report/told';
import { parts, textOf } from './parts';

const SHOP = builtinShop();

/** A plate with up to four holes and pockets in a row, of sizes that are nearly alike. */
const plates = fc
  .array(
    fc.oneof(
      fc.tuple(fc.constantFrom(4.8, 5, 5.3, 5.5, 6.6), fc.constantFrom('through', '8', '8, bottom: flat')).map(
        ([d, depth]) =>
          (x: number) =>
            `{ kind: hole, face: top, at: { x: ${x}, y: 20 }, diameter: ${d}, depth: ${depth} }`,
      ),
      fc
        .tuple(
          fc.constantFrom(1.5, 2, 3, 4, 5, 6),
          fc.integer({ min: 3, max: 12 }),
          fc.constantFrom('', ', floor-radius: 1'),
        )
        .map(
          ([r, depth, floor]) =>
            (x: number) =>
              `{ kind: pocket, face: top, at: { x: ${x}, y: 30 }, size: { x: 20, y: 40 }, corner-radius: ${r}, depth: ${depth}${floor} }`,
        ),
      fc.constantFrom(0.7, 1, 2, 4).map((r) => () => `{ kind: round, edges: top, radius: ${r} }`),
    ),
    { minLength: 2, maxLength: 4 },
  )
  .map((features) => {
    const lines = features.map((f, i) => `  f${i}: ${f(20 + 26 * i)}`);
    return `part: plate\nmaterial: aluminium-6061-t6\nbody: { x: 230, y: 60, z: 16 }\nfeatures:\n${lines.join('\n')}\n`;
  });

describe('times of parts drawn at random', () => {
  it('are finite and ordered, grow with the pieces, and are told without a hole in the words', () => {
    fc.assert(
      fc.property(parts(6), fc.integer({ min: 2, max: 50 }), (made, quantity) => {
        const checked = checkPart(textOf(made), SHOP);
        const time = pieceTime(checked)!;
        const { firstPiece, eachFurther, setups } = time.machine;
        for (const [low, high] of [firstPiece, eachFurther, time.hands.each, ...setups.map((s) => s.cutting)])
          assert.ok(Number.isFinite(high) && low >= 0 && low <= high, `${low} to ${high}`);
        for (const s of setups)
          assert.ok(Math.abs(s.cutting[1] - s.cuts.reduce((sum, c) => sum + c.minutes[1], 0)) < 1e-9);
        const [one, all] = [spentOn(time, 1), spentOn(time, quantity)];
        assert.ok(all.machine[0] >= one.machine[0] && all.machine[1] <= quantity * one.machine[1] + 1e-9);
        assert.ok(all.person[0] >= all.machine[0]);
        const cost = costOf([{ checked, quantity }])!;
        assert.ok(Math.abs(cost.total[0] - cost.material[0] - cost.machine[0] - cost.person[0]) < 1e-9);
        assert.doesNotMatch(factsText('p', checked), /NaN|Infinity|undefined|null/);
      }),
      { seed: 20261125, numRuns: 12 },
    );
  });

  it('every saving is one: the changed part takes so much less, has no error more, and is not told the same again', () => {
    let told = 0;
    fc.assert(
      fc.property(plates, (text) => {
        const checked = checkPart(text, SHOP);
        for (const finding of costFindings(checked)) {
          told++;
          const [fix] = fixesFor(checked, finding);
          assert.ok(fix, finding.message);
          const after = checkPart(applyEdits(text, locateEdits(checked.tree, fix.edits)), SHOP);
          const [was, is] = [pieceTime(checked)!, pieceTime(after)!].map((t) => t.machine.firstPiece);
          const saved = [was![0] - is![0], was![1] - is![1]].sort((a, b) => a - b);
          assert.ok(Math.abs(saved[0]! - Number(finding.facts.saved_low_min)) < 2e-3, finding.message);
          assert.ok(Number(finding.facts.saved_low_min) > 0);
          // Another change to it may come up; the same one, farther on, must not.
          const kind = (title: string) => title.replace(/(?<![a-z])[\d.]+/g, '#');
          const again = costFindings(after)
            .filter((f) => f.of.some((n) => finding.of.includes(n)))
            .flatMap((f) => fixesFor(after, f).map((x) => kind(x.title)));
          assert.ok(!again.includes(kind(fix.title)), `${finding.message} | ${again.join()}`);
        }
      }),
      { seed: 20261125, numRuns: 6 },
    );
    assert.ok(told > 0, 'nothing was told at all');
  });
});
