/** `scribeline check`: finds the documents, has them judged, prints the answer. */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { reportComments } from '../report/comments';
import { reportGithub } from '../report/github';
import { reportJson } from '../report/json';
import { reportJunit } from '../report/junit';
import { type Known, knownFrom, onlyNew } from '../report/known';
import { countOf, type Reported } from '../report/reported';
import { reportSarif } from '../report/sarif';
import { reportLines } from '../report/text';
import type { Command } from './arguments';
import type { Judged } from './check-files';
import { judgeAll } from './check-pool';
import { reviewedOf } from './comments';
import { type Found, findDocuments } from './files';
import { judgeFor } from './shop-option';
import { onlyChanged } from './since';
import type { Terminal } from './terminal';

type Check = Extract<Command, { name: 'check' }>;

/** Formats that have no place for what would do. */
const WITHOUT_FIXES: ReadonlySet<Check['format']> = new Set(['github', 'junit']);

export async function runCheck(command: Check, terminal: Terminal): Promise<0 | 1 | 2> {
  const found = await findDocuments(command.paths, terminal.cwd, true);
  const { troubles, folders } = found;
  const known = command.known === undefined ? undefined : await knownIn(command.known, terminal);
  const files = command.since === undefined ? found.files : await since(found.files, command.since, terminal);
  if (files === undefined || known === null) return 2;
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const { format } = command;
  const facts = command.facts && (format === 'text' || format === 'json') ? format : undefined;
  const judged = await judgeAll(
    files,
    {
      fix: command.fix,
      fixes: !WITHOUT_FIXES.has(format),
      folders,
      ...(facts && { facts }),
      ...(command.variant !== undefined && { variant: command.variant }),
      ...judge.set,
    },
    terminal.script,
    terminal.disk,
  );
  const unread = [...troubles, ...judged.unread, ...without(judged.lacking)];
  for (const sentence of [...judged.notes, ...unread]) terminal.say(sentence);
  const told = known ? { ...judged, reported: onlyNew(judged.reported, known) } : judged;
  const before = totalOf(judged.reported) - totalOf(told.reported);
  if (command.format === 'comments')
    terminal.data(reportComments(await reviewedOf(told.reported, command.since, terminal), unread, before));
  else print(command, { ...told, before }, unread, terminal);
  if (judged.lost || unread.length > 0) return 2;
  return isFailure(countOf(told.reported), command) ? 1 : 0;
}

function isFailure({ error, warning, hint }: ReturnType<typeof countOf>, { failAt, maxWarnings }: Check): boolean {
  const atWarning = failAt !== 'error' && warning > 0;
  return (
    error > 0 || atWarning || (failAt === 'hint' && hint > 0) || warning > (maxWarnings ?? Number.POSITIVE_INFINITY)
  );
}

/** Undefined where it could not be had, which has been said then. */
async function since(files: readonly Found[], revision: string, terminal: Terminal) {
  const changed = await onlyChanged(files, revision, terminal);
  if (!('why' in changed)) return changed;
  terminal.say(`--since ${revision}: ${changed.why}.`);
  return undefined;
}

/** Null where it could not be had, which has been said then. */
async function knownIn(file: string, terminal: Terminal): Promise<Known | null> {
  const read = await readFile(resolve(terminal.cwd, file), 'utf8').catch((error: NodeJS.ErrnoException) => ({
    why: error.code === 'ENOENT' ? 'is not there' : 'cannot be read',
  }));
  const known = typeof read === 'string' ? knownFrom(read) : read;
  if (!('why' in known)) return known;
  terminal.say(`--known ${file} ${known.why}. Make it with: scribeline check PATH --format json > ${file}`);
  return null;
}

/** A sentence for each shop or part that could not be had; the findings say it where it is named. */
function without(lacking: readonly string[]): readonly string[] {
  return [...new Set(lacking)].map((what) => {
    const count = lacking.filter((w) => w === what).length;
    return `${what}; ${count === 1 ? 'a file was' : `${count} files were`} checked without it.`;
  });
}

function totalOf(files: readonly Reported[]): number {
  const { error, warning, hint } = countOf(files);
  return error + warning + hint;
}

/** `before`: how many were known, and are not among them. */
type Told = Pick<Judged, 'reported' | 'facts'> & { readonly before: number };

function print(command: Check, told: Told, unread: readonly string[], terminal: Terminal): void {
  const { reported, facts, before } = told;
  if (command.format === 'json') terminal.data(reportJson(reported, unread));
  else if (command.format === 'sarif') terminal.data(reportSarif(reported, terminal.version, unread));
  else if (command.format === 'github') terminal.data(reportGithub(reported, unread));
  else if (command.format === 'junit') terminal.data(reportJunit(reported, unread));
  else
    (command.color ? terminal : terminal.plain()).print(
      ...facts,
      ...reportLines(reported, unread.length === 0, before),
    );
}
