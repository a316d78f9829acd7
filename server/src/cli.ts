/** The command line's door: words in, answer to standard output, everything else to standard error, an exit status. */
import { version } from '../../package.json';
import { type Command, HELP, readArguments, UsageError } from './node/arguments';
import { runCheck } from './node/check';
import { joinCrew } from './node/crew';
import { runNew } from './node/new';
import { terminal } from './node/terminal';
import { nearest } from './reference/nearest';
import { rulePage } from './rules/page';
import { RULES, ruleByName } from './rules/registry';

const screen = terminal(
  { cwd: process.cwd(), version, script: __filename },
  {
    colours: process.stdout.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb',
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
  },
);

async function main(words: readonly string[]): Promise<0 | 1 | 2 | undefined> {
  let command: Command;
  try {
    command = readArguments(words);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    screen.say(error.message);
    screen.aside('(scribeline help tells all it can do)');
    return 2;
  }
  switch (command.name) {
    case 'help':
      screen.print(...HELP.trimEnd().split('\n'));
      return 0;
    case 'version':
      screen.print(version);
      return 0;
    case 'check':
      return runCheck(command, screen);
    case 'plan': {
      // Loaded only when asked for.
      const { runPlan } = await import('./node/plan');
      return runPlan(command, screen);
    }
    case 'export': {
      // Loaded only when asked for.
      const { runExport } = await import('./node/export');
      return runExport(command, screen);
    }
    case 'explain':
      return explain(command.rule);
    case 'new':
      return runNew(command.part, screen);
    case 'serve':
      // Loaded only when asked for: a check should not wait for the protocol's code.
      await import('./server');
      return undefined;
  }
}

function explain(name: string): 0 | 2 {
  const rule = ruleByName(name);
  if (rule) {
    screen.print(...rulePage(rule).trimEnd().split('\n'));
    return 0;
  }
  const near = nearest(
    name,
    RULES.map((r) => r.name),
  );
  screen.say(`there is no rule \`${name}\`.${near ? ` Did you mean ${near}?` : ''} The rules are:`);
  screen.aside(...RULES.map((known) => `  ${known.name.padEnd(28)} ${known.summary}`));
  return 2;
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader went away (`| head`): nothing more to say.
  if (error.code === 'EPIPE') process.exit(0);
});

if (!joinCrew())
  main(process.argv.slice(2)).then(
    (status) => {
      if (status !== undefined) process.exitCode = status;
    },
    (error: unknown) => {
      const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
      const [first = '', ...rest] = told.split('\n');
      screen.say(first);
      screen.aside(...rest);
      process.exitCode = 2;
    },
  );
