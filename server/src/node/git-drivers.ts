/**
 * In git's own way: differences of parts by their sense, merges entry by entry. Set up in one repository by two lines of its
 * `.git/info/attributes`, which no clone gets, and four settings of its own; both go again. No history is written.
 */
import { mkdir, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { partLines } from '../compare/tell';
import { resolvePart } from '../model/part';
import { mergeTexts } from '../text/merge';
import { readText } from '../text/read';
import type { Command } from './arguments';
import { Gate } from './gate';
import { gitFolder, setConfig, unsetConfig } from './git';
import { save } from './save';
import type { Terminal } from './terminal';

/** What marks our two lines among those of others. */
const LINES = [
  '*.part.yaml diff=scribeline merge=scribeline',
  '*.part.yml diff=scribeline merge=scribeline',
  '*.shop.yaml merge=scribeline',
  '*.job.yaml merge=scribeline',
];

/** 0: done; 2: there is no repository, or it cannot be written. */
export async function runGit(on: boolean, terminal: Terminal): Promise<0 | 2> {
  const folder = await gitFolder(terminal.cwd);
  if (typeof folder !== 'string') {
    terminal.say(`${folder.why}.`);
    return 2;
  }
  const program = `"${process.execPath}" "${terminal.script}"`;
  const settings = {
    'diff.scribeline.textconv': `${program} tell`,
    'diff.scribeline.cachetextconv': 'false',
    'merge.scribeline.name': 'Scribeline: entry by entry',
    'merge.scribeline.driver': `${program} merge %O %A %B`,
  };
  const path = join(folder, 'info/attributes');
  await mkdir(dirname(path), { recursive: true });
  const before = await readFile(path, 'utf8').catch(() => '');
  const others = before.split('\n').filter((l) => l !== '' && !LINES.includes(l));
  const lines = on ? [...others, ...LINES] : others;
  const bytes = Buffer.from(lines.length > 0 ? `${lines.join('\n')}\n` : '', 'utf8');
  const why = await save({ path, bytes, over: 'anything' }, new Gate([folder], terminal.disk), terminal.disk);
  if (why) {
    terminal.say(`${path} ${why}`);
    return 2;
  }
  if (on) await setConfig(terminal.cwd, settings);
  else await unsetConfig(terminal.cwd, ['diff.scribeline', 'merge.scribeline']);
  terminal.print(
    on
      ? 'git diff shows parts by their sense, git merge puts documents together entry by entry. `scribeline git off` undoes it.'
      : 'git is as it was before: its own differences and merges.',
  );
  return 0;
}

/** 0: told; 2: it cannot be read. A text that is no part is told as it stands: a difference must not hide it. */
export async function runTell(path: string, terminal: Terminal): Promise<0 | 2> {
  const text = await readFile(resolve(terminal.cwd, path), 'utf8').catch(() => undefined);
  if (text === undefined) {
    terminal.say(`${path} cannot be read.`);
    return 2;
  }
  const part = resolvePart(readText(text));
  const readable = part.problems.length === 0 && part.body !== undefined;
  terminal.print(...(readable ? partLines(part) : text.trimEnd().split('\n')));
  return 0;
}

/** 0: both are in OURS; 1: some entries stand there twice, between conflict marks; 2: a file cannot be read or written. */
export async function runMerge(
  { base, ours, theirs }: Extract<Command, { name: 'merge' }>,
  terminal: Terminal,
): Promise<0 | 1 | 2> {
  const paths = [base, ours, theirs].map((p) => resolve(terminal.cwd, p));
  const texts = await Promise.all(paths.map((p) => readFile(p, 'utf8').catch(() => undefined)));
  const missing = texts.indexOf(undefined);
  if (missing >= 0) {
    terminal.say(`${[base, ours, theirs][missing]} cannot be read.`);
    return 2;
  }
  const [was, our, their] = texts as [string, string, string];
  const { text, conflicts } = mergeTexts(was, our, their, { ours: 'ours', theirs: 'theirs' });
  const path = paths[1]!;
  const gate = new Gate([dirname(path)], terminal.disk);
  const why = await save(
    { path, bytes: Buffer.from(text, 'utf8'), over: Buffer.from(our, 'utf8') },
    gate,
    terminal.disk,
  );
  if (why) {
    terminal.say(`${ours} ${why}`);
    return 2;
  }
  // Two good texts that make a bad one: left as it is, and said.
  const bad = conflicts.length === 0 && readText(text).problems.length > 0 && readText(our).problems.length === 0;
  if (conflicts.length > 0) terminal.say(`both sides changed ${conflicts.join(', ')}.`);
  if (bad) terminal.say('put together the text cannot be read: look at it before it is committed.');
  return conflicts.length > 0 || bad ? 1 : 0;
}
