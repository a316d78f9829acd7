/** `new` at a terminal: what is asked, what is answered, and what is written then. */
import assert from 'node:assert/strict';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { readArguments } from '../../server/src/node/arguments';
import { runNew } from '../../server/src/node/new';
import { terminal } from '../../server/src/node/terminal';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';

const RACK = `shop: bench
machines: { mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [200, 4000], power: 1 kW } } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 100, force: 10 kN } }
parallels: [14, 20, 26]
tools:
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 32, reach: 42, material: carbide }
  cm-6: { kind: chamfer-mill, diameter: 6, angle: 90, reach: 18, material: carbide }
rack:
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 30, thickness: 15 }, lengths: [1000], offcuts: [90] }
`;

describe('new, at a terminal', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-new-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  /** Answers in turn; nothing more comes after the last. */
  async function asked(words: readonly string[], answers: readonly string[]) {
    const said: string[] = [];
    const left = [...answers];
    const ask = async (question: string) => {
      said.push(question);
      return left.shift();
    };
    const script = resolve(__dirname, '../../dist/cli.js');
    const take = (text: string) => void said.push(text);
    const screen = terminal({ cwd: folder, version: '0', script, ask }, { colours: false, out: take, err: take });
    const command = readArguments(['new', ...words]);
    assert.ok(command.name === 'new');
    const status = await runNew(command, screen);
    return { status, said: said.join(''), left };
  }
  const read = (name: string) => readFileSync(join(folder, name), 'utf8');

  it('a part of an offcut, asked for by number; a number that is none is asked again', async () => {
    writeFileSync(join(folder, 'bench.shop.yaml'), RACK);
    const { status, said, left } = await asked(['arm'], ['9', '1', '3']);
    assert.deepEqual([status, left], [0, []], said);
    assert.match(said, /1 {2}flat-bar 30 x 15 {2}aluminium-6061-t6, offcut of 90 mm/);
    assert.match(said, /A number from 1 to 3\./);
    const shop = checkShop(RACK).shop;
    const { findings, part } = checkPart(read('arm.part.yaml'), shop);
    assert.deepEqual(findings, []);
    assert.equal(part.setups !== undefined, true);
    assert.ok(part.size[0] <= 87);
  });
  it('a question that is left writes nothing; what is there is not asked for', async () => {
    const { status, said } = await asked(['arm'], []);
    assert.equal(status, 2);
    assert.match(said, /arm\.part\.yaml was not written: the question was left\./);
    assert.ok(!existsSync(join(folder, 'arm.part.yaml')));
    writeFileSync(join(folder, 'arm.part.yaml'), 'mine');
    assert.equal((await asked(['arm'], ['1'])).left.length, 1);
    assert.equal(read('arm.part.yaml'), 'mine');
  });
  it('a shop less what is not there, by number and by name', async () => {
    const { status, said } = await asked(['ours.shop'], ['1-x', '2-3']);
    assert.equal(status, 0, said);
    const all = checkShop(readFileSync(resolve(__dirname, '../../schemas/everyday.shop.yaml'), 'utf8')).shop;
    const { shop, findings } = checkShop(read('ours.shop.yaml'));
    assert.deepEqual(
      findings.filter((f) => f.severity === 'error'),
      [],
    );
    assert.equal(shop.vises.length, all.vises.length - 2);
    assert.equal((await asked(['small.shop', '--without', 'fm-50, em-2'], [])).status, 0);
    assert.equal(checkShop(read('small.shop.yaml')).shop.tools.length, all.tools.length - 2);
    assert.equal((await asked(['odd.shop', '--without', 'fm-51'], [])).status, 2);
  });
  it('a job of the parts that are ticked', async () => {
    for (const name of ['a', 'b', 'c']) writeFileSync(join(folder, `${name}.part.yaml`), `part: ${name}\n`);
    assert.equal((await asked(['set.job'], ['2'])).status, 0);
    assert.deepEqual(
      checkJob(read('set.job.yaml')).job.parts.map((p) => p.name),
      ['a', 'c'],
    );
    assert.equal((await asked(['one.job', '--parts', './b.part.yaml'], [])).status, 0);
    assert.deepEqual(
      checkJob(read('one.job.yaml')).job.parts.map((p) => p.name),
      ['b'],
    );
    assert.equal((await asked(['none.job', '--parts', 'd.part.yaml'], [])).status, 2);
  });
  it('words for a piece that mean none or several', async () => {
    writeFileSync(join(folder, 'bench.shop.yaml'), RACK);
    assert.match((await asked(['arm', '--stock', '31 x 15'], [])).said, /has no 31 x 15\. It has flat-bar 30 x 15/);
    assert.match((await asked(['arm', '--stock', '30x15'], [])).said, /which 30x15\?/);
    assert.equal((await asked(['arm', '--stock', '30x15 offcut', '--like', 'blank'], [])).status, 0);
  });
});
