/**
 * Accept, as it is offered: put into the text it takes its finding away and raises no new error, whatever the text is.
 * Every finding of examples, samples and drawn parts; texts cut or mangled as well. `FUZZ_RUNS` draws more.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, checkShop, fixesFor, wouldCure } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { RULES } from '../../server/src/rules/registry';
import { acceptOffered, addAccept, asSnippet } from '../../server/src/service/accept';
import { draws, patience, runs } from '../fuzz/runs';
import { partTexts } from '../proof/parts';
import { fixed } from '../rules/tester';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const campus = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
/** Texts that a paste or a hasty hand broke, found by editing at random. */
const BROKEN = resolve(__dirname, 'broken');
const FAULTY = readdirSync(join(GIMBAL, 'faulty')).map((f) => readFileSync(join(GIMBAL, 'faulty', f), 'utf8'));
const SAMPLES = RULES.filter((r) => r.when !== 'job' && !r.shop).map((r) => r.bad);

const keyOf = (f: Finding) => `${f.rule} ${f.of.join(' ')}`;
const errorsIn = (findings: readonly Finding[]) => {
  const tally = new Map<string, number>();
  for (const f of findings) if (f.severity === 'error') tally.set(keyOf(f), (tally.get(keyOf(f)) ?? 0) + 1);
  return tally;
};

/** Tries what is offered on the findings of a text; answers how many were. */
function accepted(text: string, shop: Shop, most = 4): number {
  const checked = checkPart(text, shop);
  let offered = 0;
  for (const finding of checked.findings.slice(0, most)) {
    const accept = acceptOffered(checked, finding, 1);
    if (!accept) continue;
    offered++;
    const after = fixed(checked, accept);
    const again = checkPart(after, shop);
    const count = (findings: readonly Finding[]) => findings.filter((f) => keyOf(f) === keyOf(finding)).length;
    assert.ok(count(again.findings) < count(checked.findings), `${keyOf(finding)} is still there:\n${after}`);
    const had = errorsIn(checked.findings);
    for (const [key, n] of errorsIn(again.findings)) assert.ok(n <= (had.get(key) ?? 0), `${key} is new:\n${after}`);
  }
  return offered;
}

describe('accept', function () {
  this.timeout(patience(300_000));

  it('as offered takes its finding away: examples and the rules’ own parts', () => {
    let offered = 0;
    for (const text of FAULTY) offered += accepted(text, campus, runs(3));
    for (const [i, text] of SAMPLES.entries()) if (i % 8 < runs(1)) offered += accepted(text, builtinShop(), 2);
    assert.ok(offered > 30, `${offered}`);
  });

  it('as offered takes its finding away: drawn parts, whole, cut short, and with a list that is there already', () => {
    let offered = 0;
    const lists = [
      '',
      'accept:\n  - { rule: wall/thin, why: x }\n',
      'accept:\n  - rule: wall/thin\n    because: a cover\n',
      'accept: []\n',
      'accept:\n',
      'accept: [{ rule: wall/thin }]',
    ];
    fc.assert(
      fc.property(partTexts(3), fc.constantFrom(...lists), fc.nat(100), fc.boolean(), ({ text }, list, cut, whole) => {
        const long = whole ? text : text.slice(0, Math.max(80, Math.floor((text.length * cut) / 100)));
        const at = long.indexOf('features:');
        offered += accepted(
          cut % 2 && at > 0 ? long.slice(0, at) + list + long.slice(at) : `${long}${list}`,
          builtinShop(),
          2,
        );
      }),
      draws(20261129, 10),
    );
    assert.ok(offered > runs(3), `${offered}`);
  });

  for (const file of readdirSync(BROKEN))
    it(`as offered takes its finding away: ${file.replace(/\.part\.yaml$/, '').replaceAll('-', ' ')}`, () => {
      const text = readFileSync(join(BROKEN, file), 'utf8');
      for (const shop of [builtinShop(), campus]) accepted(text, shop, 50);
      // So does every other fix.
      const checked = checkPart(text, campus);
      assert.ok(
        checked.findings.some((f) => f.rule === 'form/schema' && f.severity === 'error') || file.startsWith('unknown'),
      );
      for (const finding of checked.findings)
        for (const fix of fixesFor(checked, finding)) assert.ok(wouldCure(checked, finding, fix), fix.title);
    });

  const THIN = SAMPLES[RULES.filter((r) => r.when !== 'job' && !r.shop).findIndex((r) => r.name === 'wall/thin')]!;

  it('leaves the reason open, which is asked for and blocks nothing', () => {
    const checked = checkPart(THIN, builtinShop());
    const found = checked.findings.find((f) => f.rule === 'wall/thin')!;
    const after = fixed(checked, addAccept(checked, found)!);
    for (const text of [after, after.replace('because: ""', 'because:'), after.replace(', because: ""', '')]) {
      const { findings } = checkPart(text, builtinShop());
      const asked = findings.filter((f) => f.rule === 'form/no-reason');
      assert.deepEqual(
        asked.map((f) => f.severity),
        ['warning'],
        text,
      );
      assert.ok(
        findings.every((f) => f.rule !== 'wall/thin' && !(f.severity === 'error' && f.rule.startsWith('form/'))),
        text,
      );
    }
    const said = checkPart(after.replace('because: ""', 'because: "a lid, nothing rests on it"'), builtinShop());
    assert.ok(said.findings.every((f) => f.rule !== 'form/no-reason'));
  });

  it('puts the cursor where the reason goes, and spells what a snippet would read otherwise', () => {
    const range = { start: { line: 9, character: 0 }, end: { line: 9, character: 0 } };
    const newText = '  - { rule: wall/thin, of: "a[2]", because: "" }\n';
    const action = asSnippet({ title: 'Accept', edit: { changes: { 'file:///a.part.yaml': [{ range, newText }] } } });
    assert.deepEqual(action.edit?.documentChanges, [
      {
        textDocument: { uri: 'file:///a.part.yaml', version: null },
        edits: [
          { range, snippet: { kind: 'snippet', value: '  - { rule: wall/thin, of: "a[2]", because: "$0" \\}\n' } },
        ],
      },
    ]);
    const other = { title: 'Make it 3 mm', edit: { changes: { 'file:///a.part.yaml': [{ range, newText: '3' }] } } };
    assert.equal(asSnippet(other), other);
  });

  it('is not all that is offered where something runs into something', () => {
    const rule = RULES.find((r) => r.name === 'hold/in-the-cut')!;
    const checked = checkPart(rule.bad, rule.shop ? checkShop(rule.shop).shop : builtinShop());
    const found = checked.findings.find((f) => f.rule === rule.name)!;
    assert.equal(acceptOffered(checked, found, 0), undefined);
    assert.ok(acceptOffered(checked, found, 1));
  });
});
