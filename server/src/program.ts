/** What the words of a command line ask for: the answer to standard output, everything else to standard error, an exit status. */
import { type Command, readArguments, renamed } from './node/arguments';
import { runCheck } from './node/check';
import { helpOf } from './node/help';
import { UsageError } from './node/options';
import type { Terminal } from './node/terminal';
import { runWhy } from './node/why';

/** `serving`: not an answer but a language server that goes on, which is the door's to begin. */
type Ended = 0 | 1 | 2 | 'serving';

export async function runProgram(words: readonly string[], screen: Terminal): Promise<Ended> {
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
  return run(command, screen);
}

/** What only some commands need is loaded when it is asked for. */
async function run(command: Command, screen: Terminal): Promise<Ended> {
  switch (command.name) {
    case 'help':
      screen.print(...helpOf(command.of));
      return 0;
    case 'version':
      screen.print(screen.version);
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
    case 'new': {
      const { runNew } = await import('./node/new');
      return runNew(command, screen);
    }
    case 'import':
      return (await import('./node/import')).runImport(command, screen);
    case 'serve':
      return 'serving';
    default:
      return command satisfies never;
  }
}
