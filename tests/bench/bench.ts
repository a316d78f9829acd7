/**
 * How fast, as ratios within one run: `npm run bench`, or a part of it: `npm run bench -- keystroke`. Machines differ and
 * are busy; a ratio to what `yaml` alone takes on the same text in the same minute says something, a number of milliseconds
 * hardly does.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { CLI, Client } from '../server/client';
import { exactTimes } from './exact';
import { flowStyle, longEngraving, openQuote } from './heavy';
import { bareParse, checkPeakMb, waitsFor } from './in-time';
import { keystrokeRows } from './keystroke';
import { pageTimes } from './page';
import { plate } from './parts';
import { planTimes } from './plan';
import { SLOW } from './slow-parts';
import { stepTimes, viewTimes } from './view';

const EDITS = 200;
/** What opening a part takes at least in a server that has just started, whatever its text, ms. */
const FIRST_MS = 80;
/** Whoever asks about another document meanwhile waits at most so long, ms. */
const MEANWHILE_MS = 50;
/** What a text may take at most, MB. */
const MOST_MB = 250;
const ROOT = resolve(__dirname, '../..');

interface Spread {
  readonly p50: number;
  readonly p95: number;
}

function spread(samples: readonly number[]): Spread {
  const sorted = [...samples].sort((a, b) => a - b);
  const at = (q: number) => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]!;
  return { p50: at(0.5), p95: at(0.95) };
}

const ms = (n: number) => `${n.toFixed(n < 10 ? 2 : 0)} ms`;
const say = (line: string) => process.stdout.write(`${line}\n`);

/** `yaml` alone, in a process of its own so that its code is as warm as the server's. */
function yamlAlone(text: string, folder: string): Spread {
  const file = join(folder, 'parse.part.yaml');
  writeFileSync(file, text);
  const program = `
    const { parseDocument } = require('yaml');
    const text = require('fs').readFileSync(${JSON.stringify(file)}, 'utf8');
    for (let i = 0; i < 30; i++) parseDocument(text);
    const times = [];
    for (let i = 0; i < ${EDITS}; i++) {
      const edited = text.replace('wall: ', 'wall: ' + (i % 7) + ' + ');
      const start = performance.now(); parseDocument(edited); times.push(performance.now() - start);
    }
    console.log(JSON.stringify(times));`;
  return spread(
    JSON.parse(execFileSync(process.execPath, ['-e', program], { cwd: ROOT, encoding: 'utf8' })) as number[],
  );
}

/** Change → diagnostics in the built server over a real connection. */
async function keystrokes(text: string): Promise<Spread> {
  const client = await Client.start();
  const uri = 'file:///bench/plate.part.yaml';
  client.open(uri, text);
  await client.pull(uri);
  const times: number[] = [];
  const document = () => client.text(uri);
  for (let i = 0; i < EDITS + 30; i++) {
    const all = [...document().matchAll(/depth: \d[\d.]*$/gm)];
    const match = all[Math.floor(all.length / 2)]!;
    const before = document().slice(0, match.index).split('\n');
    const line = before.length - 1;
    const character = before[line]!.length;
    const range = { start: { line, character }, end: { line, character: character + match[0].length } };
    const begun = performance.now();
    client.edit(uri, [{ range, newText: `depth: ${(4 + (i % 9) * 0.25).toFixed(2)}` }]);
    await client.pull(uri);
    if (i >= 30) times.push(performance.now() - begun);
  }
  await client.stop();
  return spread(times);
}

async function start(): Promise<{ server: Spread; bare: Spread }> {
  const server: number[] = [];
  const bare: number[] = [];
  for (let i = 0; i < 15; i++) {
    let begun = performance.now();
    spawnSync(process.execPath, ['-e', 'require("yaml")'], { cwd: ROOT });
    bare.push(performance.now() - begun);
    begun = performance.now();
    const client = await Client.start();
    client.open('file:///bench/plate.part.yaml', plate(12));
    await client.pull('file:///bench/plate.part.yaml');
    server.push(performance.now() - begun);
    await client.stop();
  }
  return { server: spread(server), bare: spread(bare) };
}

function thousand(folder: string): { check: number; parse: number } {
  const parts = join(folder, 'thousand');
  mkdirSync(parts);
  for (let i = 0; i < 1000; i++) writeFileSync(join(parts, `p${i}.part.yaml`), plate(40, i));
  const program = `
    const { parseDocument } = require('yaml'); const fs = require('fs');
    for (const f of fs.readdirSync(${JSON.stringify(parts)})) parseDocument(fs.readFileSync(${JSON.stringify(parts)} + '/' + f, 'utf8'));`;
  let begun = performance.now();
  spawnSync(process.execPath, ['-e', program], { cwd: ROOT, stdio: 'inherit' });
  const parse = performance.now() - begun;
  begun = performance.now();
  const run = spawnSync(process.execPath, [CLI, 'check', parts, '--format', 'json'], { maxBuffer: 1 << 30 });
  const check = performance.now() - begun;
  if (run.status === 2) throw new Error(String(run.stderr));
  return { check, parse };
}

function row(what: string, ratio: number, goal: number, detail: string): void {
  say(
    `${ratio <= goal ? 'holds ' : 'MISSED'}  ${what.padEnd(44)} ${ratio.toFixed(2).padStart(6)} (goal ${goal})   ${detail}`,
  );
}

/** Texts that cost much: what one waits for, beside a bare parse of the same text, but never less than a turn's time. */
async function slowTexts(folder: string): Promise<void> {
  for (const [name, text] of SLOW) {
    const parse = bareParse(text, folder);
    const { firstMs, allMs, others, megabytes } = await waitsFor(text);
    const most = Math.max(2.5 * parse, FIRST_MS);
    const detail = `first ${ms(firstMs)}, all ${ms(allMs)}, bare parse ${ms(parse)}`;
    row(`${name}: first findings / parse`, firstMs / parse, Number((most / parse).toFixed(2)), detail);
    const sorted = [...others].sort((a, b) => a - b);
    const at = (q: number) => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? 0;
    const spreadOf = `p50 ${ms(at(0.5))} p95 ${ms(at(0.95))} p99 ${ms(at(0.99))} most ${ms(at(1))}`;
    row(`${name}: longest wait elsewhere / parse`, at(1) / parse, Number((MEANWHILE_MS / parse).toFixed(2)), spreadOf);
    if (megabytes !== undefined) row(`${name}: server at most, MB`, megabytes, MOST_MB, '');
  }
}

/** Texts of one letter or line many times over, checked on the command line: what memory that takes. */
async function heavyTexts(folder: string): Promise<void> {
  for (const [name, text] of [
    ['2,000 holes on one line', flowStyle(2000)],
    ['engraving of 200,000 letters', longEngraving(200_000)],
    ['open quote before 100,000 lines', openQuote(100_000)],
    ...SLOW,
  ] as const) {
    const most = await checkPeakMb(text, folder);
    if (most !== undefined) row(`${name}: check at most, MB`, most, MOST_MB, '');
  }
}

/** One depth changed, and what one waits for until the findings are there, beside a bare parse of the same text. */
async function changes(folder: string): Promise<void> {
  for (const count of [60, 400]) {
    const text = plate(count);
    const yaml = yamlAlone(text, folder);
    const change = await keystrokes(text);
    const detail = `change p50 ${ms(change.p50)} p95 ${ms(change.p95)}; yaml p50 ${ms(yaml.p50)} p95 ${ms(yaml.p95)}`;
    row(`${count} features: change → diagnostics / yaml, p50`, change.p50 / yaml.p50, 1.5, detail);
    row(`${count} features: change → diagnostics / yaml, p95`, change.p95 / yaml.p95, 1.5, '');
  }
}

async function planned(): Promise<void> {
  for (const line of await keystrokeRows()) say(line);
}

async function starts(): Promise<void> {
  const { server, bare } = await start();
  const allowed = (bare.p50 * 1.5 + 300) / bare.p50;
  row(
    'spawn → first diagnostics / bare node + yaml',
    server.p50 / bare.p50,
    Number(allowed.toFixed(2)),
    `server p50 ${ms(server.p50)} p95 ${ms(server.p95)}; bare p50 ${ms(bare.p50)}`,
  );
}

function many(folder: string): void {
  const { check, parse } = thousand(folder);
  row('check of 1,000 parts / parsing them', check / parse, 3, `check ${ms(check)}, parse ${ms(parse)}`);
}

async function exactSolids(): Promise<void> {
  for (const count of [60, 400]) {
    const { coldMs, warmMs, megabytes } = await exactTimes(count);
    say(
      `told    ${count} features: exact solid and STEP   from nothing ${ms(coldMs)}, warm p50 ${ms(warmMs)}, ${megabytes.toFixed(2)} MB`,
    );
  }
}

function plans(): void {
  for (const [count, rounds, goalMs] of [
    [20, 20, 300],
    [60, 10, 1000],
    [200, 3, 4000],
  ] as const) {
    const { fresh, again, setups, attempts, judgedAgain, whole } = planTimes(count, rounds);
    const [first, second] = [spread(fresh).p50, spread(again).p50];
    say(
      `${whole && first <= goalMs ? 'holds ' : 'MISSED'}  ${count} features: plan   from nothing p50 ${ms(first)} (goal ${goalMs} ms), after one edit p50 ${ms(second)}, ${(second / first).toFixed(2)} of it; ${whole ? 'all cut in' : 'NOT all cut in'} ${setups} set-ups, ${attempts} tried, ${judgedAgain} judged again`,
    );
  }
}

async function pages(parse400: number): Promise<void> {
  const page = await pageTimes(60, 30);
  if (!page) return;
  const [drawn, letters] = [spread(page.drawn), spread(page.letters)];
  say(
    `told    60 features: page, message → frame / parse of 400   p50 ${(drawn.p50 / parse400).toFixed(2)} p95 ${(drawn.p95 / parse400).toFixed(2)}, of ${ms(drawn.p50)}, ${(letters.p50 / 1000).toFixed(0)} kB a message`,
  );
}

async function pictures(folder: string): Promise<void> {
  const parse400 = yamlAlone(plate(400), folder).p50;
  for (const [what, times] of [
    ['redraw', (await viewTimes(60, EDITS + 30)).edits],
    ['step', await stepTimes(60)],
  ] as const) {
    const { p50, p95 } = spread(times);
    row(
      `60 features: ${what} / parse of 400`,
      p50 / parse400,
      0.5,
      `p50 ${ms(p50)} p95 ${ms(p95)}, parse ${ms(parse400)}`,
    );
  }
  await pages(parse400);
  for (const [count, edits] of [
    [60, 500],
    [400, 60],
  ] as const) {
    const view = await viewTimes(count, edits);
    const { p50, p95 } = spread(view.edits);
    const memory = view.memory
      ? `, memory ${view.memory.early.toFixed(0)} → ${view.memory.late.toFixed(0)} MB over ${edits} edits`
      : '';
    say(
      `told    ${count} features: picture   from nothing ${ms(view.coldMs)}, change → picture p50 ${ms(p50)} p95 ${ms(p95)}, ${view.triangles} triangles, ${view.megabytes.toFixed(2)} MB${memory}`,
    );
  }
}

/** What is measured, by the word that picks it: `npm run bench -- keystroke`. */
const MEASURES: Readonly<Record<string, (folder: string) => Promise<void> | void>> = {
  keystroke: changes,
  slow: slowTexts,
  heavy: heavyTexts,
  planned,
  start: starts,
  many,
  exact: exactSolids,
  plan: plans,
  picture: pictures,
};

async function main(words: readonly string[]): Promise<void> {
  const unknown = words.find((word) => !(word in MEASURES));
  if (unknown !== undefined)
    throw new Error(`There is no '${unknown}' to measure: there are ${Object.keys(MEASURES).join(', ')}.`);
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-bench-'));
  try {
    for (const [word, measure] of Object.entries(MEASURES))
      if (words.length === 0 || words.includes(word)) await measure(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

main(process.argv.slice(2)).catch((error: unknown) => {
  process.stderr.write(`${String(error instanceof Error ? error.stack : error)}\n`);
  process.exitCode = 1;
});
