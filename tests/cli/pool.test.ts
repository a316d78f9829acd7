/**
 * Many files are judged by processes; here those of the built program are ended over their work, in every way that a
 * process ends. Whatever was judged is told as ever, what was not is said, and the status is 2 then.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { runs } from '../fuzz/runs';
import { CLI, SOUND } from './odd-files';

const DYING = resolve(__dirname, 'dying.cjs');
/** Handed on to those that judge: soon full. */
const SMALL_HEAP = '--max-old-space-size=200';
/** Has one processor, whatever there is. */
const ALONE = resolve(__dirname, 'alone.cjs');
/** Enough for several processes (`FILES_A_HAND` in node/check-pool.ts). */
const FILES = 82;
const OVER = 'p41.part.yaml';
/** A parameter that nothing uses: a warning, and a safe fix. */
const SPARE = SOUND.replace('features:', 'parameters:\n  spare: 3\nfeatures:');

describe('processes that judge, ended over their work', function () {
  this.timeout(120_000);
  let folder: string;
  before(function () {
    // One processor has one judge.
    if (availableParallelism() < 2) this.skip();
    folder = mkdtempSync(join(tmpdir(), 'scribeline-pool-'));
    for (let n = 0; n < FILES; n++) writeFileSync(join(folder, `p${n}.part.yaml`), SPARE);
  });
  after(() => folder && rmSync(folder, { recursive: true, force: true }));

  function check(die: Readonly<Record<string, string>>, ...words: readonly string[]) {
    const env = { ...process.env, ...die };
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [
        ...(die.DIE === 'memory' ? [SMALL_HEAP] : []),
        '--require',
        DYING,
        CLI,
        'check',
        folder,
        '--format',
        'json',
        ...words,
      ],
      { cwd: folder, env, encoding: 'utf8', timeout: 100_000, killSignal: 'SIGKILL' },
    );
    assert.doesNotMatch(stderr, /^\s+at /m, 'no stack');
    const { files, unread = [] } = JSON.parse(stdout) as { files: { path: string }[]; unread?: string[] };
    return {
      status,
      files: files.map((f) => f.path),
      unread,
      said: stderr.trimEnd().split('\n').filter(Boolean),
      stdout,
    };
  }

  const all = () => Array.from({ length: FILES }, (_, n) => `p${n}.part.yaml`).sort();

  it('is the same, byte for byte, as one process says it: as JSON and as text with facts', () => {
    writeFileSync(join(folder, 'q.part.yaml'), SPARE.replace('features:', 'feature:'));
    for (const words of [['json'], ['text', '--facts']]) {
      const said = (...hook: readonly string[]) =>
        spawnSync(process.execPath, [...hook, CLI, 'check', folder, '--format', ...words], {
          cwd: folder,
          encoding: 'utf8',
          timeout: 100_000,
          maxBuffer: 1 << 26,
        });
      const [many, one] = [said(), said('--require', ALONE)];
      assert.ok(many.stdout.length > 1000);
      assert.deepEqual([one.status, one.stdout, one.stderr], [many.status, many.stdout, many.stderr], words[0]);
      assert.equal(one.status, 1);
    }
    rmSync(join(folder, 'q.part.yaml'));
  });

  for (const [way, why] of Object.entries({ memory: /memory limit/ }))
    it(`${way}, once: another judges the file, and the answer is whole`, () => {
      const once = join(folder, `once-${way}`);
      const { status, files, said, unread } = check({ DIE: way, DIE_OVER: OVER, DIE_ONCE: once });
      assert.deepEqual({ status, files, unread }, { status: 0, files: all(), unread: [] });
      assert.equal(said.length, 1);
      assert.match(said[0]!, /^scribeline: A checking process ended .*others took over\.$/);
      assert.match(said[0]!, why);
    });

  it('throws, each time: that file is said as not judged, all others are judged', () => {
    const { status, files, unread, said } = check({ DIE: 'throw', DIE_OVER: OVER });
    assert.deepEqual(
      files,
      all().filter((name) => name !== OVER),
    );
    assert.deepEqual(unread, [`${OVER} could not be checked: each process that checked it ended.`]);
    assert.equal(status, 2);
    assert.equal(said.length, 2, said.join('\n'));
    assert.match(said[0]!, /made up by a test/);
  });

  it('ended from outside again and again: every file is judged, or said', () => {
    for (const every of ['3', '1', '17', '2', '40'].slice(0, runs(1))) {
      const { status, files, unread } = check({ DIE: 'terminate', DIE_OVER: every });
      const named = [...files, ...unread.map((u) => u.slice(0, u.indexOf(' ')))].sort();
      assert.deepEqual(named, all(), `every ${every}`);
      assert.equal(status, unread.length > 0 ? 2 : 0);
    }
  });

  it('none can begin: this one judges', () => {
    const { status, files, unread } = check({ DIE: 'born' });
    assert.deepEqual({ status, files, unread }, { status: 0, files: all(), unread: [] });
  });

  it('--fix writes every file once, whoever is ended', () => {
    const once = join(folder, 'once-fix');
    const { status } = check({ DIE: 'exit', DIE_OVER: OVER, DIE_ONCE: once }, '--fix');
    assert.equal(status, 0);
    for (const name of all()) {
      const text = readFileSync(join(folder, name), 'utf8');
      assert.ok(!text.includes('spare') && text.includes('seat:'), name);
    }
  });
});
