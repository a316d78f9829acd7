/**
 * Files with old words go on being read. `first/` holds the gimbal as it was written before any word had a new name, and in
 * `errors.json` what the checker of that time found wrong with it: today's finds no error more.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { resolvePart } from '../../server/src/model/part';
import { resolveShop } from '../../server/src/model/shop';
import { reportJson } from '../../server/src/report/json';
import { knownFrom, onlyNew } from '../../server/src/report/known';
import { reportedOf } from '../../server/src/report/reported';
import { reportSarif } from '../../server/src/report/sarif';
import { checkJob, checkPart, checkShop, fixAllSafe } from '../../server/src/rules/check';
import { RULE_NAMES } from '../../server/src/rules/registry';
import { applyEdits } from '../../server/src/text/edit';
import { linesOf } from '../../server/src/text/lines';
import { readText, readWhole } from '../../server/src/text/read';
import { currentRule, firstRule, RENAMED, RENAMED_RULES } from '../../server/src/text/renamed';

const FIRST = resolve(__dirname, 'first');
const read = (...path: string[]) => readFileSync(join(FIRST, ...path), 'utf8');
const yamlIn = (folder: string) => readdirSync(join(FIRST, folder)).map((name) => join(folder, name));

describe('files of the first days', () => {
  const shop = checkShop(read('campus.shop.yaml'), join(FIRST, 'campus.shop.yaml'));
  const were = JSON.parse(read('errors.json')) as Readonly<Record<string, readonly string[]>>;

  for (const path of [...yamlIn('parts'), ...yamlIn('faulty')]) {
    it(`${path} has no new error`, () => {
      const errors = checkPart(read(path), shop.shop).findings.filter((f) => f.severity === 'error');
      const found = errors.map((f) => `${firstRule(f.rule)} ${f.of.join(', ')}`);
      assert.deepEqual(
        found.filter((f) => !(were[path] ?? []).includes(f)),
        [],
      );
    });
  }
  it('nor have the shop and the job', () => {
    const found = [...shop.findings, ...checkJob(read('gimbal.job.yaml')).findings];
    assert.deepEqual(
      found.map((f) => `${f.severity} ${f.rule}`),
      ['hint form/old-name'],
    );
  });
});

/** Documents in which a word stands at its place; `word` writes it. */
const PART = (word: (old: string) => string) => `part: cover
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 12, depth: through } # for the axle
  ramp: { kind: ${word('incline')}, face: top, along: front, angle: 45, width: 2 }
  soft:
    kind: "${word('round')}"
    edges: [[top, back]]
    radius: 2
datums: { A: bottom }
tolerances:
  - { position: 0.2, of: bore, datums: [A], ${word('at')}: maximum-material }
accept:
  - { rule: ${word('hole/entry')}, of: bore, because: tried }
  - rule: ${word('stock/known-face')} # all of them
    because: so it came
`;
const SHOP = (word: (old: string) => string) => `shop: attic
machines:
  mill:
    travel: { x: 400, y: 220, z: 380 }
    spindle: { rpm: [150, 5000], power: 1.1 kW, ${word('set')}: ${word('no-read-out')} }
    ${word('locates')}: { edge-finder: 0.03 }
limits:
  ${word('hole/entry')}: { slope: 7 }
  ${word('hold/let-go')}: { frame: 9 }
`;
const NEW: Readonly<Record<string, string>> = Object.fromEntries(RENAMED.map(({ was, now }) => [was, now]));
const asOld = (old: string) => old;
const asNew = (old: string) => NEW[old]!;

describe('an old word', () => {
  it('of a part means what the new one means', () => {
    const [old, now] = [asOld, asNew].map((as) => resolvePart(readText(PART(as))));
    assert.deepEqual(old!.problems, []);
    const plain = (part: typeof old) =>
      JSON.parse(
        JSON.stringify([part!.features, part!.tolerances, part!.accept], (key, value) =>
          key === 'span' || key.endsWith('Span') ? undefined : value,
        ),
      );
    assert.deepEqual(plain(old), plain(now));
    assert.deepEqual(
      old!.accept.map((a) => a.rule.name),
      ['hole/sloped-start', 'stock/already-to-size'],
    );
    assert.equal(old!.tolerances[0]?.maximumMaterial, true);
  });
  it('of a shop means what the new one means', () => {
    const shop = resolveShop(readText(SHOP(asOld)));
    assert.deepEqual(shop.problems, []);
    assert.equal(shop.machines[0]?.zeroErrorMm['edge-finder'], 0.03);
    assert.equal(shop.machines[0]?.setBy, 'unmarked');
    assert.equal(shop.limits.get('hole/sloped-start')?.get('slope'), 7);
    assert.equal(shop.limits.get('hold/cut-free')?.get('frame'), 9);
  });
  it('is told once, with the change that writes the new one', () => {
    for (const text of [PART(asOld), PART(asOld).replaceAll('\n', '\r\n')]) {
      const checked = checkPart(text, builtinShop());
      const told = checked.findings.filter((f) => f.rule === 'form/old-name').map((f) => f.facts.old);
      assert.deepEqual(told, ['incline', 'round', 'at', 'hole/entry', 'stock/known-face']);
      const after = checkPart(applyEdits(text, fixAllSafe(checked)), builtinShop());
      assert.ok(after.tree.text.includes('kind: slope,') && after.tree.text.includes('material-condition: max'));
      assert.ok(after.tree.text.includes('# for the axle'));
      assert.deepEqual(after.tree.old, []);
    }
    const shop = checkShop(SHOP(asOld));
    assert.deepEqual(
      shop.findings.map((f) => [f.rule, f.facts.old, f.fixes?.length]),
      ['set', 'no-read-out', 'locates', 'hole/entry', 'hold/let-go'].map((old) => ['form/old-name', old, 1]),
    );
    assert.deepEqual(checkShop(SHOP(asNew)).findings, []);
  });
  it('is the same however the text is read', () => {
    const text = PART(asOld);
    const [whole, cut] = [readWhole(text), readText(text)];
    const places = (tree: typeof cut) =>
      tree.old.map((o) => ({ was: o.was, now: o.now, ...tree.locate(o.span) })).sort((a, b) => a.start - b.start);
    assert.deepEqual(places(whole), places(cut));
    const edited = text.replace('radius: 2', 'radius: 3');
    assert.deepEqual(places(readText(edited, cut)), places(readText(edited)));
  });
  it('means nothing beside the new one, nor where it never stood', () => {
    const both = SHOP(asNew).replace('    zero-error:', '    locates: { probe: 0.5 }\n    zero-error:');
    assert.ok(checkShop(both).findings.some((f) => f.message.includes('no field `locates`')));
    const elsewhere = readText(
      'parameters: { round: 3 }\nfeatures: { incline: { kind: hole, note: round, at: {} } }\n',
    );
    assert.deepEqual(elsewhere.old, []);
  });
  it('comes to a rule that is there, and no new name was an old one', () => {
    for (const [was, now] of Object.entries(RENAMED_RULES)) {
      assert.ok(RULE_NAMES.includes(now) && !RULE_NAMES.includes(was), was);
      assert.ok(!Object.hasOwn(RENAMED_RULES, now), now);
      assert.equal(was.split('/')[0], now.split('/')[0], 'topics stay');
    }
  });
});

describe('reports, where a rule has a new name', () => {
  const text = `part: housing
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  well: { kind: pocket, face: top, at: { x: 20, y: center }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 10 }
  seat: { kind: hole, face: top, from: well, at: { x: 29, y: center }, diameter: 6, depth: 4, bottom: flat }
`;
  const { tree, findings } = checkPart(text, builtinShop());
  const reported = [reportedOf('housing.part.yaml', { tree, lines: linesOf(text), findings }, () => [])];

  it('JSON keeps the first name, with the new one beside it', () => {
    const { files } = JSON.parse(reportJson(reported)) as {
      files: { findings: { rule: string; rule_now?: string }[] }[];
    };
    const [found] = files[0]!.findings.filter((f) => f.rule_now);
    assert.deepEqual([found?.rule, found?.rule_now], ['access/buried', 'access/covered']);
  });
  it('SARIF has the new name, and the first among those that are deprecated', () => {
    const { runs } = JSON.parse(reportSarif(reported, '1')) as {
      runs: { tool: { driver: { rules: { id: string; deprecatedIds?: string[] }[] } } }[];
    };
    const rule = runs[0]!.tool.driver.rules.find((r) => r.id === 'access/covered');
    assert.deepEqual(rule?.deprecatedIds, ['access/buried']);
  });
  it('a report with either name says what is known', () => {
    const report = reportJson(reported);
    for (const known of [report, report.replaceAll('"access/buried"', '"access/covered"')]) {
      const left = onlyNew(reported, knownFrom(known) as Exclude<ReturnType<typeof knownFrom>, { why: string }>);
      assert.deepEqual(left[0]?.findings, []);
    }
    assert.equal(currentRule('access/buried'), 'access/covered');
  });
});
