/** Fixes as a designer would have them: called by what comes of them, the one first that raises nothing new, causes before consequences. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { placed } from '../../server/src/rules/fixes';
import type { Finding } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { actionsOf } from '../../server/src/service/actions';
import { applyEdits } from '../../server/src/text/edit';
import { runs } from '../fuzz/runs';
import { ALL, snapshotOf } from './alone';

const SHOP = builtinShop();
/** One rule in so many, but for `FUZZ_RUNS`. */
const SHARE = 11;
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

  it('brings no error and leaves none that raises less behind it: a share of the rules’ own parts', () => {
    let tried = 0;
    for (const [i, { bad, shop, when }] of RULES.entries()) {
      if (shop || when === 'job' || i % SHARE >= runs(1)) continue;
      const checked = checkPart(bad, SHOP);
      const key = (f: Finding) => `${f.severity === 'error' ? 'error' : ''} ${f.rule} ${f.of.join()}`;
      const counted = (c: CheckedPart) => {
        const all = new Map<string, number>();
        for (const f of c.findings) if (f.severity !== 'hint') all.set(key(f), (all.get(key(f)) ?? 0) + 1);
        return all;
      };
      const before = counted(checked);
      for (const finding of checked.findings.filter((f) => f.severity !== 'hint').slice(0, 2)) {
        const fixes = fixesFor(checked, finding);
        const raised = fixes.map((fix) => {
          const after = counted(checkPart(applyEdits(bad, placed(fix.edits, checked.tree)!), SHOP));
          const more = [...after].map(([k, n]) => [k, Math.max(0, n - (before.get(k) ?? 0))] as const);
          return more.reduce((sum, [k, n]) => sum + n * (k.startsWith('error') ? 100 : 1), 0);
        });
        if (raised.length === 0) continue;
        tried++;
        const what = `${finding.rule}: ${fixes.map((f, n) => `${f.title} raises ${raised[n]}`).join('; ')}`;
        assert.ok(raised[0]! < 100, what);
        // Of two readings of a word neither is the first, whatever the shop has for either.
        if (!fixes[0]!.equal) assert.equal(raised[0], Math.min(...raised), what);
        if (!fixes[0]!.equal && raised[0] === 0)
          assert.ok(
            raised.every((n) => n < 100),
            what,
          );
      }
    }
    assert.ok(tried > 5, `${tried}`);
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
