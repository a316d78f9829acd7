/** The command line's door: its streams and its exit status. */
import { isatty } from 'node:tty';
import { version } from '../../package.json';
import { Asking } from './node/asking';
import { joinPool } from './node/check-pool';
import { Output } from './node/output';
import { type Streams, terminal } from './node/terminal';
import { runProgram } from './program';

/** For who has this file loaded already and asks it again and again, in whatever folder: what it says goes to `streams`. */
export function runIn(cwd: string, words: readonly string[], streams: Streams) {
  return runProgram(words, terminal({ cwd, version, script: __filename }, streams));
}

async function main(words: readonly string[]): Promise<void> {
  const output = new Output(1);
  /** What is lost here has nowhere to be told. */
  const aside = new Output(2);
  const asking = new Asking(() => process.stdin, process.stderr);
  const screen = terminal(
    { cwd: process.cwd(), version, script: __filename, ...(isatty(0) && isatty(2) && { ask: asking.ask }) },
    {
      colours: isatty(1) && !process.env.NO_COLOR && process.env.TERM !== 'dumb',
      out: (text) => output.write(text),
      err: (text) => aside.write(text),
    },
  );
  try {
    const ended = await runProgram(words, screen).finally(() => asking.end());
    if (ended === 'serving') return await serve();
    process.exitCode = ended;
    // An answer that did not come out whole is none, whatever it was.
    if (output.failure === undefined) return;
    screen.say(`the answer could not be written: ${output.failure}.`);
  } catch (error) {
    const whole = error instanceof Error ? (error.stack ?? error.message) : String(error);
    const [first = '', ...rest] = whole.split('\n');
    screen.say(first);
    screen.aside(...rest);
  }
  process.exitCode = 2;
}

/** Loaded only when asked for: a check should not wait for the protocol's code. */
async function serve(): Promise<void> {
  await import('./server');
  // The editor went away without a word.
  process.stdout.on('error', () => process.exit(1));
}

if (!joinPool() && require.main === module) void main(process.argv.slice(2));
