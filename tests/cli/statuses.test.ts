/** The exit status of every command in every case that the README tells of: 0, 1 or 2, and a sentence where it is 2. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { helpOf } from '../../server/src/node/help';
import { CLI, cli, put, SHOP, SOUND } from './odd-files';
import { asks } from './warm';

const WRONG = SOUND.replace('kind: hole', 'kind: whole');
/** A parameter that nobody uses is a hint, a hole that the shop's drills do not fit a warning. */
const HINTED = SOUND.replace('body:', 'parameters: { spare: 3 }\nbody:');
const WARNED = SOUND.replace('diameter: 16 H7, depth: 7, bottom: flat', 'thread: M5, depth: through');
const SHOPLESS = SOUND.replace('units:', 'shop: gone.shop.yaml\nunits:');
const FILES = {
  'sound.part.yaml': SOUND,
  'wrong.part.yaml': WRONG,
  'hinted.part.yaml': HINTED,
  'own/bare.shop.yaml': `${SHOP}tools: {}\n`,
  'own/warned.part.yaml': WARNED,
  'shopless.part.yaml': SHOPLESS,
  'nobody.part.yaml': 'part: nobody\nunits: mm\n',
  'shops/viseless.shop.yaml': SHOP,
  'broken.part.yaml': 'part: [\n',
  'good.job.yaml': 'job: a\nparts: { a: { spec: sound.part.yaml } }\n',
  'lost.job.yaml': 'job: a\nparts: { a: { spec: gone.part.yaml } }\n',
  'shopless.job.yaml': 'job: a\nshop: gone.shop.yaml\nparts: { a: { spec: sound.part.yaml } }\n',
  'among.job.yaml': 'job: a\nparts: { a: { spec: shopless.part.yaml } }\n',
  'other.txt': 'x',
};

type Row = readonly [status: 0 | 1 | 2, words: string, says?: RegExp];

const ROWS: readonly Row[] = [
  [0, 'help'],
  [0, '--help'],
  [0, '--version'],
  [2, '', /What is to be done/],
  [2, 'chekc', /no command `chekc`/],
  [0, 'check sound.part.yaml'],
  [0, 'check hinted.part.yaml'],
  [0, 'check own'],
  [1, 'check own --allow-warnings 0'],
  [1, 'check own --max-warnings 0', /--max-warnings is now called --allow-warnings/],
  [1, 'check wrong.part.yaml'],
  [1, 'check broken.part.yaml'],
  [1, 'check sound.part.yaml wrong.part.yaml'],
  [2, 'check', /needs at least one/],
  [2, 'check other.txt', /none of the documents/],
  [2, 'check gone.part.yaml', /gone\.part\.yaml is not there/],
  [2, 'check sound.part.yaml gone.part.yaml', /gone\.part\.yaml is not there/],
  [2, 'check *.gone.yaml', /matches no/],
  [2, 'check empty', /holds no/],
  [2, 'check sound.part.yaml --format xml', /--format is/],
  [2, 'check sound.part.yaml --allow-warnings -1', /allow-warnings/],
  [
    2,
    'plan sound.part.yaml --foo',
    /plan has no option --foo\. It has --write, --format, --shop, --variant and --no-color\./,
  ],
  [2, 'check sound.part.yaml --format', /--format needs a value/],
  [2, 'check sound.part.yaml --shop gone.shop.yaml', /the shop gone\.shop\.yaml is not there/],
  [2, 'check sound.part.yaml --shop other.txt', /other\.txt is no shop file/],
  [2, 'check sound.part.yaml --shop own', /own is no shop file/],
  [0, 'check own/bare.shop.yaml --shop shops/viseless.shop.yaml'],
  [2, 'check shopless.part.yaml', /the shop gone\.shop\.yaml is not there/],
  [1, 'check shopless.part.yaml --shop shops/viseless.shop.yaml'],
  [0, 'check good.job.yaml'],
  [1, 'check lost.job.yaml'],
  [2, 'check shopless.job.yaml', /the shop gone\.shop\.yaml is not there/],
  [2, 'check among.job.yaml', /the shop gone\.shop\.yaml is not there/],
  [0, 'plan sound.part.yaml'],
  [2, 'plan', /plan needs a part/],
  [2, 'plan gone.part.yaml', /is not there/],
  [2, 'plan good.job.yaml', /no part/],
  [2, 'plan nobody.part.yaml', /cannot be planned/],
  [2, 'plan sound.part.yaml --shop shops/viseless.shop.yaml', /no vise/],
  [2, 'plan sound.part.yaml --shop gone.shop.yaml', /the shop gone\.shop\.yaml is not there/],
  [2, 'plan shopless.part.yaml', /its shop gone\.shop\.yaml is not there/],
  [2, 'plan shopless.part.yaml --write', /its shop gone\.shop\.yaml is not there/],
  [0, 'export sound.part.yaml --to made.svg --face top'],
  [2, 'export sound.part.yaml', /what to make of it/],
  [2, 'export sound.part.yaml --to made.xyz', /no format/],
  [2, 'export gone.part.yaml --to stl', /is not there/],
  [2, 'export wrong.part.yaml --to wrong.stl', /could not be understood/],
  [2, 'export sound.part.yaml --to sound.stl --shop gone.shop.yaml', /the shop gone\.shop\.yaml is not there/],
  [2, 'export shopless.part.yaml --to shopless.stl', /its shop gone\.shop\.yaml is not there/],
  [0, 'why wall/thin'],
  [0, 'why wall/thin --no-color'],
  [2, 'explain wall/thn', /there is no rule/],
  [2, 'explain', /explain needs/],
  [0, 'new fresh'],
  [2, 'new sound', /already there/],
  [2, 'new 9x', /is no name/],
  [2, 'serve', /standard input and output/],
];

describe('the exit status', function () {
  this.timeout(60_000);
  let folder: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-status-'));
    put(folder, FILES);
    mkdirSync(join(folder, 'empty'));
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  for (const [wanted, words, says] of ROWS) {
    it(`${wanted} of \`${words}\``, () => {
      const { status, out, err } = asks(folder, words === '' ? [] : words.split(' '));
      assert.equal(status, wanted, `${out}\n${err}`);
      assert.doesNotMatch(err, /\n {4}at /, 'a stack is no message');
      assert.ok(wanted < 2 || says, 'what is refused is said');
      if (says) assert.match(err, says);
      else assert.equal(err.replace(/^scribeline: made\.svg: .*\n/gm, ''), '');
      if (wanted === 2) assert.doesNotMatch(out, /checked: nothing found\.$/m);
    });
  }

  it('is the same of the built program, of a wrong word too', () => {
    for (const [wanted, ...words] of [
      [0, 'check', 'sound.part.yaml'],
      [1, 'check', 'wrong.part.yaml'],
      [2, 'check'],
    ] as const)
      assert.equal(cli(words, folder).status, wanted);
  });

  it('leaves what it refused as it was', () => {
    for (const [name, text] of Object.entries(FILES))
      assert.equal(readFileSync(join(folder, name), 'utf8'), text, name);
    for (const name of ['wrong.stl', 'shopless.stl', 'sound.stl']) assert.ok(!existsSync(join(folder, name)), name);
  });

  it('is told in the README as it is in the help', () => {
    const told = 'Exit status: 0 no errors, 1 errors found, 2 the command could not do its work';
    assert.ok(readFileSync(join(__dirname, '../../README.md'), 'utf8').includes(told));
    assert.ok(asks(folder, ['help']).out.includes(told));
  });
});

describe('an answer that does not come out whole', function () {
  this.timeout(120_000);
  let folder: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-out-'));
    // More than a pipe takes at once (64 KiB, pipe(7) of the Linux manual).
    const tools = Array.from({ length: 140 }, (_, i) => `  t${i}: { kind: no-such-thing-${i} }`);
    put(folder, { 'long.shop.yaml': `${SHOP}tools:\n${tools.join('\n')}\n` });
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  const shell = (line: string) => spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8', timeout: 60_000 });
  const check = (format: string) => `"${process.execPath}" "${CLI}" check . --format ${format}`;

  for (const format of ['text', 'json', 'sarif']) {
    it(`${format}: nobody may take a full disk for success`, function () {
      if (!existsSync('/dev/full')) this.skip();
      const { status, stderr } = shell(`${check(format)} > /dev/full`);
      assert.equal(status, 2);
      assert.match(stderr, /the answer could not be written: no space is left there\.\n$/);
    });

    it(`${format}: nor a reader that leaves`, () => {
      const { stdout, stderr } = shell(`${check(format)} | true; echo "\${PIPESTATUS[0]}"`);
      assert.equal(stdout.trim(), '2');
      assert.match(stderr, /the answer could not be written: its reader went away before the end\.\n$/);
      assert.doesNotMatch(stderr, /\n {4}at /);
    });

    it(`${format}: a slow reader gets all of it`, () => {
      const straight = shell(check(format)).stdout;
      const slow = shell(`${check(format)} | (sleep 1; cat)`).stdout;
      assert.equal(slow, straight);
      assert.ok(straight.length > (format === 'text' ? 10_000 : 65_536), `${straight.length}`);
    });
  }

  for (const words of ['help', 'explain wall/thin', '--version'])
    it(`${words} on a full disk`, function () {
      if (!existsSync('/dev/full')) this.skip();
      assert.equal(shell(`"${process.execPath}" "${CLI}" ${words} > /dev/full`).status, 2);
    });
});

describe('the exit statuses in words', () => {
  const plain = (text: string) => text.replace(/\s+/g, ' ');

  it('are the same in --help as in the README', () => {
    const readme = plain(readFileSync(join(__dirname, '../../README.md'), 'utf8'));
    const [, told] = /(Exit status: .*)$/.exec(plain(helpOf().join('\n')))!;
    const sentences = told!.trim().split(/(?<=\.) (?=[A-Z`])/);
    assert.ok(sentences.length >= 3, told);
    for (const sentence of sentences) assert.ok(readme.includes(sentence), sentence);
  });
});
