/** Pages and tables made from rules. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { outdated } from '../../server/generate/main';
import { rulePages } from '../../server/generate/rules';
import { pagePath, rulePage, ruleTable, sourceText, topicOf } from '../../server/src/rules/page';
import { RULES, ruleByName, TOPICS } from '../../server/src/rules/registry';
import { marksOf } from './marked';
import { faultsOfText } from './words/terms';

/** A word of a program, or one that the shop does not use for a figure. */
const INNER =
  /_|(?<!as )\bset up\b|\b(?:does|meets|judged|wanted|would do|on hand|really|common practice)\b|NaN|undefined/;

/** They judge every rule's example: once for all. */
const pages = rulePages();
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
  it('is written with the pages, and all are current', () => {
    assert.equal(pages.size, RULES.length + 1);
    assert.deepEqual(outdated(pages), [], 'run `npm run generate`');
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

describe('every rule’s page', function () {
  this.timeout(120_000);
  for (const rule of RULES)
    it(`${rule.name} has its four points in plain words`, () => {
      const page = pages.get(pagePath(rule))!;
      const section = (title: string) =>
        new RegExp(`## ${title}\\n\\n([\\s\\S]*?)(?=\\n## |$)`).exec(page)?.[1]?.trim() ?? '';
      const [why, how, limits, change] = ['Why', 'How it is worked out', 'Limits', 'What to change'].map(section);
      assert.ok(why!.length > 60, 'what it means at the machine');
      assert.ok(
        how!.length > 40 && (how !== rule.formula || rule.bad === ''),
        'how it is worked out, with the example’s numbers',
      );
      // The example is the one of the page: what is said of it are this part’s names and numbers.
      if (rule.bad !== '') assert.match(how!, /^In the example below:\n\n> \S/m);
      assert.ok(rule.limits.every((l) => limits!.includes(`\`${l.name}\``) && limits!.includes(sourceText(l.source))));
      assert.ok(limits!.length > 30, 'the limit with its source');
      // A number to set has its source in the table; without one the page says which text, standard or shop file it is.
      for (const { name, source } of rule.limits) assert.match(source, /\S{3}/, `${name} has no source`);
      assert.ok(rule.limits.length > 0 || rule.bounds !== undefined || rule.name.startsWith('form/'), 'no source');
      assert.ok(rule.bounds === undefined || (rule.limits.length === 0 && limits!.includes(rule.bounds)), 'bounds');
      assert.ok(change!.length > 20, 'what to change');
      assert.doesNotMatch(/^Its numbers:.*$/m.exec(how!)?.[0] ?? '', INNER, 'names of figures');
      assert.doesNotMatch(page.split('## Limits')[0]!, /`[a-z0-9]+_[a-z0-9_]+`/, 'a key of a program');
      const prose = [why!, how!, ...(rule.limits.length > 0 ? [] : [limits!]), change!.split('\n\nTo accept it')[0]!];
      assert.deepEqual(
        prose.flatMap((text) => text.split('\n\n').filter((p) => !p.startsWith('Its numbers:'))).flatMap(faultsOfText),
        [],
      );
    });
  it('explains a rule of thumb once, in the README', () => {
    const explained = /A \*rule of thumb\* is/g;
    assert.equal(readFileSync('README.md', 'utf8').match(explained)?.length, 1);
    for (const [path, page] of pages) assert.doesNotMatch(page, explained, path);
  });
});
