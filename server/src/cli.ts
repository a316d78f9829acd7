/** The command line's door: words in, answer to standard output, everything else to standard error, an exit status. */
import { existsSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { version } from '../../package.json';
import { type Command, HELP, readArguments, UsageError } from './node/arguments';
import { runCheck } from './node/check';
import { joinCrew } from './node/crew';
import { nearest } from './reference/nearest';
import { rulePage } from './rules/page';
import { RULES, ruleByName } from './rules/registry';
import { starterPart } from './service/starter';

const out = (text: string) => process.stdout.write(text);
const err = (text: string) => process.stderr.write(text);

async function main(words: readonly string[]): Promise<0 | 1 | 2 | undefined> {
  let command: Command;
  try {
    command = readArguments(words);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    err(`scribeline: ${error.message}\n(scribeline help tells all it can do)\n`);
    return 2;
  }
  switch (command.name) {
    case 'help':
      out(HELP);
      return 0;
    case 'version':
      out(`${version}\n`);
      return 0;
    case 'check': {
      const colours = process.stdout.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb';
      return runCheck(command, { cwd: process.cwd(), version, colours, script: __filename, out, err });
    }
    case 'plan': {
      // Loaded only when asked for.
      const { runPlan } = await import('./node/plan');
      return runPlan(command, { cwd: process.cwd(), version, colours: false, script: __filename, out, err });
    }
    case 'export': {
      // Loaded only when asked for.
      const { runExport } = await import('./node/export');
      return runExport(command, { cwd: process.cwd(), version, colours: false, script: __filename, out, err });
    }
    case 'explain':
      return explain(command.rule);
    case 'new':
      return startPart(command.part);
    case 'serve':
      // Loaded only when asked for: a check should not wait for the protocol's code.
      await import('./server');
      return undefined;
  }
}

function explain(name: string): 0 | 2 {
  const rule = ruleByName(name);
  if (rule) {
    out(rulePage(rule));
    return 0;
  }
  const near = nearest(
    name,
    RULES.map((r) => r.name),
  );
  err(`scribeline: there is no rule \`${name}\`.${near ? ` Did you mean ${near}?` : ''} The rules are:\n`);
  for (const known of RULES) err(`  ${known.name.padEnd(28)} ${known.summary}\n`);
  return 2;
}

async function startPart(name: string): Promise<0 | 2> {
  const plain = name.replace(/\.part\.ya?ml$/, '');
  if (!/^[a-z][a-z0-9-]*$/.test(plain)) {
    err(
      `scribeline: \`${name}\` is no name for a part: small letters, digits and dashes, a letter first (yoke, bearing-block-2).\n`,
    );
    return 2;
  }
  const path = join(process.cwd(), `${plain}.part.yaml`);
  if (existsSync(path)) {
    err(`scribeline: ${plain}.part.yaml is already there; nothing was written.\n`);
    return 2;
  }
  await writeFile(path, starterPart(plain), { encoding: 'utf8', flag: 'wx' });
  out(`${plain}.part.yaml\n`);
  return 0;
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
      err(`scribeline: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
      process.exitCode = 2;
    },
  );
