/** Every rule of the registry: its examples run, its fixes cure, its limits have sources, its page is there. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { RULES, ruleByName, TOPICS } from '../../server/src/rules/registry';
import { testBad, testFixes, testGood } from './tester';

const UNITS = ['mm', 'deg', 'ratio', 'percent', 'count', 'um', 'mpa', 'min'];

describe('every rule', () => {
  // That each is current is held with all that is generated (page.test.ts).
  const table = readFileSync('schemas/RULES.md', 'utf8');
  for (const rule of RULES) {
    describe(rule.name, () => {
      // Rules on whole jobs and on plans are tried in tests/planning; no text makes the checker fail.
      if (rule.when !== 'job' && rule.when !== 'plan' && rule.name !== 'form/checker-failed') {
        it('is raised by its bad example, without another error', () => testBad(rule));
        it('is not raised by its good example', () => testGood(rule));
        it('offers only fixes that cure', function () {
          this.timeout(20000);
          const tried = testFixes(rule);
          if (rule.mend) assert.ok(tried > 0, 'it has fixes, but none cures its own bad example');
        });
      }
      it('says what it is', () => {
        assert.match(rule.name, /^[a-z]+\/[a-z][a-z-]*$/);
        assert.ok(TOPICS.has(rule.name.split('/')[0]!), 'its topic is not in TOPICS');
        assert.ok(rule.summary.length > 15 && !rule.summary.includes('\n'), 'the summary is one line');
        assert.ok(rule.why.length > 60, 'why it matters takes a sentence or two');
        assert.equal(ruleByName(rule.name), rule, 'its name is taken twice');
        if (rule.mend) assert.ok(rule.mends, 'its page does not say which fixes are offered');
      });
      it('has a source and a unit for every limit', () => {
        for (const limit of rule.limits) {
          assert.match(limit.name, /^[a-z][a-z0-9-]*$/);
          assert.ok(Number.isFinite(limit.value) && UNITS.includes(limit.unit), `${limit.name}: ${limit.value}`);
          assert.ok(limit.what.length > 10, `${limit.name} does not say what it limits`);
          assert.ok(limit.source.length > 10, `${limit.name} has no source`);
        }
        assert.equal(new Set(rule.limits.map((l) => l.name)).size, rule.limits.length, 'a limit is named twice');
      });
      it('has a page', () => {
        assert.ok(existsSync(`schemas/rules/${rule.name}.md`), 'npm run generate');
      });
      it('has its row in the table', () => {
        assert.ok(table.includes(`[${rule.name}](rules/${rule.name}.md)`));
      });
    });
  }

  it('is known to the schemas: as a name to accept, and by its limits', () => {
    const part = JSON.parse(readFileSync('schemas/part.schema.json', 'utf8'));
    const shop = JSON.parse(readFileSync('schemas/shop.schema.json', 'utf8'));
    const acceptable: string[] = part.properties.accept.items.properties.rule.enum;
    for (const rule of RULES) {
      const judged = rule.when !== 'read' && rule.when !== 'last' && rule.when !== 'job';
      assert.equal(acceptable.includes(rule.name), judged, `${rule.name} in accept`);
      const limits = Object.keys(shop.properties.limits.properties[rule.name]?.properties ?? {});
      assert.deepEqual(
        limits,
        rule.limits.map((l) => l.name),
        `limits of ${rule.name}`,
      );
    }
  });
});
