/** From text to findings: order, acceptance, limits, one rule failing, nothing thrown, work taken over. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { featureNameOf } from '../../server/src/model/member-name';
import { accepts } from '../../server/src/rules/accept';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';
import type { Finding, Rule } from '../../server/src/rules/kit/rule';
import { RULES, ruleByName } from '../../server/src/rules/registry';
import { contextOf, limitOf, runOne } from '../../server/src/rules/run';
import { ACETAL, ALUMINIUM, block, hole, pocket } from './parts';

const shop = builtinShop();
const THIN = pocket('well', { at: 'x: 30, y: 20', size: [20, 20], depth: 7.6 });
const check = (text: string) => checkPart(text, shop);
const rules = (text: string) => check(text).findings.map((f) => f.rule);

describe('checkPart', () => {
  it('lists findings in the order of the text', () => {
    const text = block([60, 40, 8], THIN + hole('out', 'x: 90, y: 20', 5, 'through'));
    const { findings, tree } = check(`${text}accept:\n  - { rule: wall/slender, because: x }\n`);
    const starts = findings.map((f) => tree.locate(f.span).start);
    assert.ok(findings.length >= 3);
    assert.deepEqual(
      starts,
      [...starts].sort((a, b) => a - b),
    );
  });

  it('answers for any text, and says something about a broken one', () => {
    for (const text of [
      '',
      '\n',
      ':',
      '{',
      '- a\n',
      'part: [',
      'part: x',
      'body: 3\n',
      '\u0000',
      `${ALUMINIUM}features: 7\n`,
      'a: &b *b',
    ]) {
      const checked = check(text);
      assert.ok(Array.isArray(checked.findings), text);
      if (text.trim() !== '') assert.ok(checked.findings.length > 0, `nothing said of ${JSON.stringify(text)}`);
    }
  });

  it('judges what needs no solid even where the body is broken', () => {
    const text = `${ALUMINIUM}body: { x: 60 }\nparameters: { spare: 3 }\nfeatures:\n${THIN}`;
    assert.deepEqual(new Set(rules(text)), new Set(['form/schema', 'form/unused-parameter']));
  });

  it('takes the same text and shop for the same answer', () => {
    const one = check(block([60, 40, 8], THIN));
    assert.equal(checkPart(one.tree.text, shop, one), one);
    assert.notEqual(checkPart(`${one.tree.text}\n`, shop, one), one);
  });

  it('finds the same with and without what came before', () => {
    const texts = [
      block([60, 40, 8], THIN),
      block([60, 40, 8], THIN + hole('mount', 'x: 8, y: 8', 5, 'through')),
      block([60, 40, 10], THIN + hole('mount', 'x: 8, y: 8', 5, 'through')),
      block([60, 40, 10], hole('mount', 'x: 8, y: 8', 5, 'through')),
      block([60, 40, 10], THIN.replace('7.6', '9.5') + hole('mount', 'x: 19, y: 8', 5, 'through')),
    ];
    let before = check(texts[0]!);
    for (const text of texts) {
      before = checkPart(text, shop, before);
      const plain = (f: Finding) => [f.rule, f.severity, f.message, f.of, f.facts];
      assert.deepEqual(before.findings.map(plain), check(text).findings.map(plain));
    }
  });
});

describe('accept', () => {
  const finding = (rule: string, ...of: string[]): Finding => ({
    rule,
    severity: 'error',
    message: '',
    of,
    span: { block: '', from: 0, to: 0 },
    related: [],
    facts: {},
  });
  const entry = (rule: string, of?: string) => {
    const span = { block: '', from: 0, to: 0 };
    return { rule: { name: rule, span }, ...(of ? { of: { name: of, span } } : {}), span };
  };

  it('speaks of a feature and all its members, or of one member', () => {
    assert.ok(accepts(entry('wall/thin', 'mount'), finding('wall/thin', 'mount[2]', 'well')));
    assert.ok(accepts(entry('wall/thin', 'mount[2]'), finding('wall/thin', 'mount[2]')));
    assert.ok(!accepts(entry('wall/thin', 'mount[1]'), finding('wall/thin', 'mount[2]')));
    assert.ok(!accepts(entry('wall/thin', 'moun'), finding('wall/thin', 'mount')));
    assert.ok(accepts(entry('wall/thin'), finding('wall/thin')));
    assert.ok(!accepts(entry('wall/floor', 'mount'), finding('wall/thin', 'mount')));
    assert.equal(featureNameOf('mount[12]'), 'mount');
  });

  it('does not reach what is wrong with the text', () => {
    assert.ok(!accepts(entry('form/schema'), finding('form/schema')));
    assert.ok(!accepts(entry('form/unneeded-accept'), finding('form/unneeded-accept')));
  });

  it('drops what it matches and nothing else', () => {
    const text = block([60, 40, 8], THIN);
    assert.ok(rules(text).includes('wall/thin'));
    const accepted = rules(`${text}accept:\n  - { rule: wall/thin, of: well, because: a cover }\n`);
    assert.deepEqual(
      accepted,
      rules(text).filter((r) => r !== 'wall/thin'),
    );
  });
});

describe('limits', () => {
  const thin = ruleByName('wall/thin')!;
  it('are the shop’s, or the rule’s own, by the part’s material', () => {
    const metal = check(block([60, 40, 8], THIN)).part;
    const plastic = check(block([60, 40, 8], THIN, ACETAL)).part;
    assert.equal(limitOf(thin, 'thickness', shop, metal), 0.8);
    assert.equal(limitOf(thin, 'thickness', shop, plastic), 1.5);
    const own = checkShop('shop: ours\nlimits: { wall/thin: { plastic: 2 } }\n').shop;
    assert.equal(limitOf(thin, 'thickness', own, plastic), 2);
    assert.equal(limitOf(thin, 'thickness', own, metal), 0.8);
  });

  it('must be declared', () => {
    assert.throws(() => limitOf(ruleByName('form/overlap')!, 'size', shop), /form\/overlap has no limit 'size'/);
  });

  it('are checked by name in a shop file', () => {
    const { findings } = checkShop(
      'shop: ours\nlimits:\n  wall/thn: { metal: 1 }\n  wall/thin: { metall: 1 }\n  form/schema: { x: 1 }\n',
    );
    const unknown = findings.filter((f) => f.rule === 'form/unknown-name').map((f) => f.facts.nearest);
    assert.deepEqual(unknown, ['wall/thin', 'metal', undefined]);
  });

  it('that every rule declares can be set', () => {
    for (const rule of RULES) {
      for (const { name, value } of rule.limits) {
        const { shop: own, findings } = checkShop(
          `shop: ours\nlimits: { ${rule.name}: { ${name}: ${value * 2 + 1} } }\n`,
        );
        assert.deepEqual(
          findings.filter((f) => f.rule === 'form/unknown-name'),
          [],
          rule.name,
        );
        assert.equal(limitOf(rule, name, own), value * 2 + 1, `${rule.name} ${name}`);
      }
    }
  });
});

describe('a rule that fails', () => {
  const failing: Rule = {
    ...ruleByName('wall/thin')!,
    *find() {
      yield {
        rule: 'wall/thin',
        severity: 'error',
        message: 'lost',
        of: [],
        span: { block: '', from: 0, to: 0 },
        related: [],
        facts: {},
      };
      throw new RangeError('off the edge');
    },
  };

  it('is told by name and takes nothing with it', () => {
    const { part, solid, tree } = check(block([60, 40, 8], THIN));
    const [told, ...rest] = runOne(failing, { part, shop, solid, tree });
    assert.deepEqual(rest, []);
    assert.equal(told!.rule, 'form/checker-failed');
    assert.equal(told!.severity, 'warning');
    assert.deepEqual(told!.facts, { failed_rule: 'wall/thin', reason: 'off the edge' });
    assert.match(told!.message, /Report this defect of the checker/);
    assert.equal(tree.text.slice(tree.locate(told!.span).start, tree.locate(told!.span).end), 'sample');
  });
});

describe('what a rule is handed', () => {
  it('writes lengths in the document’s units', () => {
    const metric = check(block([60, 40, 8], THIN));
    const inches = check(block([3, 2, 1], THIN, 'part: p\nunits: in\n'));
    const of = (c: typeof metric) => contextOf(RULES[0]!, { part: c.part, shop, solid: c.solid, tree: c.tree });
    assert.deepEqual([of(metric).length(0.4), of(metric).write(3.5)], ['0.4 mm', '3.5']);
    assert.deepEqual([of(inches).length(25.4), of(inches).write(12.7)], ['1 in', '0.5']);
  });
});

describe('shops and jobs', () => {
  it('answer for any text', () => {
    for (const text of ['', 'shop: x', '{', 'tools: 3\n', '- a']) {
      assert.ok(Array.isArray(checkShop(text).findings));
      assert.ok(Array.isArray(checkJob(text).findings));
    }
  });
  it('take the same text for the same answer', () => {
    const one = checkShop('shop: x\n');
    assert.equal(checkShop('shop: x\n', undefined, one), one);
    const job = checkJob('job: x\nparts: {}\n');
    assert.equal(checkJob('job: x\nparts: {}\n', job), job);
  });
});
