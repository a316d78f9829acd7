/** Fixes are offered only when they cured; all the safe ones together leave nothing safe to mend. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, fixAllSafe, fixesFor, readPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { placed, tryFixes } from '../../server/src/rules/fixes';
import { RULES } from '../../server/src/rules/registry';
import { commentsOf } from '../../server/src/text/comments';
import { applyEdits } from '../../server/src/text/edit';
import { plate } from '../bench/parts';
import { patience, random, runs } from '../fuzz/runs';
import { block, hole, pocket } from './parts';
import { shopOf } from './tester';

const shop = builtinShop();
const MESS = `part: mess # of a drawing
units: mm
material: aluminium-6016
body: { x: 70, y: 40, z: 12 }
parameters:
  spare: 3 # unused
features:
  one: # the first
    kind: pocket
    face: top
    at: { x: 18, y: center }
    size: { x: 20, y: 20 }
    corner-radius: 4
    dept: 5 # deep enough
  two:
    kind: pocket
    face: top
    at: { x: 38.4, y: center }
    size: { x: 20, y: 20 }
    corner-radius: 4
    depth: 5
  three:
    kind: hole
    from: tow
    at: { x: 38.4, y: center }
    diameter: 5
    depth: through
`;

/** A share of the rules' bad examples, each by its own shop, by the built-in one and as if that were somebody's own. */
function* judgedTexts(): Generator<readonly [string, Shop]> {
  const draw = random(83);
  const rules = RULES.filter((r) => r.when !== 'job' && r.when !== 'plan');
  for (let i = 0; i < runs(12); i++) {
    const rule = draw.pick(rules);
    yield [rule.bad, draw.pick([shopOf(rule), shop, { ...shop, builtIn: false }])];
  }
  yield [MESS, shop];
}

describe('fixes', () => {
  it('are worked out once for a finding', () => {
    const checked = checkPart(MESS, shop);
    const finding = checked.findings[0]!;
    assert.equal(fixesFor(checked, finding), fixesFor(checked, finding));
  });

  it('are ranked as far as the order turns on it: the last is not judged whole behind one that raises nothing', () => {
    const checked = checkPart(plate(2), shop);
    const finding = checked.findings.find((f) => f.rule === 'stock/as-supplied')!;
    const read: CheckedPart[] = [];
    const fixes = tryFixes(checked, finding, (...of) => {
      read.push(readPart(...of));
      return read.at(-1)!;
    });
    assert.equal(fixes.length, 2);
    assert.deepEqual(
      read.map((after) => after.judging.open.length === 0),
      [true, false],
    );
    assert.equal(read[0]!.findings.length, checked.findings.length - 1);
  });

  it('are refused when they do nothing, overlap, or lose a comment', () => {
    const checked = checkPart(MESS, shop);
    const whole = { block: '', from: 0, to: MESS.length };
    assert.equal(
      placed(
        [
          { span: whole, newText: '' },
          { span: { block: '', from: 3, to: 5 }, newText: '' },
        ],
        checked.tree,
      ),
      undefined,
    );
    const finding = { ...checked.findings.find((f) => f.rule === 'form/unused-parameter')! };
    const pretend = (after: string) => tryFixes(checked, { ...finding }, () => checkPart(after, shop)).length;
    assert.equal(pretend(MESS), 0, 'a text in which the finding still stands');
  });

  it('may show what could not be judged before', () => {
    // `dept` hides pocket one; mended, the wall between the two is too thin: an error, but not the fix’s.
    const checked = checkPart(MESS, shop);
    const finding = checked.findings.find((f) => f.rule === 'form/schema')!;
    const [fix] = fixesFor(checked, finding);
    assert.ok(fix);
    const after = checkPart(applyEdits(MESS, placed(fix.edits, checked.tree)!), shop);
    assert.ok(after.findings.some((f) => f.rule === 'wall/thin' && f.severity === 'error'));
  });

  it('all safe ones together: no safe one is left, no comment lost, the geometry untouched', () => {
    const checked = checkPart(MESS, shop);
    const text = applyEdits(MESS, fixAllSafe(checked));
    const after = checkPart(text, shop);
    for (const finding of after.findings) {
      assert.deepEqual(
        fixesFor(after, finding).filter((f) => f.safe),
        [],
        finding.rule,
      );
    }
    assert.deepEqual(commentsOf(text), commentsOf(MESS));
    assert.match(text, /material: aluminium-6061-t6/);
    assert.match(text, /depth: 5 # deep enough/);
    assert.match(text, /from: two/);
    assert.match(text, /at: \{ x: 38\.4, y: center \}\n {4}size: \{ x: 20, y: 20 \}/);
    assert.ok(
      after.findings.some((f) => f.rule === 'wall/thin'),
      'a change to the part is not made unasked',
    );
  });

  it('are the same where every rule judged the edited text', function () {
    this.timeout(patience(30000));
    for (const [text, by] of judgedTexts()) {
      const [own, whole] = [checkPart(text, by), checkPart(text, by)];
      for (const finding of own.findings) {
        const title = `${finding.rule} ${finding.of.join()}: ${finding.message}`;
        assert.deepEqual(tryFixes(own, finding, readPart), tryFixes(whole, finding, checkPart), title);
      }
    }
  });

  it('of a clean part are none', () => {
    const clean = block(
      [60, 40, 12],
      pocket('w', { at: 'x: 30, y: 20', size: [20, 20], depth: 4 }) + hole('h', 'x: 8, y: 8', 5, 'through'),
    );
    assert.deepEqual(fixAllSafe(checkPart(clean, shop)), []);
  });
});
