/**
 * A keystroke on a part whose set-ups are written: each number of every planned part changed, one by one, and the time to
 * all findings, as a ratio to one bare parse of the bench's 400-feature text in the same run. Once by the judge alone in
 * this process, counted in processor time; once through the built server over a real connection. Taking the change back is
 * told apart: the text before is kept, and would make the figures look better than a new text is.
 *
 * `npx tsx tests/bench/keystroke.ts` runs this alone; a word behind it picks parts by name.
 */
import { readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { performance } from 'node:perf_hooks';
import { parseDocument } from 'yaml';
import { checkPart } from '../../server/src/rules/check';
import { Client } from '../server/client';
import { plate } from './parts';
import { type NumberEdit, numberEdits, type PlannedPart, plannedParts } from './planned';

interface Keystrokes {
  readonly parts: number;
  readonly edits: number;
  /** Of all edits, ms. */
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
  readonly most: number;
  /** Which edit took longest. */
  readonly slowest: string;
  /** Taking a change back, ms. */
  readonly back: number;
  /** One bare parse of the 400-feature text meanwhile, ms. */
  readonly parse: number;
}

/** A frame of a screen, and what one may at most lose of them, as ratios to the bare parse. */
const GOALS = { p99: 0.5, most: 1.5, megabytes: 160 } as const;

interface Timed {
  readonly ms: number;
  readonly what: string;
}

class Clock {
  readonly #text = plate(400);
  readonly #parses: number[] = [];
  readonly #edits: Timed[] = [];
  readonly #backs: number[] = [];

  constructor(private readonly now: () => number) {
    for (let i = 0; i < 20; i++) parseDocument(this.#text);
  }

  /** Between the edits, so that a busy machine is as busy for it. */
  parse(): void {
    const begun = this.now();
    parseDocument(this.#text);
    this.#parses.push(this.now() - begun);
  }

  async edit(what: string, work: () => unknown, back: () => unknown): Promise<void> {
    const begun = this.now();
    await work();
    const done = this.now();
    this.#edits.push({ ms: done - begun, what });
    await back();
    this.#backs.push(this.now() - done);
  }

  result(parts: number): Keystrokes {
    const sorted = this.#edits.sort((a, b) => a.ms - b.ms);
    const at = (q: number) => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]!;
    const { ms: most, what: slowest } = at(1);
    const parses = this.#parses.sort((a, b) => a - b);
    const [p50, p95, p99] = [at(0.5).ms, at(0.95).ms, at(0.99).ms];
    const back = this.#backs.sort((a, b) => a - b)[Math.floor(0.99 * this.#backs.length)]!;
    return { parts, edits: sorted.length, p50, p95, p99, most, slowest, back, parse: parses[parses.length >> 1]! };
  }
}

const after = ({ text }: PlannedPart, { start, end, newText }: NumberEdit) =>
  text.slice(0, start) + newText + text.slice(end);

const named = ({ name, text }: PlannedPart, { start, end, newText }: NumberEdit) =>
  `${name}: ${text.slice(text.lastIndexOf('\n', start) + 1, end).trim()} → ${newText}`;

/** By the judge alone. */
async function judged(parts: readonly PlannedPart[]): Promise<Keystrokes> {
  const clock = new Clock(() => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  });
  for (const part of parts) {
    clock.parse();
    let last = checkPart(part.text, part.shop);
    const judge = (text: string) => {
      last = checkPart(text, part.shop, last);
      return last.findings;
    };
    for (const edit of numberEdits(part.text)) {
      await clock.edit(
        named(part, edit),
        () => judge(after(part, edit)),
        () => judge(part.text),
      );
    }
  }
  return clock.result(parts.length);
}

/** Through the server, with a picture and a plan of each part, so that its threads are there too; and what memory it then holds. */
async function served(parts: readonly PlannedPart[]): Promise<Keystrokes & { megabytes: number | undefined }> {
  const client = await Client.start();
  const clock = new Clock(() => performance.now());
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

/** Lines for the bench's table. */
export async function keystrokeRows(only = ''): Promise<readonly string[]> {
  const parts = plannedParts().filter((p) => p.name.includes(only));
  const [alone, server] = [await judged(parts), await served(parts)];
  const row = (what: string, ratio: number, goal: number, detail: string) =>
    `${ratio <= goal ? 'holds ' : 'MISSED'}  ${what.padEnd(44)} ${ratio.toFixed(2).padStart(6)} (goal ${goal})   ${detail}`;
  const told = (k: Keystrokes) =>
    `${k.parts} parts, ${k.edits} edits: p50 ${k.p50.toFixed(1)}, p95 ${k.p95.toFixed(1)}, p99 ${k.p99.toFixed(1)}, most ${k.most.toFixed(1)} ms; taken back p99 ${k.back.toFixed(1)} ms; parse ${k.parse.toFixed(1)} ms`;
  const { megabytes } = server;
  return [
    ...(
      [
        ['judge alone', alone],
        ['server', server],
      ] as const
    ).flatMap(([who, k]) => [
      row(`planned parts, ${who}: change / parse, p99`, k.p99 / k.parse, GOALS.p99, told(k)),
      row(`planned parts, ${who}: change / parse, most`, k.most / k.parse, GOALS.most, k.slowest),
    ]),
    ...(megabytes === undefined
      ? []
      : [row('planned parts: server with all threads, MB', megabytes, GOALS.megabytes, cpus()[0]?.model ?? '')]),
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
