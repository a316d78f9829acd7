/**
 * In git's own way: differences of parts by their sense, merges entry by entry. Set up in one repository by two lines of its
 * `.git/info/attributes`, which no clone gets, and four settings of its own; both go again. No history is written.
 */
import { mkdir, readFile, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { partLines } from '../compare/tell';
import { resolvePart } from '../model/part';
import { mergeTexts } from '../text/merge';
import { readText } from '../text/read';
import type { Command } from './arguments';
import { Gate } from './gate';
import { attributesFile, setConfig, unsetConfig } from './git';
import { nodeHost } from './host';
import { markOf } from './mark';
import { whyNot } from './read-file';
import { save } from './save';
import type { Terminal } from './terminal';

/** Our lines among those of others. */
const LINES = [
  '*.part.yaml diff=scribeline merge=scribeline',
  '*.part.yml diff=scribeline merge=scribeline',
  '*.shop.yaml merge=scribeline',
  '*.job.yaml merge=scribeline',
  '*.shop.yml merge=scribeline',
  '*.job.yml merge=scribeline',
];

/** 0: done; 2: there is no repository, or it cannot be written. */
export async function runGit(on: boolean, terminal: Terminal): Promise<0 | 2> {
  const path = await attributesFile(terminal.cwd);
  if (typeof path !== 'string') {
    terminal.say(`${path.why}.`);
    return 2;
  }
  const why = (await writeLines(path, on, terminal)) ?? (await configure(on, terminal));
  if (why) {
    terminal.say(why);
    return 2;
  }
  terminal.print(
    on
      ? 'git diff shows parts by their meaning, git merge merges documents entry by entry. `scribeline git off` undoes it.'
      : 'git is as it was before: its own differences and merges.',
  );
  return 0;
}

/** Our lines put into the file or taken out of it, all others kept byte for byte; why not, where that cannot be done. */
async function writeLines(path: string, on: boolean, { disk }: Terminal): Promise<string | undefined> {
  let before: Buffer | undefined;
  try {
    await mkdir(dirname(path), { recursive: true });
    const info = await stat(path).catch(() => undefined);
    if (info && !info.isFile()) return `${path} is no ordinary file: nothing was changed.`;
    before = info && (await readFile(path));
  } catch (error) {
    return `${path} ${whyNot(error as NodeJS.ErrnoException)}. Nothing was changed.`;
  }
  // A letter for each byte: whatever encoding the other lines are in, they come out as they were.
  const old = before?.toString('latin1') ?? '';
  const others = old.split(/(?<=\n)/).filter((line) => !LINES.includes(line.trimEnd()));
  const open = others.length > 0 && !others[others.length - 1]!.endsWith('\n');
  if (open && on) others.push('\n');
  const text = others.join('') + (on ? LINES.map((line) => `${line}\n`).join('') : '');
  if (text === old) return undefined;
  const bytes = Buffer.from(text, 'latin1');
  const why = await save({ path, bytes, over: before ?? 'nothing' }, new Gate([dirname(path)], disk), disk);
  return why && `${path} ${why}`;
}

async function configure(on: boolean, { cwd, script }: Terminal): Promise<string | undefined> {
  if (!on) {
    await unsetConfig(cwd, ['diff.scribeline', 'merge.scribeline']);
    return undefined;
  }
  const program = `${quoted(process.execPath)} ${quoted(script)}`;
  const settings = {
    // A name may begin with a dash.
    'diff.scribeline.textconv': `${program} tell --`,
    'diff.scribeline.cachetextconv': 'false',
    'merge.scribeline.name': 'Scribeline: entry by entry',
    // Here a percent sign stands for a file.
    'merge.scribeline.driver': `${program.replaceAll('%', '%%')} merge %O %A %B`,
  };
  try {
    await setConfig(cwd, settings);
    return undefined;
  } catch (error) {
    const said = String((error as { stderr?: unknown }).stderr ?? error).trim();
    return `git could not keep the settings: ${said.split('\n')[0]}. \`scribeline git off\` undoes what was done.`;
  }
}

/** A word for the shell that git hands it to, whatever is in it. */
function quoted(word: string): string {
  return `'${word.replaceAll("'", "'\\''")}'`;
}

/** Larger files are told by their length alone, bytes. */
const MOST_MARKED = 50_000_000;

/** The text of a file that git names or the user: nothing hangs over a pipe, and nothing that is no UTF-8 is taken for text. */
async function textAt(path: string, terminal: Terminal): Promise<string | { readonly why: string }> {
  const host = nodeHost((line) => terminal.say(line), [dirname(path)]);
  const text = await host.read(path);
  return text === undefined ? { why: 'is not there' } : text;
}

/**
 * 0: told; 2: nothing is there. A text that is no part is told as it stands: a difference must not hide it. Of what is no text
 * its length and a mark of its bytes are told: one file that cannot be told would end the differences of all.
 */
export async function runTell(path: string, terminal: Terminal): Promise<0 | 2> {
  const file = resolve(terminal.cwd, path);
  const text = await textAt(file, terminal);
  if (typeof text !== 'string') {
    const info = await stat(file).catch(() => undefined);
    if (!info?.isFile()) {
      terminal.say(`${path} ${text.why}.`);
      return 2;
    }
    const mark = info.size <= MOST_MARKED ? markOf([(await readFile(file)).toString('latin1')]) : 'not read';
    terminal.print(`This file ${text.why}: ${info.size} bytes, ${mark}.`);
    return 0;
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
  const names = [base, ours, theirs];
  const paths = names.map((p) => resolve(terminal.cwd, p));
  const texts: string[] = [];
  for (const [i, path] of paths.entries()) {
    const text = await textAt(path, terminal);
    if (typeof text !== 'string') {
      terminal.say(`${names[i]} ${text.why}. Nothing was merged.`);
      return 2;
    }
    texts.push(text);
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
  if (bad) terminal.say('the merged text cannot be read. Check it before you commit it.');
  return conflicts.length > 0 || bad ? 1 : 0;
}
