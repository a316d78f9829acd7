/**
 * Each file operation of each writer fails in turn: the file is then the old one or the new one, byte for byte, no other
 * file is touched, and the exit status tells which. So careful databases prove their commits (SQLite, "How SQLite Is
 * Tested", section on I/O error testing: the n-th operation fails, once or from then on, for every n).
 */
import assert from 'node:assert/strict';
import { runs } from '../fuzz/runs';
import { FAULTS, type Fault, faulty } from './faults';
import { contentsOf, dropFolder, LEFTOVER, makeFolder, run, WRITERS, type Writer } from './writers';

interface Tried {
  readonly after: Map<string, string>;
  readonly status: number;
  readonly err: string;
  readonly done: readonly string[];
}

async function tried(writer: Writer, at: number, fault: Fault, lasting: boolean): Promise<Tried> {
  const folder = makeFolder(writer.files);
  try {
    const { disk, done } = faulty(at, fault, lasting);
    const { status, err } = await run(writer.words, folder, disk);
    return { after: contentsOf(folder), status, err, done };
  } finally {
    dropFolder(folder);
  }
}

/** What is there without any fault: before, and after. */
async function untroubled(writer: Writer) {
  const folder = makeFolder(writer.files);
  const before = contentsOf(folder);
  dropFolder(folder);
  const { after, done, status } = await tried(writer, Number.POSITIVE_INFINITY, 'EIO', false);
  assert.ok(status < 2);
  return { before, after, operations: done };
}

function judge({ target }: Writer, t: Tried, before: Map<string, string>, after: Map<string, string>, what: string) {
  const now = t.after.get(target);
  const isOld = now === before.get(target);
  const isNew = now === after.get(target);
  assert.ok(isOld || isNew, `${what}: neither the old file nor the new one:\n${now}`);
  for (const [name, content] of t.after) {
    if (name === target) continue;
    if (LEFTOVER.test(name)) assert.match(t.err, /\.tmp beside it is left over/, `${what}: leaves ${name}`);
    else assert.equal(content, before.get(name), `${what}: touches ${name}`);
  }
  for (const name of before.keys()) assert.ok(t.after.has(name), `${what}: ${name} is gone`);
  assert.ok(isNew || t.status === 2, `${what}: not written, and status ${t.status}`);
  assert.ok(isNew || t.err.includes(target), `${what}: not written, and not said: ${t.err}`);
  assert.ok(t.status === 2 || isNew, what);
}

const ROUND = ['ENOSPC', 'EIO', 'EACCES'];

describe('saving on a disk that fails', function () {
  this.timeout(120_000);

  for (const writer of WRITERS)
    it(`${writer.name}: the file is the old one or the new one, whichever operation fails`, async () => {
      const { before, after, operations } = await untroubled(writer);
      assert.notEqual(before.get(writer.target), after.get(writer.target), 'it does write');
      assert.ok(operations.length >= 8, `only ${operations.join()} are seen`);
      let left = 0;
      for (const [at, operation] of operations.entries())
        for (const { fault, lasting } of FAULTS) {
          if (fault === 'short' && operation !== 'file.write') continue;
          // Each of the one writer whose runs are short, and of all in a longer run: they share what saves.
          if (
            runs(1) === 1 &&
            writer.name !== 'new' &&
            operation !== 'file.write' &&
            fault !== ROUND[at % ROUND.length]
          )
            continue;
          const t = await tried(writer, at, fault, lasting);
          judge(writer, t, before, after, `${fault} ${lasting ? 'from' : 'at'} ${at} (${operation})`);
          if (t.status === 2) left++;
        }
      assert.ok(left > operations.length / 2, 'most faults do keep the file from being written');
    });

  it('one file that cannot be written stops neither the others nor the exit status', async () => {
    const [plan, fix] = [WRITERS[0]!, WRITERS[1]!];
    for (const { words, files, target } of [plan, fix]) {
      const text = files[target]!;
      const folder = makeFolder({ 'a.part.yaml': text, 'b.part.yaml': text, 'c.part.yaml': text });
      const { disk } = faulty(9, 'ENOSPC');
      const { status, err } = await run([words[0]!, '.', words[2]!], folder, disk);
      const now = contentsOf(folder);
      dropFolder(folder);
      const written = ['a', 'b', 'c'].filter((n) => !now.get(`${n}.part.yaml`)!.endsWith(text));
      assert.equal(written.length, 2, err);
      assert.match(err, /the disk is full \(ENOSPC\)\. Nothing was changed\./);
      assert.equal(status, 2);
    }
  });
});
