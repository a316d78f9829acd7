/** Fixes as a designer would have them: called by what comes of them, the one first that raises nothing new, causes before consequences. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { placed } from '../../server/src/rules/fixes';
import { RULES } from '../../server/src/rules/registry';
import { actionsOf } from '../../server/src/service/actions';
import { applyEdits } from '../../server/src/text/edit';
import { ALL, snapshotOf } from './alone';

const SHOP = builtinShop();
const badOf = (name: string) => RULES.find((r) => r.name === name)!.bad;

/** Of each fix of a rule's own bad example: its title, and the warnings and errors that were not there before. */
function raised(rule: string): readonly { readonly title: string; readonly news: number }[] {
  const text = badOf(rule);
  const checked = checkPart(text, SHOP);
  const said = (c: typeof checked) =>
    c.findings.filter((f) => f.severity !== 'hint').map((f) => `${f.rule} ${f.of.join()}`);
  const before = new Set(said(checked));
  const finding = checked.findings.find((f) => f.rule === rule)!;
  return fixesFor(checked, finding).map((fix) => {
    const after = checkPart(applyEdits(text, placed(fix.edits, checked.tree)!), SHOP);
    return { title: fix.title, news: said(after).filter((f) => !before.has(f)).length };
  });
}

describe('the best fix', () => {
  it('is the one that cures this and raises nothing else', () => {
    for (const rule of ['wall/thin', 'hole/odd-diameter', 'hold/grip', 'wall/slender', 'corner/inside-radius']) {
      const news = raised(rule).map((r) => r.news);
      assert.ok(news.length > 1, rule);
      assert.deepEqual(
        news,
        [...news].sort((a, b) => a - b),
        rule,
      );
      assert.equal(news[0], 0, rule);
    }
    // Some do raise the next, and stand behind.
    assert.ok(raised('wall/thin').at(-1)!.news > 0);
  });

  it('is called by what comes of it: a place by where it is then', () => {
    const titles = [...raised('wall/thin'), ...raised('hole/breaks-out'), ...raised('hole/near-edge')].map(
      (r) => r.title,
    );
    const moves = titles.filter((t) => t.startsWith('Move '));
    assert.ok(moves.length >= 4, titles.join('\n'));
    for (const title of moves)
      assert.match(title, /^Move [a-z-]+ to (?:[a-z]+ [\d.a-z]+)(?:, [a-z]+ [\d.a-z]+)$/, title);
    assert.ok(
      titles.every((t) => !/\d\.\d{3}/.test(t)),
      titles.join('\n'),
    );
  });

  it('two names that are as near are both offered, and neither is written unasked', async () => {
    const text =
      'part: a\nbody: { x: 40, y: 40, z: 16 }\nfeatures:\n  fix: { kind: hole, face: top, at: { x: center, y: center }, thread: M5.5, depth: through }\n';
    const snapshot = await snapshotOf(text);
    const offered = actionsOf(snapshot, ALL, ['quickfix']).filter((a) => /^Write `M[56]`$/.test(a.title));
    assert.deepEqual(
      offered.map((a) => [a.title, a.isPreferred]),
      [
        ['Write `M5`', undefined],
        ['Write `M6`', undefined],
      ],
    );
    assert.deepEqual(actionsOf(snapshot, ALL, ['source.fixAll.scribeline']), []);
  });

  it('what cannot be made comes before what may go wrong', async () => {
    const text = badOf('hold/in-the-cut').replace(/grip: \d+/, 'grip: 3');
    const snapshot = await snapshotOf(text);
    const first = actionsOf(snapshot, ALL, ['quickfix']).map((a) => a.diagnostics?.[0]?.severity ?? 9);
    assert.ok(first.length > 2);
    assert.deepEqual(first, [...first].sort());
  });
});
