/**
 * The built program, loaded once and asked again and again: what a test of its answers needs, for a twentieth of what it
 * costs to start it each time. In the thread of this file the asker's lines are passed on, so that the asker can wait for
 * the answer; in the process of this file the program runs.
 */
const { fork } = require('node:child_process');
const { resolve } = require('node:path');
const { isMainThread, workerData } = require('node:worker_threads');

if (!isMainThread) {
  const { port, flag } = workerData;
  const program = fork(__filename, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  const answer = (ran) => {
    port.postMessage(ran);
    Atomics.store(flag, 0, 1);
    Atomics.notify(flag, 0);
  };
  program.on('message', answer);
  program.on('exit', (code, signal) => answer({ status: null, out: '', err: `the program ended: ${code ?? signal}` }));
  port.on('message', (asked) => program.send(asked));
} else {
  const { runIn } = require(resolve(__dirname, '../../dist/cli.js'));
  process.on('message', async ({ folder, words }) => {
    const [out, err] = [[], []];
    const streams = { colours: false, out: (text) => void out.push(text), err: (text) => void err.push(text) };
    const failed = (error) => {
      err.push(String(error?.stack ?? error));
      return 2;
    };
    const status = await runIn(folder, words, streams).catch(failed);
    process.send({ status, out: out.join(''), err: err.join('') });
  });
  process.on('disconnect', () => process.exit());
}
