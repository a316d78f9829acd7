/** The command line as its npm package has it, put in elsewhere; the workflow and the hook of the examples run with it. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parse } from 'yaml';
import { HAS_GIT } from './folder';

const ROOT = resolve(__dirname, '../..');
const GIMBAL = join(ROOT, 'examples/gimbal');
const REVIEW = join(ROOT, 'examples/review');
const MOST_BYTES = 13e6;
const IDENTITY = {
  GIT_AUTHOR_NAME: 'a',
  GIT_AUTHOR_EMAIL: 'a@example.org',
  GIT_COMMITTER_NAME: 'a',
  GIT_COMMITTER_EMAIL: 'a@example.org',
};

interface Step {
  readonly run?: string;
  readonly if?: string;
}

describe('the packed command line', function () {
  this.timeout(300_000);
  let folder = '';
  let tarball = '';
  const sh = (program: string, words: readonly string[], env: NodeJS.ProcessEnv = {}) => {
    const { status, stdout, stderr } = spawnSync(program, words, {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, ...IDENTITY, npm_config_cache: join(folder, '.cache'), ...env },
    });
    return { status, out: stdout, err: stderr };
  };
  const run = (...words: readonly string[]) => sh(join(folder, 'node_modules/.bin/scribeline'), words);

  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-packed-'));
    mkdirSync(join(folder, 'tools'));
    const packed = sh(process.execPath, [join(ROOT, 'server/npm/pack.mjs'), join(folder, 'tools')]);
    assert.equal(packed.status, 0, packed.err);
    tarball = packed.out.trim();
    writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
    // An empty cache and no net: nothing may be fetched with it.
    const installed = sh('npm', ['install', '--offline', '--no-audit', '--no-fund', '--no-save', tarball]);
    assert.equal(installed.status, 0, installed.err);
    cpSync(GIMBAL, join(folder, 'gimbal'), { recursive: true, filter: (file) => !file.endsWith('faulty') });
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('has every piece that a piece of it loads', () => {
    const there = join(folder, 'node_modules/scribeline/dist');
    const loaded = readdirSync(there)
      .filter((name) => name.endsWith('.js'))
      .flatMap((name) => [...readFileSync(join(there, name), 'utf8').matchAll(/require\(["']\.\/([\w-]+\.js)["']\)/g)])
      .map(([, name]) => name!)
      .filter((name) => existsSync(join(ROOT, 'dist', name)));
    assert.ok(loaded.length > 8, loaded.join());
    assert.deepEqual(
      [...new Set(loaded)].filter((name) => !existsSync(join(there, name))),
      [],
    );
  });

  it('is one program without dependencies, within 13 MB', () => {
    const manifest = JSON.parse(readFileSync(join(folder, 'node_modules/scribeline/package.json'), 'utf8'));
    assert.deepEqual(Object.keys(manifest.bin), ['scribeline']);
    assert.equal(manifest.dependencies, undefined);
    assert.deepEqual(
      readdirSync(join(folder, 'node_modules')).filter((n) => !n.startsWith('.')),
      ['scribeline'],
    );
    assert.ok(statSync(tarball).size < MOST_BYTES, String(statSync(tarball).size));
    for (const file of [
      'LICENSE',
      'README.md',
      'dist/THIRD-PARTY-NOTICES.txt',
      'dist/kernel/LICENSE',
      'dist/fonts/LICENSE',
    ])
      assert.ok(existsSync(join(folder, 'node_modules/scribeline', file)), file);
  });

  it('judges, plans, and writes what needs kernel, mesher, solver and fonts', () => {
    const part = 'gimbal/parts/bearing-block.part.yaml';
    const checked = run('check', part);
    assert.equal(checked.status, 0, checked.err);
    for (const [name, starts] of [
      ['y.step', 'ISO-10303-21'],
      ['y.stl', ''],
      ['y.svg', '<'],
      ['y.pdf', '%PDF'],
    ] as const) {
      const made = name === 'y.pdf' ? run('sheet', part, '--to', name) : run('export', part, '--to', name);
      assert.equal(made.status, 0, name + made.err);
      assert.ok(
        readFileSync(join(folder, name), 'latin1').startsWith(starts) && statSync(join(folder, name)).size > 500,
        name,
      );
    }
    assert.equal(run('new', 'campus.shop').status, 0);
    assert.equal(run('check', 'campus.shop.yaml').status, 0);
    rmSync(join(folder, 'campus.shop.yaml'));
    writeFileSync(
      join(folder, 'one.job.yaml'),
      `job: one\nshop: gimbal/campus.shop.yaml\nparts:\n  block: { spec: ${part}, quantity: 3 }\n`,
    );
    const told = run('job', 'one.job.yaml', '--to', 'job.json');
    assert.ok(told.status !== 2, told.err);
    assert.ok(JSON.parse(readFileSync(join(folder, 'job.json'), 'utf8')).bars.length > 0);
  });

  (HAS_GIT ? it : it.skip)('the workflow of the examples runs, step by step, and the hook refuses an error', () => {
    const git = (...words: readonly string[]) => sh('git', words);
    writeFileSync(
      join(folder, '.gitignore'),
      'node_modules/\n.cache/\ntools/\n*.step\n*.stl\n*.svg\n*.pdf\njob.json\none.job.yaml\n',
    );
    git('init', '-q', '-b', 'main');
    cpSync(join(REVIEW, 'pre-commit'), join(folder, '.git/hooks/pre-commit'));
    git('add', '.');
    const first = git('commit', '-q', '--no-verify', '-m', 'The gimbal');
    assert.equal(first.status, 0, first.err);
    git('update-ref', 'refs/remotes/origin/main', 'HEAD');
    const path = join(folder, 'gimbal/parts/bearing-block.part.yaml');
    const was = readFileSync(path, 'utf8');
    const typo = was.replace(/^ {4}depth: /m, '    dept: ');
    assert.notEqual(typo, was);
    writeFileSync(path, typo);
    git('add', '.');
    const refused = git('commit', '-q', '-m', 'A slip');
    assert.notEqual(refused.status, 0, refused.out + refused.err);
    assert.match(refused.out + refused.err, /form\/schema/);

    const { jobs } = parse(readFileSync(join(REVIEW, 'parts.yml'), 'utf8'));
    const steps: readonly Step[] = jobs.parts.steps;
    const statuses = steps.flatMap(({ run: script }) => {
      if (script === undefined) return [];
      const ran = sh('bash', ['-e', '-c', script], { BASE: 'origin/main' });
      return [[script, ran.status, ran.out + ran.err] as const];
    });
    assert.deepEqual(
      statuses.map(([, status]) => status),
      [0, 1, 0, 0],
      statuses.map(([, , said]) => said).join('\n'),
    );
    assert.match(statuses[1]![2], /^::error file=gimbal\/parts\/bearing-block\.part\.yaml,line=/m);
    assert.match(readFileSync(join(folder, 'parts.md'), 'utf8'), /bearing-block/);
    const { body, comments } = JSON.parse(readFileSync(join(folder, 'comments.json'), 'utf8'));
    assert.match(body, /1 file checked: /);
    const line = typo.split('\n').findIndex((l) => l.startsWith('    dept: '));
    const own = comments.find((c: { line: number }) => c.line === line + 1);
    assert.deepEqual([own.path, own.side], ['gimbal/parts/bearing-block.part.yaml', 'RIGHT']);
    assert.ok(own.body.includes(`\`\`\`suggestion\n${was.split('\n')[line]}\n\`\`\``), own.body);

    writeFileSync(path, `${was}# looked at again\n`);
    git('add', '.');
    const taken = git('commit', '-q', '-m', 'A remark');
    assert.equal(taken.status, 0, taken.out + taken.err);
  });
});
