/**
 * Figures behind findings, on pages and in hovers: each key in a rule's source has a name of the shop and a unit; no
 * key of a program is read. What the examples make of them is held with the pages (`tests/rules/page.test.ts`).
 */
import assert from 'node:assert/strict';
import * as ast from 'typescript/unstable/ast';
import { GENERAL, PLAIN } from '../../server/src/rules/fact-names';
import { NAMES_OF_RULE } from '../../server/src/rules/fact-names-of-rules';
import { figuresOf } from '../../server/src/rules/fact-words';
import { RULES } from '../../server/src/rules/registry';
import { faultsOfText } from '../rules/words/terms';
import { theSource } from './source';

/** Keys of a fact as they stand in the source of a rule, with the rule: `wall/thin`, `thickness_mm`. */
function* keysOfSource(): Generator<readonly [file: string, rule: string, key: string]> {
  for (const file of theSource().files) {
    const rule = /^server\/src\/rules\/([a-z]+\/[a-z-]+)\.ts$/.exec(file)?.[1];
    if (rule === undefined || rule.startsWith('kit/')) continue;
    const waiting: ast.Node[] = [theSource().syntax(file)];
    for (let node = waiting.pop(); node; node = waiting.pop()) {
      const named = ast.isPropertyAssignment(node) && ast.isIdentifier(node.name) ? node.name.text : '';
      if (/^[a-z0-9]+(?:_[a-z0-9]+)+$/.test(named)) yield [file, rule, named];
      node.forEachChild((child) => {
        waiting.push(child);
      });
    }
  }
}

/** `tolerance IT…` with a value in it, `thickness` with one after it. */
const KNOWN = [...PLAIN, ...[GENERAL, ...Object.values(NAMES_OF_RULE)].flatMap((names) => Object.values(names))]
  .filter((name) => name !== '')
  .map((name) => new RegExp(`^${(name.includes('…') ? name : `${name} …`).replace('…', '7\\b.*')}$`));

/** Its name is one of the tables', or the message says it. A file beside the rules hands its figures to some rule of its topic. */
function named(rule: string, key: string): boolean {
  const topic = rule.slice(0, rule.indexOf('/') + 1);
  const rules = RULES.some((r) => r.name === rule)
    ? [rule]
    : Object.keys(NAMES_OF_RULE).filter((name) => name.startsWith(topic));
  const other = key.replace(/_high_|^high_/, (end) => end.replace('high', 'low'));
  return rules.some((name) =>
    figuresOf({ rule: name, facts: { [key]: 7, [other]: 7 } }).every((figure) => KNOWN.some((k) => k.test(figure))),
  );
}

describe('figures behind a finding', function () {
  this.timeout(120_000);

  it('have names for every key of the source', () => {
    const keys = [...keysOfSource()];
    assert.ok(keys.length > 300, `only ${keys.length} keys`);
    assert.deepEqual(
      keys.filter(([, rule, key]) => !named(rule, key)),
      [],
    );
  });
  it('are named for rules that there are, in plain words', () => {
    for (const [rule, names] of Object.entries(NAMES_OF_RULE)) {
      assert.ok(
        RULES.some((r) => r.name === rule),
        rule,
      );
      assert.deepEqual(Object.values(names).flatMap(faultsOfText), [], rule);
    }
  });
  it('have the unit that their key says, and no more digits than a workshop reads', () => {
    const figures = (rule: string, facts: Record<string, number | string>) => figuresOf({ rule, facts });
    assert.deepEqual(figures('wall/thin', { thickness_mm: 0.4, limit_mm: 0.8 }), ['thickness 0.4 mm', 'limit 0.8 mm']);
    assert.deepEqual(figures('hole/sloped-start', { slope_deg: 28 }), ['slope 28°']);
    assert.deepEqual(figures('machine/feed', { feed_mm_per_min: 400 }), ['feed of the machine 400 mm/min']);
    assert.deepEqual(figures('machine/power', { power_w: 651.256, has_w: 280 }), ['power 651 W', 'machine 280 W']);
    assert.deepEqual(figures('tol/process', { grade: 6, width_mm: 0.008 }), [
      'tolerance IT6',
      'tolerance width 0.008 mm',
    ]);
    assert.deepEqual(figures('cost/tool-changes', { saved_low_min: 1.999, saved_high_min: 4.249 }), [
      'saves 2 to 4.25 min',
    ]);
    assert.deepEqual(figures('tol/chain', { link_1: 'body x (ISO 2768-m)', link_1_mm: 0.3 }), [
      'body x (ISO 2768-m) ±0.3 mm',
    ]);
    assert.deepEqual(figures('hold/into-table', { set_up: 'first', meets: 'table' }), []);
  });
});
