// Every test but those in an editor or a browser and the benchmarks, in as many mocha processes as there are processors (four at most):
// each takes the next lot of files when it is done with one. What a lot prints is shown when it ends. Exits with 1 where one failed.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { globSync } from 'tinyglobby';

const MOCHA = join(dirname(createRequire(import.meta.url).resolve('mocha/package.json')), 'bin/mocha.js');
/** Folders that are run together, what takes longest first: each process loads the program anew, which takes as long as a small folder. */
const TOGETHER = [
  ['rules'],
  ['planning'],
  ['simulator'],
  ['server'],
  ['fuzz'],
  ['cli'],
  ['service'],
  ['geometry', 'proof', 'oracle'],
  ['export', 'sheet', 'process'],
];
/** Two processes: they mostly start others. */
const HALVED = ['cli'];

const files = globSync('tests/**/*.test.ts', {
  ignore: ['tests/editor/**', 'tests/bench/**'],
}).sort();
const folderOf = (file) => file.split('/')[1];
/** In a browser, for which they mostly wait: one process beside the others, from the first, so that it is fetched once. */
const isPage = (file) => /^tests\/pages?\//.test(file);
const lots = [...TOGETHER, undefined].map((folders) =>
  files
    .filter((f) => !isPage(f))
    .filter((f) => (folders ? folders.includes(folderOf(f)) : !TOGETHER.some((named) => named.includes(folderOf(f))))),
);
const halves = (list) =>
  HALVED.includes(folderOf(list[0])) ? [0, 1].map((half) => list.filter((_, i) => i % 2 === half)) : [list];
const queue = lots.flatMap(halves);

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
    broken.push(`${lot.length === 1 ? lot[0] : [...new Set(lot.map(folderOf))].join(', ')}: ${failuresIn(said)}`);
  }
}
const hands = Array.from({ length: Math.min(4, availableParallelism()) }, () => hand(queue));
await Promise.all([hand([files.filter(isPage)]), ...hands]);
for (const text of broken) console.log(`\n${text}`);
console.log(`\nunit: ${sums.passed} passed, ${sums.failed} failed, ${sums.skipped} skipped`);
process.exitCode = failed || sums.passed === 0 ? 1 : 0;
