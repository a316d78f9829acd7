/**
 * The built program is killed before each operation that changes the disk, in turn, and in the middle of each write: the
 * file is then the old one or the new one, no other is touched, and the next run does what was asked.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { random, runs } from '../fuzz/runs';
import { contentsOf, dropFolder, LEFTOVER, makeFolder, run, WRITERS, type Writer } from '../node/writers';

const CLI = resolve(__dirname, '../../dist/cli.js');
const KILLER = resolve(__dirname, 'killed.cjs');

describe('the program, killed while it writes', function () {
  this.timeout(120_000);
  let logs: string;
  before(() => {
    logs = mkdtempSync(join(tmpdir(), 'scribeline-killed-'));
  });
  after(() => rmSync(logs, { recursive: true, force: true }));

  /** Runs it in a folder; answers the signal that ended it, and what it did to the disk until then. */
  function killed({ words }: Writer, folder: string, at: number) {
    const log = join(logs, 'log');
    rmSync(log, { force: true });
    const env = { ...process.env, KILL_AT: String(at), KILL_LOG: log };
    const ended = spawnSync(process.execPath, ['--require', KILLER, CLI, ...words], { cwd: folder, env });
    const operations = existsSync(log) ? readFileSync(log, 'utf8').trimEnd().split('\n') : [];
    return { signal: ended.signal, status: ended.status, operations };
  }

  /**
   * Where it is killed: everywhere, of the one writer whose runs are short, and in a longer run of every one. Else in the
   * middle of the first write, at the last step, and at one between that is drawn: all writers share what saves.
   */
  function moments(writer: Writer, operations: readonly string[]): readonly number[] {
    const all = [...operations.keys()];
    if (runs(1) > 1 || writer.name === 'new') return all;
    const [half, last] = [operations.indexOf('write, half done'), operations.length - 1];
    const between = random(WRITERS.indexOf(writer)).pick(all.filter((at) => at !== half && at !== last));
    return [half, last, between];
  }

  for (const writer of WRITERS)
    it(`${writer.name}: the file is the old one or the new one, wherever it is killed`, async () => {
      const whole = makeFolder(writer.files);
      const before = contentsOf(whole);
      const { status, operations } = killed(writer, whole, Number.POSITIVE_INFINITY);
      const after = contentsOf(whole);
      dropFolder(whole);
      assert.equal(status, 0);
      assert.ok(operations.includes('write, half done') && operations.includes('sync'), operations.join());
      let renamed = 0;
      for (const at of moments(writer, operations)) {
        const folder = makeFolder(writer.files);
        const what = `killed before ${at} (${operations[at]})`;
        assert.equal(killed(writer, folder, at).signal, 'SIGKILL', what);
        const found = contentsOf(folder);
        const now = found.get(writer.target);
        assert.ok(now === before.get(writer.target) || now === after.get(writer.target), `${what}:\n${now}`);
        if (now === after.get(writer.target)) renamed++;
        const others = [...found].filter(([name]) => name !== writer.target && !LEFTOVER.test(name));
        assert.deepEqual(
          others,
          [...before].filter(([name]) => name !== writer.target),
          what,
        );
        await goesOn(writer, folder, after, what);
        dropFolder(folder);
      }
      assert.ok(renamed > 0 && renamed < operations.length, 'it is killed before and after the file has its name');
    });

  /** What is left of the killed run stands in nobody's way. */
  async function goesOn({ words, target }: Writer, folder: string, after: Map<string, string>, what: string) {
    const { err } = await run(words, folder);
    assert.equal(contentsOf(folder).get(target), after.get(target), what);
    assert.doesNotMatch(err, /hard links|could not be written/, what);
  }
});
