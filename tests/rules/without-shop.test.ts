/** Rules said to need no shop look at none: they are run over every rule's own examples with a shop that may not be touched. */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { resolvePart } from '../../server/src/model/part';
import { unreadShop } from '../../server/src/model/unread-shop';
import { RULES, ruleByName } from '../../server/src/rules/registry';
import { contextOf } from '../../server/src/rules/run';
import { judgesBy, WITHOUT_SHOP } from '../../server/src/rules/without-shop';
import { readText } from '../../server/src/text/read';

/** They ask how wide an edge a file breaks at most, which has a default. */
const BY_HAND: ReadonlySet<string> = new Set(['setup/unassigned', 'access/no-setup']);

describe('rules that need no shop', () => {
  const texts = RULES.filter((r) => r.when !== 'job').flatMap((r) => [r.bad, r.good]);
  const parts = texts.map((text) => {
    const tree = readText(text);
    const part = resolvePart(tree);
    return { tree, part, solid: solidOf(part) };
  });
  const untouchable = (rule: string) =>
    new Proxy(builtinShop(), {
      get(_, key) {
        if (key === 'unread' && rule === 'form/unknown-name') return 'is not there';
        if (key === 'limits' && BY_HAND.has(rule)) return new Map();
        throw new Error(`${rule} looks at the shop's ${String(key)}`);
      },
    });

  it('are rules that there are, with no limit that a shop may set', () => {
    for (const name of WITHOUT_SHOP) {
      const rule = ruleByName(name);
      assert.ok(rule && rule.when !== 'plan' && rule.when !== 'job', name);
      // It judges what the others found, with a shop or without.
      assert.notEqual(name, 'form/unneeded-accept');
      assert.deepEqual(
        rule.limits.map((l) => l.name),
        name === 'setup/unassigned' ? ['by-hand'] : [],
        name,
      );
    }
  });

  for (const name of WITHOUT_SHOP)
    it(name, () => {
      const rule = ruleByName(name)!;
      for (const { tree, part, solid } of parts)
        if (part.body || rule.when === 'text' || rule.when === 'read')
          assert.ok([...rule.find(contextOf(rule, { part, shop: untouchable(name), solid, tree }))]);
    });

  it('are the only ones that judge by a shop that could not be had', () => {
    const unread = unreadShop('x.shop.yaml', 'is not there');
    for (const rule of RULES) {
      assert.equal(judgesBy(rule, unread), WITHOUT_SHOP.has(rule.name), rule.name);
      assert.ok(judgesBy(rule, builtinShop()));
    }
  });
});
