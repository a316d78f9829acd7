// Every test but those in an editor or a browser and the benchmarks, in as many mocha processes as there are processors (four at most):
// each takes the next lot of files when it is done with one. What a lot prints is shown when it ends. Exits with 1 where one failed.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { globSync } from 'tinyglobby';

const MOCHA = join(dirname(createRequire(import.meta.url).resolve('mocha/package.json')), 'bin/mocha.js');
/** What takes longest comes first; the rest folder by folder. */
const LONG = ['planning', 'simulator', 'cli', 'server', 'fuzz', 'proof', 'rules', 'process', 'geometry', 'oracle'];
/** Its own process each: they tell what memory is theirs. */
const ALONE = /memory/;

const files = globSync('tests/**/*.test.ts', {
  ignore: ['tests/editor/**', 'tests/bench/**'],
}).sort();
const folderOf = (file) => file.split('/')[1];
/** In a browser, for which they mostly wait: one process beside the others, from the first, so that it is fetched once. */
const isPage = (file) => /^tests\/pages?\//.test(file);
const lots = new Map();
for (const file of files.filter((f) => !isPage(f))) {
  const key = ALONE.test(file) ? file : file.split('/').length > 2 ? folderOf(file) : '.';
  lots.set(key, [...(lots.get(key) ?? []), file]);
}
const rank = (key) => (LONG.indexOf(folderOf(`tests/${key}/`)) + LONG.length + 1) % (LONG.length + 1) || 0;
// A long folder is two lots, so that no process is left alone with all of it.
const halves = ([key, list]) =>
  LONG.slice(0, 7).includes(key) && list.length > 5
    ? [list.filter((_, i) => i % 2 === 0), list.filter((_, i) => i % 2 === 1)]
    : [list];
const queue = [...lots].sort((a, b) => rank(a[0]) - rank(b[0])).flatMap(halves);

const sums = { passed: 0, failed: 0, skipped: 0 };
let failed = false;
const count = (text, word) => Number(new RegExp(`^ +(\\d+) ${word}`, 'm').exec(text)?.[1] ?? 0);

/** What failed is said once more at the end, where it is found. */
const broken = [];
/** From mocha's own list of failures on; else its last lines (a process that died says no list). */
const failuresIn = (text) => / +\d+ failing[\s\S]*/.exec(text)?.[0] ?? text.slice(-2000);

async function hand(queue) {
  for (let lot = queue.shift(); lot; lot = queue.shift()) {
    const child = spawn(process.execPath, [MOCHA, ...process.argv.slice(2), ...lot], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => (said += chunk));
    const code = await new Promise((done) => child.on('close', done));
    process.stdout.write(said);
    sums.passed += count(said, 'passing');
    sums.failed += count(said, 'failing');
    sums.skipped += count(said, 'pending');
    if (code === 0) continue;
    failed = true;
    broken.push(`${lot.length === 1 ? lot[0] : folderOf(lot[0])}: ${failuresIn(said)}`);
  }
}
const hands = Array.from({ length: Math.min(4, availableParallelism()) }, () => hand(queue));
await Promise.all([hand([files.filter(isPage)]), ...hands]);
for (const text of broken) console.log(`\n${text}`);
console.log(`\nunit: ${sums.passed} passed, ${sums.failed} failed, ${sums.skipped} skipped`);
process.exitCode = failed || sums.passed === 0 ? 1 : 0;
