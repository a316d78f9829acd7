/**
 * A keystroke on a part whose set-ups are written: each number of every planned part changed, one by one, as a ratio to one
 * bare parse of the bench's 400-feature text in the same run, in processor time: what else the machine does does not count.
 * Three figures: the judge alone to all findings, bundled as it ships; through the built server over a real connection to
 * the *first answer*, which an editor shows, each edit sent as soon as the one before is answered, whatever is still being
 * judged, what the thread that answers spends; and to the *complete answer*, what all threads spend. Then of each part.
 * Taking the change back is told apart: the text before is kept, and would make the figures look better than a new text is.
 *
 * `npx tsx tests/bench/keystroke.ts` runs this alone; a word behind it picks parts by name.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { buildSync } from 'esbuild';
import { Client } from '../server/client';
import { EditClock, type Keystrokes, spentHere } from './edit-clock';
import { named, numberEdits } from './edits';
import { type PlannedPart, plannedParts } from './planned';

/** A frame of a screen, and what one may at most lose of them, as ratios to the bare parse. */
const GOALS = { p99: 0.5, most: 1.5, megabytes: 160 } as const;
/** So many parts are open in a long day: the goal for memory is for them; all of the bench's are told beside. */
const OPEN = 31;

/** By the judge alone, in a process of its own that runs what ships: names that `tsx` keeps cost a quarter more. */
function judged(parts: readonly PlannedPart[]): Keystrokes {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-bench-'));
  try {
    const [program, input] = [join(folder, 'judge.js'), join(folder, 'parts.json')];
    buildSync({
      entryPoints: [join(__dirname, 'judge-alone.ts')],
      bundle: true,
      platform: 'node',
      target: 'node20',
      mainFields: ['module', 'main'],
      minifySyntax: true,
      outfile: program,
      logLevel: 'warning',
    });
    writeFileSync(input, JSON.stringify(parts.map(({ name, text, shopText }) => ({ name, text, shopText }))));
    return JSON.parse(execFileSync(process.execPath, [program, input], { encoding: 'utf8' })) as Keystrokes;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Through the server: to the first answer or to the complete one; with a picture and a plan of each part, so that its threads are there too; and what memory it then holds. */
async function served(
  parts: readonly PlannedPart[],
  answer: 'first' | 'complete',
): Promise<Keystrokes & { megabytes: number | undefined }> {
  // An editor that cannot be asked to ask again gets everything in one answer.
  const client = await Client.start({ refreshes: answer === 'first' });
  const pid = client.child.pid!;
  const spent = () => spentBy(pid, answer === 'first' ? 'main' : 'all');
  const clock =
    spent() === undefined ? new EditClock(() => performance.now()) : new EditClock(() => spent()!, spentHere);
  const uriOf = (i: number) => `file:///bench/${i}/part.part.yaml`;
  for (const [i, part] of parts.entries()) {
    clock.parse();
    const uri = uriOf(i);
    if (part.shopText !== undefined) client.open(`file:///bench/${i}/bench.shop.yaml`, part.shopText);
    client.open(uri, part.text);
    await client.pull(uri);
    const range = (from: number, to: number) => ({ start: placeAt(part.text, from), end: placeAt(part.text, to) });
    for (const edit of numberEdits(part.text)) {
      const { start, end, newText } = edit;
      const change = async (from: number, to: number, text: string) => {
        client.edit(uri, [{ range: range(from, to), newText: text }]);
        await client.pull(uri);
      };
      await clock.edit(
        part.name,
        named(part, edit),
        () => change(start, end, newText),
        () => change(start, start + newText.length, part.text.slice(start, end)),
      );
    }
  }
  for (const i of parts.keys()) {
    await client.connection.sendRequest('scribeline/picture', { uri: uriOf(i) });
    await client.connection.sendRequest('scribeline/plan', { uri: uriOf(i) });
  }
  const megabytes = residentMb(client.child.pid!);
  await client.stop();
  return { ...clock.result(parts.length), megabytes };
}

/** Processor time of a process, ms: of the thread that answers, or of all; undefined where the system does not tell. */
function spentBy(pid: number, which: 'main' | 'all'): number | undefined {
  try {
    const threads = which === 'main' ? [`${pid}`] : readdirSync(`/proc/${pid}/task`);
    return threads.reduce((ms, thread) => {
      const [ns] = readFileSync(`/proc/${pid}/task/${thread}/schedstat`, 'utf8').split(' ');
      return ms + Number(ns) / 1e6;
    }, 0);
  } catch {
    return undefined;
  }
}

/** Numbers lie on one line, so that the places before and behind an edit on it need no text of their own. */
function placeAt(text: string, offset: number) {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before[before.length - 1]!.length };
}

export function residentMb(pid: number): number | undefined {
  try {
    const kb = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return kb === undefined ? undefined : Number(kb) / 1024;
  } catch {
    return undefined;
  }
}

/** p50, p95, p99 and most of one part, as ratios to the parse. */
function ratios(name: string, { byPart, parse }: Keystrokes): string {
  const of = byPart[name];
  return of ? [of.p50, of.p95, of.p99, of.most].map((ms) => (ms / parse).toFixed(2)).join(' ') : 'no number to change';
}

/** Lines for the bench's table. */
export async function keystrokeRows(only = ''): Promise<readonly string[]> {
  const parts = plannedParts().filter((p) => p.name.includes(only));
  const alone = judged(parts);
  const [first, server] = [await served(parts, 'first'), await served(parts, 'complete')];
  const row = (what: string, ratio: number, goal: number, detail: string) =>
    `${ratio <= goal ? 'holds ' : 'MISSED'}  ${what.padEnd(56)} ${ratio.toFixed(2).padStart(6)} (goal ${goal})   ${detail}`;
  const told = (k: Keystrokes) =>
    `${k.parts} parts, ${k.edits} edits: p50 ${k.p50.toFixed(1)}, p95 ${k.p95.toFixed(1)}, p99 ${k.p99.toFixed(1)}, most ${k.most.toFixed(1)} ms; taken back p99 ${k.back.toFixed(1)} ms; parse ${k.parse.toFixed(1)} ms`;
  const memory: [number, number | undefined][] = [[parts.length, server.megabytes]];
  if (parts.length > OPEN) memory.unshift([OPEN, (await served(parts.slice(0, OPEN), 'complete')).megabytes]);
  const machine = cpus()[0]?.model ?? '';
  const all = [
    ['judge alone', alone],
    ['server, first answer', first],
    ['server, complete', server],
  ] as const;
  return [
    ...all.flatMap(([who, k]) => [
      row(`planned parts, ${who}: change / parse, p99`, k.p99 / k.parse, GOALS.p99, told(k)),
      row(`planned parts, ${who}: change / parse, most`, k.most / k.parse, GOALS.most, k.slowest),
    ]),
    ...memory.flatMap(([open, megabytes]) =>
      megabytes === undefined
        ? []
        : [row(`planned parts, ${open} open: server with all threads, MB`, megabytes, GOALS.megabytes, machine)],
    ),
    ...parts.map(
      ({ name }) => `told    ${name.padEnd(32)} ${all.map(([who, k]) => `${who} ${ratios(name, k)}`).join('; ')}`,
    ),
  ];
}

if (require.main === module) {
  keystrokeRows(process.argv[2]).then(
    (rows) => process.stdout.write(`${rows.join('\n')}\n`),
    (error: unknown) => {
      process.stderr.write(`${String(error instanceof Error ? error.stack : error)}\n`);
      process.exitCode = 1;
    },
  );
}
