// What `npm test` runs once the program is built and checked: what can wait for the network beside what needs the processor,
// then both editors side by side, for each mostly waits. A step's output is shown whole: one that has a neighbour keeps it
// until it ends. Exits with 1 where one failed; the editors are not started when the rest did.
import { spawn } from 'node:child_process';

/** The script of package.json of that name; `quietly`: told when it is over. */
async function script(name, quietly = false) {
  const child = spawn('npm', ['run', name], {
    stdio: ['ignore', quietly ? 'pipe' : 'inherit', quietly ? 'pipe' : 'inherit'],
    shell: process.platform === 'win32',
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (said += chunk));
  const code = await new Promise((done) => child.on('close', done).on('error', () => done(1)));
  process.stdout.write(said);
  return code === 0;
}

/** In turn, up to the first that fails. */
const steps = [
  // What could not be fetched is asked for once more by the suite that needs it.
  async () => (await Promise.all([script('unit'), script('fetch:editor', true)]))[0],
  () => script('package'),
  async () => (await Promise.all([script('suite:editor'), script('suite:web', true)])).every(Boolean),
];
for (const step of steps)
  if (!(await step())) {
    process.exitCode = 1;
    break;
  }
