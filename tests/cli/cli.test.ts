/** The command line as a person or a script meets it: the built program, its streams and its exit status. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { asks } from './warm';

const CLI = resolve(__dirname, '../../dist/cli.js');
const SOUND = `part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 16 H7
    depth: 7
    bottom: flat
`;
/** A pocket 0.4 mm from the front face, and a parameter that nobody uses. */
const THIN = `${SOUND}  gap: # too near the front
    kind: pocket
    face: top
    at: { x: center, y: 4.4 }
    size: { x: 20, y: 8 }
    corner-radius: 3.5
    depth: 6
`;
const UNKNOWN = `${SOUND}    from: saet\n`;

let folder: string;

const run = (...words: string[]) => asks(folder, words);
/** Started anew: its streams, its exit and the threads it begins. */
function started(...words: string[]) {
  const done = spawnSync(process.execPath, [CLI, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, FORCE_COLOR: '1' },
  });
  return { status: done.status, out: done.stdout, err: done.stderr };
}
function write(name: string, text: string): void {
  const path = join(folder, name);
  mkdirSync(join(path, '..'), { recursive: true });
  writeFileSync(path, text);
}

describe('the command line', function () {
  this.timeout(120_000);
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-cli-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  describe('check', () => {
    it('says nothing is wrong, and 0', () => {
      write('plate.part.yaml', SOUND);
      const { status, out, err } = started('check', 'plate.part.yaml');
      assert.equal(err, '');
      assert.match(out, /^1 file checked: nothing found\.\n$/);
      assert.equal(status, 0);
    });

    it('shows place, line and dimension line of an error, and 1', () => {
      write('parts/plate.part.yaml', THIN);
      const { status, out } = started('check', 'parts');
      assert.equal(status, 1);
      assert.match(out, /^parts\/plate\.part\.yaml:\d+:\d+: error wall\/thin$/m);
      assert.match(out, /^ {2}.*0\.4 mm/m);
      assert.match(out, /^ {2}\d+ {2}.*\n +\|(-|<-*>)\|$/m);
      assert.ok(!out.includes('\u001b'), 'colour only on a terminal');
    });

    it('JSON of format 1 carries places, facts and tried fixes', () => {
      write('plate.part.yaml', THIN);
      const { status, out } = run('check', 'plate.part.yaml', '--format', 'json');
      assert.equal(status, 1);
      const report = JSON.parse(out);
      assert.equal(report.format, 1);
      const [file] = report.files;
      assert.equal(file.path, 'plate.part.yaml');
      assert.equal(file.part.name, 'plate');
      assert.deepEqual(file.part.stock_mm, [60, 40, 16]);
      assert.equal(file.part.setups, null);
      // Closed form: block less bore less rectangle with round corners.
      const volume = 60 * 40 * 16 - Math.PI * 8 * 8 * 7 - (20 * 8 - (4 - Math.PI) * 3.5 * 3.5) * 6;
      assert.ok(Math.abs(file.part.volume_mm3 - volume) < 0.001, `${file.part.volume_mm3} is not ${volume}`);
      // 2.70 g/cm³: the density of 6061 (typical value of the Aluminum Association).
      assert.ok(Math.abs(file.part.mass_g - (volume * 2.7) / 1000) < 0.001);
      const thin = file.findings.find((f: { rule: string }) => f.rule === 'wall/thin');
      assert.equal(thin.severity, 'error');
      assert.deepEqual(thin.of, ['gap']);
      assert.ok(Math.abs(thin.facts.thickness_mm - 0.4) < 1e-9);
      assert.equal(thin.facts.limit_mm, 0.8);
      assert.ok(thin.range.start.line > 11);
      assert.ok(thin.fixes.length > 0);
      assert.equal(typeof thin.fixes[0].edits[0].newText, 'string');
    });

    it('SARIF validates against the published schema of 2.1.0 (OASIS, as reprinted in @microsoft/jest-sarif, MIT)', () => {
      write('a b/plate.part.yaml', THIN);
      write('bad.part.yaml', 'part: [\n');
      const { status, out } = run('check', '.', '--format', 'sarif');
      assert.equal(status, 1);
      const log = JSON.parse(out);
      const ajv = new Ajv({ strict: false, unicodeRegExp: false });
      addFormats(ajv as never);
      const schema = JSON.parse(readFileSync(resolve(__dirname, '../oracle/data/sarif-2.1.0.schema.json'), 'utf8'));
      const validate = ajv.compile(schema) as ((data: unknown) => boolean) & { errors?: unknown };
      assert.ok(validate(log), JSON.stringify(validate.errors, null, 2));
      const thin = log.runs[0].results.find((r: { ruleId: string }) => r.ruleId === 'wall/thin');
      assert.equal(thin.level, 'error');
      assert.equal(thin.locations[0].physicalLocation.artifactLocation.uri, 'a%20b/plate.part.yaml');
      assert.equal(validate({ ...log, version: '9' }), false, 'the schema does refuse');
    });

    it('takes files, folders and globs, each file once, and skips hidden folders and node_modules', () => {
      write('a.part.yaml', SOUND);
      write('deep/b.part.yaml', SOUND);
      write('node_modules/x/c.part.yaml', THIN);
      write('.hidden/d.part.yaml', THIN);
      const { out } = run('check', '.', 'a.part.yaml', '**/*.part.yaml', '--format', 'json');
      assert.deepEqual(
        JSON.parse(out).files.map((f: { path: string }) => f.path),
        ['a.part.yaml', 'deep/b.part.yaml'],
      );
    });

    it('what is not there, or is no document, is said on standard error, and 2', () => {
      write('a.part.yaml', SOUND);
      write('notes.txt', 'x');
      const { status, out, err } = run('check', 'a.part.yaml', 'gone.part.yaml', 'notes.txt', 'no*.part.yaml');
      assert.equal(status, 2);
      assert.match(out, /1 file checked/);
      assert.match(err, /gone\.part\.yaml is not there/);
      assert.match(err, /notes\.txt is none of the documents/);
      assert.match(err, /matches no/);
    });

    it('--max-warnings turns warnings into failure', () => {
      write('plate.part.yaml', SOUND.replace('body:', 'parameters:\n  spare: 3\nbody:'));
      const quiet = JSON.parse(run('check', '.', '--format', 'json').out);
      const warnings = quiet.files[0].findings.filter((f: { severity: string }) => f.severity === 'warning').length;
      const expected = warnings > 0 ? 1 : 0;
      assert.equal(run('check', '.', '--max-warnings', '0').status, expected);
      assert.equal(run('check', '.', '--max-warnings', '9').status, 0);
    });

    it('--fix writes the safe fixes, keeps every comment, and leaves a sound file alone', () => {
      write(
        'named.part.yaml',
        UNKNOWN.replace(
          'seat:',
          'bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 20, depth: 3, bottom: flat } # stays\n  seat:',
        ).replace('saet', 'bor'),
      );
      write('sound.part.yaml', SOUND);
      const { err } = run('check', '.', '--fix');
      assert.equal(readFileSync(join(folder, 'sound.part.yaml'), 'utf8'), SOUND);
      const fixed = readFileSync(join(folder, 'named.part.yaml'), 'utf8');
      assert.match(fixed, /from: bore/);
      assert.match(fixed, /# stays/);
      assert.match(err, /named\.part\.yaml: \d+ changes? that keeps? the shape/);
    });

    it('--fix writes nothing into a file that is not UTF-8', () => {
      const bytes = Buffer.concat([Buffer.from(UNKNOWN), Buffer.from([0x23, 0x20, 0xff, 0xfe, 0x0a])]);
      writeFileSync(join(folder, 'odd.part.yaml'), bytes);
      run('check', '.', '--fix');
      assert.ok(readFileSync(join(folder, 'odd.part.yaml')).equals(bytes));
    });

    it('--facts shows figures, defaults and limits with their sources', () => {
      write('plate.part.yaml', SOUND);
      const { out } = run('check', 'plate.part.yaml', '--facts');
      assert.match(out, /volume +\d+\.\d{3} cm³/);
      assert.match(out, /mass +\d+\.\d g/);
      assert.match(out, /wall\/thin \w+ +0\.8 mm +\S/);
    });

    it('--shop judges by that shop; where it is not there nothing is judged by another', () => {
      write(
        'deep/plate.part.yaml',
        SOUND.replace('diameter: 16 H7\n    depth: 7\n    bottom: flat', 'thread: M5\n    depth: through'),
      );
      write('bare.shop.yaml', 'shop: bare\nunits: mm\ntools: { tap-m3: { kind: tap, thread: M3 } }\n');
      assert.equal(run('check', 'deep', '--shop', 'bare.shop.yaml').status, 1);
      const gone = run('check', 'deep', '--shop', 'gone.shop.yaml');
      assert.deepEqual(gone, {
        status: 2,
        out: '',
        err: 'scribeline: the shop gone.shop.yaml is not there. Correct --shop; nothing was checked by another shop.\n',
      });
    });

    it('the nearest shop going up the folders judges a part', () => {
      write('deep/er/plate.part.yaml', SOUND);
      write('deep/near.shop.yaml', 'shop: near\nunits: mm\ntools: {}\n');
      write('far.shop.yaml', 'shop: far\nunits: mm\ntools: {}\n');
      const { out } = run('check', 'deep/er', '--facts');
      assert.match(out, /shop +near/);
    });

    it('many files are judged by several threads, with the same answer in the same order as one by one', () => {
      const names = Array.from({ length: 90 }, (_, i) => `p${String(i).padStart(2, '0')}.part.yaml`);
      for (const [i, name] of names.entries()) write(name, i % 7 === 0 ? THIN : i % 11 === 0 ? 'part: [\n' : SOUND);
      const { status, out, err } = started('check', '.', '--format', 'json');
      assert.equal(err, '');
      assert.equal(status, 1);
      const { files } = JSON.parse(out);
      assert.deepEqual(
        files.map((f: { path: string }) => f.path),
        names,
      );
      const some = [0, 1, 11, 77].map((i) => names[i]!);
      const alone = JSON.parse(started('check', ...some, '--format', 'json').out).files;
      assert.deepEqual(
        some.map((name) => files.find((f: { path: string }) => f.path === name)),
        alone,
      );
    });

    it('an empty file, a folder of nothing and a device get an answer', () => {
      write('empty.part.yaml', '');
      assert.equal(run('check', 'empty.part.yaml').status, 1);
      mkdirSync(join(folder, 'nothing'));
      assert.equal(run('check', 'nothing').status, 2);
    });
  });

  describe('why', () => {
    it('prints a rule’s page; by its old name as well, and says the new one', () => {
      const { status, out, err } = run('why', 'wall/thin');
      assert.equal(status, 0);
      assert.equal(err, '');
      const old = run('explain', 'wall/thin');
      assert.deepEqual([old.status, old.out], [0, out]);
      assert.match(old.err, /explain is now called why/);
      assert.match(out, /^# wall\/thin/);
      assert.match(out, /0\.8/);
    });
    it('an unknown rule: the nearest, and the list, on standard error, 2', () => {
      const { status, out, err } = started('why', 'wall/thn');
      assert.equal(status, 2);
      assert.equal(out, '');
      assert.match(err, /wall\/thin\?/);
    });
  });

  describe('new', () => {
    it('writes a shop and a job that are sound', () => {
      assert.equal(run('new', 'yoke').out.trim(), 'yoke.part.yaml');
      assert.equal(run('new', 'campus.shop').out.trim(), 'campus.shop.yaml');
      assert.equal(run('new', 'flight-set.job.yaml').out.trim(), 'flight-set.job.yaml');
      const checked = run('check', '.');
      assert.equal(checked.status, 0, checked.out);
      assert.match(checked.out, /1 piece of 1 part/);
      assert.equal(run('new', 'campus.shop').status, 2);
    });

    it('writes a commented part that passes', () => {
      const { status, out } = run('new', 'my-part');
      assert.equal(status, 0);
      assert.equal(out, 'my-part.part.yaml\n');
      const text = readFileSync(join(folder, 'my-part.part.yaml'), 'utf8');
      assert.ok((text.match(/#/g)?.length ?? 0) > 10);
      const checked = run('check', 'my-part.part.yaml', '--format', 'json');
      const findings = JSON.parse(checked.out).files[0].findings;
      assert.deepEqual(findings, []);
    });
    it('never writes over a file, and refuses a name that is none', () => {
      write('yoke.part.yaml', 'mine');
      assert.equal(run('new', 'yoke').status, 2);
      assert.equal(readFileSync(join(folder, 'yoke.part.yaml'), 'utf8'), 'mine');
      for (const name of ['../up', 'Big', '9x', '']) assert.equal(run('new', name).status, 2, name);
      assert.ok(!existsSync(join(folder, '..', 'up.part.yaml')));
    });
  });

  describe('words', () => {
    it('help and version go to standard output', () => {
      assert.match(started('help').out, /scribeline COMMAND/);
      assert.match(started('--version').out, /^\d+\.\d+\.\d+\n$/);
    });
    for (const words of [
      [],
      ['chekc'],
      ['check'],
      ['check', '.', '--format', 'xml'],
      ['check', '.', '--max-warnings', '-1'],
      ['check', '--bogus', '.'],
      ['serve'],
      ['explain'],
    ]) {
      it(`${JSON.stringify(words)} is refused in a sentence, with 2`, () => {
        const { status, out, err } = run(...words);
        assert.equal(status, 2);
        assert.equal(out, '');
        assert.match(err, /^scribeline: .+\n/);
        assert.ok(!err.includes('    at '), 'no stack');
      });
    }
  });
});
