/** The command line's door: words in, answer to standard output, everything else to standard error, an exit status. */
import { isatty } from 'node:tty';
import { version } from '../../package.json';
import { type Command, readArguments, renamed } from './node/arguments';
import { Asking } from './node/asking';
import { runCheck } from './node/check';
import { joinPool } from './node/check-pool';
import { helpOf } from './node/help';
import { UsageError } from './node/options';
import { Output } from './node/output';
import { terminal } from './node/terminal';
import { runWhy } from './node/why';

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

async function main(words: readonly string[]): Promise<0 | 1 | 2 | undefined> {
  let command: Command;
  try {
    command = readArguments(words);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    screen.say(error.message);
    screen.aside('(scribeline help lists all commands)');
    return 2;
  }
  for (const word of renamed(words)) screen.say(word);
  return run(command);
}

/** What only some commands need is loaded when it is asked for. */
async function run(command: Command): Promise<0 | 1 | 2 | undefined> {
  switch (command.name) {
    case 'help':
      screen.print(...helpOf(command.of));
      return 0;
    case 'version':
      screen.print(version);
      return 0;
    case 'check':
      return runCheck(command, screen);
    case 'plan': {
      const { runPlan } = await import('./node/plan');
      return runPlan(command, screen);
    }
    case 'export': {
      const { runExport } = await import('./node/export');
      return runExport(command, screen);
    }
    case 'sheet': {
      const { runSheet } = await import('./node/sheet');
      return runSheet(command, screen);
    }
    case 'job': {
      const { runJob } = await import('./node/job');
      return runJob(command, screen);
    }
    case 'git':
    case 'tell':
    case 'merge': {
      const { runGit, runMerge, runTell } = await import('./node/git-drivers');
      if (command.name === 'git') return runGit(command.on, screen);
      return command.name === 'tell' ? runTell(command.path, screen) : runMerge(command, screen);
    }
    case 'record': {
      const { runRecord } = await import('./node/record');
      return runRecord(command, screen);
    }
    case 'compare': {
      const { runCompare } = await import('./node/compare');
      return runCompare(command, screen);
    }
    case 'tables': {
      const { runTables } = await import('./node/tables');
      return runTables(command, screen);
    }
    case 'why':
      return runWhy(command.rule, screen);
    case 'new':
      return begun(command);
    case 'serve':
      // Loaded only when asked for: a check should not wait for the protocol's code.
      await import('./server');
      // The editor went away without a word.
      process.stdout.on('error', () => process.exit(1));
      return undefined;
    default:
      return command satisfies never;
  }
}

async function begun(command: Extract<Command, { name: 'new' }>): Promise<0 | 2> {
  const { runNew } = await import('./node/new');
  return runNew(command, screen).finally(() => asking.end());
}

/** An answer that did not come out whole is none, whatever it was. */
function statusWhenWritten(status: 0 | 1 | 2): 0 | 1 | 2 {
  if (output.failure === undefined) return status;
  screen.say(`the answer could not be written: ${output.failure}.`);
  return 2;
}

if (!joinPool())
  main(process.argv.slice(2)).then(
    (status) => {
      if (status !== undefined) process.exitCode = statusWhenWritten(status);
    },
    (error: unknown) => {
      const whole = error instanceof Error ? (error.stack ?? error.message) : String(error);
      const [first = '', ...rest] = whole.split('\n');
      screen.say(first);
      screen.aside(...rest);
      process.exitCode = 2;
    },
  );
