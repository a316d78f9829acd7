/** Pages and tables made from rules. */
import assert from 'node:assert/strict';
import { rulePages } from '../../server/generate/rules';
import { pagePath, rulePage, ruleTable, sourceText, topicOf } from '../../server/src/rules/page';
import { RULES, ruleByName, TOPICS } from '../../server/src/rules/registry';
import { marksOf } from './marked';

const thin = ruleByName('wall/thin')!;

describe('a rule’s page', () => {
  it('holds all there is to know', () => {
    const page = rulePage(thin);
    for (const part of [
      thin.summary,
      thin.why,
      thin.formula!,
      thin.bad.trim(),
      thin.good.trim(),
      thin.mends!,
      'limits:\n  wall/thin: { metal: 0.8, plastic: 1.5 }',
      'accept:\n  - { rule: wall/thin',
    ]) {
      assert.ok(page.includes(part), part);
    }
    for (const limit of thin.limits) assert.ok(page.includes(sourceText(limit.source)));
    assert.equal(pagePath(thin), 'schemas/rules/wall/thin.md');
  });
  it('says that a text must be mended where nothing can be accepted', () => {
    assert.ok(rulePage(ruleByName('form/schema')!).includes('cannot be accepted'));
  });
});

describe('the rule table', () => {
  it('has a section for each topic in order, a row for each rule', () => {
    const table = ruleTable(RULES, TOPICS, (r) => `x/${r.name}`);
    const topics = [...new Set(RULES.map(topicOf))];
    assert.deepEqual(
      [...table.matchAll(/^### ([a-z]+)/gm)].map((m) => m[1]),
      topics,
    );
    assert.equal([...table.matchAll(/^\| \[/gm)].length, RULES.length);
  });
  it('is written with the pages', () => {
    assert.equal(rulePages().size, RULES.length + 1);
  });
});

describe('marks in a fixture', () => {
  it('are read with their lines', () => {
    assert.deepEqual(marksOf('a: 1 # ! wall/thin\nb: 2 # no mark\nc: 3 # ! hole/sloped-start, hole/crosses\n'), [
      { line: 1, rule: 'wall/thin' },
      { line: 3, rule: 'hole/sloped-start' },
      { line: 3, rule: 'hole/crosses' },
    ]);
  });
});
