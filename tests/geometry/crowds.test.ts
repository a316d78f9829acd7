/** What many cuts cost is counted in units of work, not in time: it grows as their number does. */
import { strict as assert } from 'node:assert';
import { within } from '../../server/src/effort';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, readPart } from '../../server/src/rules/check';
import { brief, firstOfEach } from '../../server/src/rules/shown-few';
import { manyErrors, separateHoles, sieve } from '../bench/heavy';

/** Units spent on the walls of a part. */
function spentOnWalls(text: string): { readonly units: number; readonly unjudged: number; readonly walls: number } {
  const { solid } = readPart(text, builtinShop());
  const budget = { remaining: 1e12 };
  const none = () => assert.fail('the budget reaches');
  const [walls, unjudged] = within(budget, () => [solid.walls(2.6), solid.unjudgedWalls(2.6)] as const, none);
  return { units: 1e12 - budget.remaining, unjudged, walls: walls.length };
}

describe('many cuts', () => {
  it('that stay clear of each other cost four times as much where they are four times as many', () => {
    const [few, many] = [separateHoles(500), separateHoles(2000)].map(spentOnWalls);
    assert.equal(few!.unjudged + many!.unjudged, 0);
    assert.ok(many!.units <= 4.4 * few!.units + 100, `${few!.units} → ${many!.units}`);
  });

  it('in a pattern are searched between once for each way in which they lie', () => {
    const [few, many] = [sieve(6, 2), sieve(18, 2)].map(spentOnWalls);
    assert.equal(few!.unjudged + many!.unjudged, 0);
    // 9 times as many holes: each pair is counted, but what had to be searched for is searched for once.
    assert.ok(many!.units <= 9 * few!.units, `${few!.units} → ${many!.units}`);
    // between 324 holes in rows and columns stand 2 × 18 × 17 webs of 0.5 mm and 2 × 17 × 17 aslant, 2 √2 − 1.5 mm
    assert.equal(many!.walls, 2 * 18 * 17 + 2 * 17 * 17);
  });

  it('that run into each other are judged as far as the work allowed goes, and the rest is said', () => {
    const found = checkPart(sieve(7, 1), builtinShop()).findings;
    const told = found.filter((f) => f.rule === 'form/not-judged');
    assert.equal(told.length, 1);
    assert.match(told[0]!.message, /pairs were left out/);
  });

  it('of one kind are shown by the hundred, and the rest is counted', () => {
    const { findings } = checkPart(manyErrors(150), builtinShop());
    const { shown, leftOut } = firstOfEach(findings.filter((f) => f.rule === 'form/schema'));
    assert.equal(shown.length, 100);
    assert.equal(
      leftOut.reduce((sum, l) => sum + l.count, 0),
      findings.filter((f) => f.rule === 'form/schema').length - 100,
    );
  });

  it('are quoted briefly', () => {
    const said = brief(`There is no \`${'x'.repeat(5000)}\`, but \`seat\`.`);
    assert.ok(said.length < 120);
    assert.match(said, /^There is no `x+…x+`, but `seat`\.$/);
  });
});
